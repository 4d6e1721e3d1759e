"""Small certified pages and books made in memory, of any tree and any numbers."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from bookmaker.cache import MemoryCache
from bookmaker.model import CertifiedPage, Link, Number, OrderedBook, Page, Spot, progression
from bookmaker.puzzle import Tree, certify
from tests.layout.books import Shape, ordered_book


def page_of(
    page_id: str,
    links: Sequence[tuple[str, str]],
    start: Number,
    step: Number,
    given: dict[str, Number] | None = None,
) -> CertifiedPage:
    """A page without a picture, its spots around a circle."""
    names = tuple(dict.fromkeys(end for link in links for end in link))
    turn = 2 * math.pi / len(names)
    spots = tuple(
        Spot(name, 50 + 38 * math.cos(i * turn), 50 + 38 * math.sin(i * turn))
        for i, name in enumerate(names)
    )
    page = Page(
        id=page_id,
        name=page_id.capitalize(),
        chapter="01-chapter",
        file="01-chapter.toml",
        line=1,
        art=None,
        artist="",
        licence="",
        spots=spots,
        links=tuple(Link(*link) for link in links),
        numbers=progression(start, step, len(names)),
        given=tuple((given or {}).items()),
    )
    fixed: dict[int, Fraction] = {names.index(n): x.value for n, x in page.given}
    values = tuple(number.value for number in page.numbers)
    tree = Tree(len(names), page.edges)
    return CertifiedPage.of(page, certify(tree, values, fixed, cache=MemoryCache(), seed=0))


def book_of(pages: Sequence[CertifiedPage]) -> OrderedBook:
    """A book of one chapter with ``pages``."""
    ordered = ordered_book(Shape(1, 1))
    chapter = replace(ordered.chapters[0], pages=tuple(pages))
    return replace(ordered, chapters=(chapter,))
