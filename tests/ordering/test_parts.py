"""Parts of a book: what is in them, and names for their files that are no other file's."""

from __future__ import annotations

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
    assert [each.page.id for each in part.pages] == ["newt", "eel"]
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


def test_what_the_book_has_not_got_is_told_with_the_nearest() -> None:
    whole = ordered(("newt", "frog"))
    for part, words in (
        (Part(pages=("nwet",)), "no page 'nwet'. The nearest is 'newt'"),
        (Part(chapters=("c7",)), "no chapter 'c7'"),
        (Part(weeks=(13,)), "no week 13"),
    ):
        with pytest.raises(NotInBook, match=words):
            take_part(whole, part)
