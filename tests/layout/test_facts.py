"""A fact under the puzzle: whole, legible, and clear of all else, on every paper."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookmaker.layout import Setting, lay_out, place_puzzle
from bookmaker.layout.tools import told
from bookmaker.model import BoundBook, Frame, Line, PlacedPage, Puzzle, Side
from bookmaker.reading import read
from bookmaker.typeset import PAPERS, POINT, Sheet, ascent, missing_in, width
from bookmaker.words import load
from tests.layout.books import ONE, TWO
from tests.making import book_of, page_of

STAR = (("a", "b"), ("a", "c"), ("a", "d"), ("a", "e"), ("e", "f"), ("e", "g"))
FACT = "A newt that has lost its tail or a leg grows a new one, as good as the old one was before."
WORDS = load("en")


def page_with(fact: str, paper: str, scale: float = 1.0) -> PlacedPage:
    page = replace(page_of("newt", STAR, ONE, TWO), fact=fact, artist="the founders")
    puzzle = place_puzzle(page, None, Sheet(paper, recto=True, scale=scale), WORDS)
    side = Side("newt", "1", True, Puzzle(page))
    bound = BoundBook(book_of([page]), (side,))
    return lay_out(side, Setting(paper, WORDS, bound, {}, {"newt": puzzle}, scale))


def fact_lines(page: PlacedPage, fact: str = FACT) -> list[Line]:
    return [item for item in page.items if isinstance(item, Line) and item.text in fact]


@pytest.mark.parametrize(
    ("paper", "scale"), [*((paper, 1.0) for paper in PAPERS), ("a4", 1.4), ("letter", 1.4)]
)
def test_a_fact_stands_whole_and_clear_between_the_numbers_and_the_foot(
    paper: str, scale: float
) -> None:
    page = page_with(FACT, paper, scale)
    lines = [line for line in fact_lines(page) if len(line.text) > 2]
    assert " ".join(line.text for line in lines) == FACT
    assert all(line.size >= 12 * scale for line in lines)
    top = min(line.y - ascent("text", line.size) for line in lines)
    low = max(line.y + 0.28 * line.size * POINT for line in lines)
    boxes = [item.box for item in page.items if isinstance(item, Frame)]
    assert max(box.bottom for box in boxes) < top - 1
    foot = [item for item in page.items if isinstance(item, Line) and item.tag == "Footer"]
    assert all(low < item.y - item.size * POINT for item in foot)


@given(st.text("abcdefg  ", min_size=1, max_size=120), st.floats(100, 280))
@settings(deadline=None, max_examples=60)
def test_a_fact_keeps_its_words_and_its_measure(fact: str, measure: float) -> None:
    fitted = told(fact, measure)
    assert "".join("".join(fitted.lines).split()) == "".join(fact.split())
    assert all(width(line, "text", fitted.size) <= measure for line in fitted.lines)


def test_letters_of_a_fact_that_the_type_lacks_are_told(tmp_path: Path) -> None:
    chapter = tmp_path / "newt.toml"
    chapter.write_text(
        '[[page]]\nname = "Newt"\nlinks = ["a-b", "b-c"]\nfact = "A 蠑螈."\n', "utf-8"
    )
    book = read(chapter).book
    assert book is not None
    (problem,) = missing_in(book)
    assert (problem.code, problem.line) == ("missing-letters", 4)
    assert problem.message.startswith("the fact has letters")


def test_a_page_without_a_fact_gives_its_picture_all_the_room() -> None:
    plain, long = (
        place_puzzle(replace(page_of("newt", STAR, ONE, TWO), fact=fact), None, A5, WORDS)
        for fact in ("", FACT)
    )
    assert told("", 100).height == 0
    assert plain.frame.height > long.frame.height


A5 = Sheet("a5", recto=True)
