"""The demo book: every page certifies and lies clean on all papers, and the ramp rises."""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise

import pytest

from bookmaker.cache import MemoryCache
from bookmaker.compile import Prepared, prepare
from bookmaker.context import BuildContext, BuildOptions
from bookmaker.model import OrderedChapter
from tests.art.pictures import ART

BOOK = ART.parent / "chapters" / "river-term" / "book.toml"
PAPERS = ("a4", "letter", "a5", "half-letter")
KEPT = MemoryCache()


@cache
def prepared(paper: str) -> Prepared:
    """Everything before binding; no type is set, so the fonts' folder may be none."""
    return prepare(BOOK, BuildOptions(paper=paper), BuildContext(KEPT))


def chapters() -> tuple[OrderedChapter, ...]:
    ordered = prepared("a4").ordered
    assert ordered
    return ordered.chapters


@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_lies_clean_on_every_paper(paper: str) -> None:
    found = prepared(paper)
    assert [problem for problem in found.problems if problem.severity == "problem"] == []
    assert len(found.puzzles) == 24


def test_the_book_has_no_leap_and_no_other_warning() -> None:
    assert prepared("a4").problems == ()


def test_every_picture_of_the_book_is_there() -> None:
    book = prepared("a4").book
    assert book
    arts = {page.art for page in book.pages} | {page.mark for page in book.pages}
    arts |= {book.cover, *(chapter.ornament for chapter in book.chapters)}
    assert len(arts) == 24 + 24 + 1 + 8
    assert arts <= set(prepared("a4").pictures)


def test_work_rises_from_page_to_page_of_each_chapter() -> None:
    for chapter in chapters():
        works = [page.certificate.work for page in chapter.pages]
        assert all(one <= other for one, other in pairwise(works))


def test_the_first_chapter_has_three_to_five_spots() -> None:
    assert all(3 <= len(page.spots) <= 5 for page in chapters()[0].pages)


def test_the_next_six_climb_to_six_spots_and_at_most_steep() -> None:
    for chapter in chapters()[1:7]:
        assert max(len(page.spots) for page in chapter.pages) == 6
        assert all(page.certificate.band != "sheer" for page in chapter.pages)


def test_the_open_sea_is_optional_and_ends_in_eight_spots() -> None:
    sea = chapters()[7]
    assert sea.optional
    assert [len(page.spots) for page in sea.pages] == [7, 7, 8]
    assert [chapter.optional for chapter in chapters()[:7]] == [False] * 7


def test_there_are_at_least_ten_shapes_of_tree() -> None:
    shapes = {page.certificate.shape for chapter in chapters() for page in chapter.pages}
    assert len(shapes) >= 10


def test_no_introduction_counts_its_creatures() -> None:
    """A class's book may have more of them: two children draw for one page."""
    counts = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
    for chapter in chapters():
        words = re.findall(r"\w+", chapter.introduction.lower())
        assert not [word for word in words if word in counts or word.isdigit()]
