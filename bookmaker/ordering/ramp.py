"""The ramp: pages of a chapter climb by work; a page with a fixed position keeps it.

Pages of like work may change places to part twins (neighbours of one shape): a dip of a tenth is
not felt, since the work of one child on one page is spread far more widely than that.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence
from functools import cache

from bookmaker.model import Book, CertifiedPage, OrderedBook, OrderedChapter

DIP = 0.1
"""How far work may fall back under the hardest before it, to part twins."""
SEARCHED = 12
"""A chapter of more pages than this is only sorted."""

Cost = tuple[int, float]
DEAD_END: Cost = (10**6, 0.0)
"""Cost of an order that can't be finished: a page left behind is too easy for what is left."""


def in_order(book: Book, certified: Mapping[str, CertifiedPage]) -> OrderedBook:
    """Put the certified pages of ``book`` (by id) in the order in which they are printed.

    Within a chapter by work, then by number of spots, then as written; pages with a position
    stay there; twins are parted where like work allows it, the best order of a chapter being
    found exactly. Pages without a certificate are left out, and chapters that lose all pages.
    """
    chapters = []
    before: CertifiedPage | None = None
    for chapter in book.chapters:
        pages = [certified[page.id] for page in chapter.pages if page.id in certified]
        if book.order == "ramp":
            pages = _ramped(pages, before)
        if pages:
            chapters.append(OrderedChapter.of(chapter, tuple(pages)))
            before = pages[-1]
    return OrderedBook.of(book, tuple(chapters))


def _ramped(pages: Sequence[CertifiedPage], before: CertifiedPage | None) -> list[CertifiedPage]:
    """The best order of one chapter that comes after the page ``before``."""
    climbing = sorted(
        (page for page in pages if not page.position),
        key=lambda page: (page.certificate.work, len(page.spots)),
    )
    fixed = {page.position or 0: page for page in pages if page.position}
    if len(climbing) <= SEARCHED and _twins([before, *_merged(climbing, fixed)]):
        climbing = _parted(climbing, fixed, before)
    return _merged(climbing, fixed)


def _merged(
    climbing: Iterable[CertifiedPage], fixed: Mapping[int, CertifiedPage]
) -> list[CertifiedPage]:
    """The climbing pages in their order, with the fixed ones at their positions (from 1)."""
    merged = list(climbing)
    for position in sorted(fixed):
        merged.insert(position - 1, fixed[position])
    return merged


def _twins(run: Sequence[CertifiedPage | None]) -> int:
    shapes = [page.certificate.shape if page else "" for page in run]
    return sum(one == other for one, other in itertools.pairwise(shapes))


def _parted(
    climbing: Sequence[CertifiedPage],
    fixed: Mapping[int, CertifiedPage],
    before: CertifiedPage | None,
) -> list[CertifiedPage]:
    """The order with the fewest twins, and among those with the least falling back.

    ``climbing`` is sorted. Dynamic programming over the pages that are left (a bit each) and the
    place to fill: what comes after depends on them, on the last shape, and on nothing else.
    """
    works = [page.certificate.work for page in climbing]
    shapes = [page.certificate.shape for page in climbing]
    last_place = len(climbing) + len(fixed)

    @cache
    def best(left: int, place: int, last: str) -> tuple[Cost, tuple[int, ...]]:
        if place > last_place:
            return (0, 0.0), ()
        if place in fixed:
            shape = fixed[place].certificate.shape
            (twins, dips), rest = best(left, place + 1, shape)
            return (twins + (shape == last), dips), rest
        hardest = max((w for i, w in enumerate(works) if not left >> i & 1), default=0.0)
        choices = []
        for page, (work, shape) in enumerate(zip(works, shapes, strict=True)):
            if left >> page & 1 and work >= hardest * (1 - DIP):
                (twins, dips), rest = best(left & ~(1 << page), place + 1, shape)
                cost = (twins + (shape == last), dips + max(0.0, hardest - work))
                choices.append((cost, (page, *rest)))
        return min(choices, default=(DEAD_END, ()))

    shape_before = before.certificate.shape if before else ""
    _, order = best((1 << len(climbing)) - 1, 1, shape_before)
    return [climbing[page] for page in order]
