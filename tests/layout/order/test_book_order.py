"""Which side stands where: right-hand sides, numbers, blanks, and the order of a book's parts."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookmaker.layout.order.book_order import PartOfBook, bind_book, bind_part, numbers_in
from bookmaker.layout.order.leaves import written
from bookmaker.layout.shares import measure_shares
from bookmaker.model import (
    Answers,
    Blank,
    BoundBook,
    Contents,
    Cover,
    Credits,
    Handout,
    HowTo,
    Opener,
    Own,
    Puzzle,
    Record,
)
from bookmaker.teaching import worked_example
from bookmaker.words import load
from tests.layout.books import KINDS, Shape, bound_book, ordered_book

TITLES = dict.fromkeys(KINDS, "title")


def book(chapters: int, pages: int, paper: str = "a4", key: bool = True) -> BoundBook:
    return bound_book(ordered_book(Shape(chapters, pages), paper), with_key=key)


def test_a_book_has_its_parts_in_their_order() -> None:
    kinds = [type(side.content) for side in book(2, 2).sides]
    shown = [kind for kind in dict.fromkeys(kinds) if kind is not Blank]
    expected = [Cover, HowTo, Contents, Opener, Puzzle, Record, Own, Credits]
    assert shown[: len(expected)] == expected
    assert Answers in shown[len(expected) :]


@settings(max_examples=25, deadline=None)
@given(st.integers(1, 5), st.integers(1, 9))
def test_chapters_and_key_begin_on_right_hand_sides(chapters: int, pages: int) -> None:
    sides = book(chapters, pages).sides
    assert all(side.recto for side in sides if isinstance(side.content, Opener))
    assert next(side for side in sides if side.label.startswith("A")).recto
    assert all(side.recto == (place % 2 == 0) for place, side in enumerate(sides))


@settings(max_examples=25, deadline=None)
@given(st.integers(1, 5), st.integers(1, 9))
def test_right_hand_sides_bear_odd_numbers(chapters: int, pages: int) -> None:
    for side in book(chapters, pages).sides:
        if side.label.isdigit():
            assert side.recto == (int(side.label) % 2 == 1)


@settings(max_examples=25, deadline=None)
@given(st.integers(1, 5), st.integers(1, 40))
def test_every_page_stands_in_the_book_once_and_in_contents_and_record_once(
    chapters: int, pages: int
) -> None:
    bound = book(chapters, pages)
    expected = [page.id for page in bound.ordered.pages]
    puzzles = [s.content.page.id for s in bound.sides if isinstance(s.content, Puzzle)]
    assert puzzles == expected
    for kind in (Contents, Record):
        listed = [
            page.id
            for side in bound.sides
            if isinstance(side.content, kind)
            for entry in side.content.entries
            for page in entry.pages
        ]
        assert listed == expected


def test_names_of_sides_are_unique() -> None:
    names = [side.name for side in book(3, 7).sides]
    assert len(set(names)) == len(names)


def test_a_board_has_no_blanks_and_shows_the_example_step_by_step() -> None:
    sides = book(2, 3, "board").sides
    assert not any(isinstance(side.content, Blank | Record | Own) for side in sides)
    steps = [side.content.steps for side in sides if isinstance(side.content, HowTo)]
    assert steps == [(1,), (2,), (3,), (4,)]


def test_a_part_of_several_pages_opens_with_its_title_and_record() -> None:
    sides = part(2, 2).sides
    assert isinstance(sides[0].content, Handout)
    assert sides[0].content.title == "Week 3"
    assert sum(isinstance(side.content, Puzzle) for side in sides) == 4


def test_one_page_alone_has_nothing_before_it() -> None:
    assert [type(side.content) for side in part(1, 1).sides] == [Puzzle]


def test_a_part_for_a_board_asks_for_no_pencil() -> None:
    assert {type(side.content) for side in part(2, 2, "board").sides} == {Puzzle}


def test_a_week_of_one_page_has_its_title_and_its_record() -> None:
    sides = part(1, 1, is_week=True).sides
    assert [type(side.content) for side in sides] == [Handout, Puzzle]
    assert sides[0].label == "i"


def test_the_pages_of_a_part_bear_the_numbers_of_the_book() -> None:
    whole = ordered_book(Shape(3, 4))
    chapter = replace(whole.chapters[1], pages=whole.chapters[1].pages[2:])
    ordered = replace(whole, chapters=(chapter,))
    shares = measure_shares(ordered, load("en"))
    asked = PartOfBook("Week 3", numbers_in(whole), is_week=True)
    bound = bind_part(ordered, shares, asked, TITLES, with_key=False)
    labels = [side.label for side in bound.sides if isinstance(side.content, Puzzle)]
    assert labels == [numbers_in(whole)[page.id] for page in chapter.pages] == ["10", "11"]


def part(chapters: int, pages: int, paper: str = "a4", is_week: bool = False) -> BoundBook:
    ordered = ordered_book(Shape(chapters, pages), paper)
    shares = measure_shares(ordered, load("en"))
    asked = PartOfBook("Week 3", numbers_in(ordered), is_week)
    return bind_part(ordered, shares, asked, TITLES, with_key=False)


def test_front_matter_is_numbered_in_roman_numerals() -> None:
    """Values as in any table of Roman numerals."""
    table = {1: "i", 4: "iv", 9: "ix", 14: "xiv", 19: "xix", 40: "xl", 90: "xc", 108: "cviii"}
    assert {number: written("front", number) for number in table} == table


@pytest.mark.parametrize(("scale", "sides"), [(1.0, [(1, 2, 3, 4)]), (1.4, [(1, 2), (3, 4)])])
def test_the_worked_example_takes_two_sides_in_large_print(
    scale: float, sides: list[tuple[int, ...]]
) -> None:
    ordered = ordered_book(Shape(chapters=1, pages=2))
    shares = measure_shares(ordered, load("en"), scale)
    titles = {kind: kind for kind in ("howto", "contents", "record", "own", "credits")}
    bound = bind_book(ordered, shares, worked_example(ordered), titles, with_key=False)
    steps = [side.content.steps for side in bound.sides if isinstance(side.content, HowTo)]
    assert steps == sides
