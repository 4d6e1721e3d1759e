"""Parts of a book: what is in them, and names for their files that are no other file's."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bookmaker.model import OrderedBook
from bookmaker.ordering import NotInBook, Part, in_order, take_part
from tests.ordering.pages import book, page


def ordered(*chapters: tuple[str, ...]) -> OrderedBook:
    made = book(*([page(name, 10.0 + i) for i, name in enumerate(names)] for names in chapters))
    certified = {name: page(name, 10.0 + i) for names in chapters for i, name in enumerate(names)}
    return in_order(made, certified)


def test_a_part_keeps_the_books_order_whatever_the_order_it_is_asked_for_in() -> None:
    whole = ordered(("newt", "frog"), ("eel",))
    part, names = take_part(whole, Part(pages=("eel", "newt")))
    assert [each.id for each in part.pages] == ["newt", "eel"]
    assert names == ("eel", "newt")


@pytest.mark.parametrize(
    ("part", "names"),
    [
        (Part(pages=("newt",)), ("newt",)),
        (Part(pages=("newt", "newt")), ("newt",)),
        (Part(chapters=("c0.toml",)), ("c0",)),
        (Part(weeks=(1, 2)), ("week-1", "week-2")),
        (Part(pages=("key",)), ("page-key",)),  # bookmaker key makes <name>-key.pdf
        (Part(pages=("letter-key",)), ("page-letter-key",)),
        (Part(pages=("week-1",)), ("page-week-1",)),
        (Part(pages=("letter",), chapters=("c0",)), ("page-letter", "c0")),
        (Part(pages=("newt", "frog")), ("newt", "frog")),
        (Part(chapters=("c1",)), ("chapter-c1",)),  # c1 is a page, too
        (Part(pages=("c1",)), ("c1",)),
    ],
)
def test_no_part_has_a_word_of_another_part_or_of_a_variant(
    part: Part, names: tuple[str, ...]
) -> None:
    whole = ordered(("newt", "frog", "newt-frog", "key", "letter-key"), ("week-1", "letter", "c1"))
    assert take_part(whole, part)[1] == names


def in_a_class(*titles: str) -> OrderedBook:
    """Pages newt, frog, ... with the titles that children gave them."""
    whole = ordered(("newt", "frog", "eel"))
    (chapter,) = whole.chapters
    pages = (replace(each, name=title) for each, title in zip(chapter.pages, titles, strict=True))
    return replace(whole, chapters=(replace(chapter, pages=tuple(pages)),))


def test_a_title_that_a_child_gave_does_not_hide_another_page() -> None:
    part, _ = take_part(in_a_class("frog", "Dragon", "Egg"), Part(pages=("frog",)))
    assert [each.id for each in part.pages] == ["frog"]


@pytest.mark.parametrize("asked", ["Dragon", "dragon"])
def test_one_title_of_two_pages_is_answered_with_their_ids(asked: str) -> None:
    with pytest.raises(NotInBook, match=r"newt and eel"):
        take_part(in_a_class("Dragon", "Egg", "Dragon"), Part(pages=(asked,)))


def test_of_two_titles_that_differ_in_capitals_the_one_that_is_written_so_is_meant() -> None:
    part, _ = take_part(in_a_class("Dragon", "Egg", "dragon"), Part(pages=("dragon",)))
    assert [each.id for each in part.pages] == ["eel"]


def test_what_the_book_has_not_got_is_told_with_the_nearest() -> None:
    whole = ordered(("newt", "frog"))
    for part, words in (
        (Part(pages=("nwet",)), "no page 'nwet'. The nearest is 'newt'"),
        (Part(chapters=("c7",)), "no chapter 'c7'"),
        (Part(weeks=(13,)), "no week 13"),
    ):
        with pytest.raises(NotInBook, match=words):
            take_part(whole, part)
