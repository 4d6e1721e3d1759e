"""The demo book: every page certifies and lies clean on all papers, and the ramp rises."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from itertools import pairwise

import networkx as nx
import pytest
from scipy.stats import spearmanr

from bookmaker.cache import MemoryCache
from bookmaker.compile import Prepared, prepare
from bookmaker.context import BuildContext, BuildOptions
from bookmaker.linking.climb import targets
from bookmaker.model import CertifiedPage, Number, OrderedChapter
from bookmaker.reading import open_manifest
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


def test_the_spring_is_easy_and_the_sea_is_optional_and_ends_in_eight_spots() -> None:
    *main, sea = chapters()
    assert all(len(page.spots) <= 4 for page in main[0].pages)
    assert sea.optional
    assert len(sea.pages[-1].spots) == 8
    assert not any(chapter.optional for chapter in main)
    assert all(page.certificate.band != "sheer" for chapter in main for page in chapter.pages)


def test_work_climbs_from_the_first_page_of_the_main_run_to_its_last() -> None:
    """Asked for: Spearman at least 0.92, no page over 1.5 times its target, none under half."""
    main = [page for chapter in chapters()[:-1] for page in chapter.pages]
    works = [page.certificate.work for page in main]
    assert spearmanr(range(len(works)), works).statistic >= 0.92
    book = open_manifest(BOOK).book
    assert book
    for work, aim in zip(works, targets(book).values(), strict=False):
        assert 0.5 <= work / aim <= 1.5


def test_a_puzzle_comes_back_only_where_its_few_spots_have_no_other() -> None:
    pages = [page for chapter in chapters() for page in chapter.pages]
    times = Counter((page.certificate.shape, page.numbers) for page in pages)
    assert len(times) >= 20
    assert all(len(page.spots) <= 5 for page in pages if times[_puzzle(page)] > 1)


def test_two_trees_at_least_are_not_solved_by_one_zigzag() -> None:
    """No caterpillars: what is left without the leaves (by networkx) is no path."""
    trees = [nx.Graph(page.edges) for chapter in chapters() for page in chapter.pages]
    spines = [tree.subgraph(v for v in tree if tree.degree(v) > 1) for tree in trees]
    assert sum(any(degree > 2 for _, degree in spine.degree()) for spine in spines) >= 2


def _puzzle(page: CertifiedPage) -> tuple[str, tuple[Number, ...]]:
    return page.certificate.shape, page.numbers


def test_no_introduction_counts_its_creatures() -> None:
    """A class's book may have more of them: two children draw for one page."""
    counts = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
    for chapter in chapters():
        words = re.findall(r"\w+", chapter.introduction.lower())
        assert not [word for word in words if word in counts or word.isdigit()]
