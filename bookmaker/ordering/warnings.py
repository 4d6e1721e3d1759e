"""What a teacher should hear of an order: leaps in work, twins, and pages above the climb."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from bookmaker.model import BANDS, CertifiedPage, OrderedBook, Problem

ABOVE = 1.1
"""A chapter may begin harder than the last one ended by so much: a tenth is not felt."""
TREES = (1, 1, 1, 1, 2, 3, 6, 11, 23, 47, 106)
"""How many trees there are of 0, 1, 2, ... spots (OEIS A000055)."""
LEAP = 3.0
"""A page takes a leap when its work is more than this many times the hardest before it."""

Puzzle = tuple[str, tuple[Fraction, ...]]


def warnings_of(ordered: OrderedBook) -> tuple[Problem, ...]:
    """What could not be had: leaps, twins and repeats of the whole run, pages that are no puzzle,
    chapters that begin above where the last ended, and pages that climb too high."""
    pages = ordered.pages
    return (
        *_leaps(pages),
        *_twins(pages),
        *_repeats(pages),
        *_no_puzzles(pages),
        *_falls(ordered),
        *_too_high(ordered),
    )


def _leaps(pages: tuple[CertifiedPage, ...]) -> Iterator[Problem]:
    hardest = 0.0
    for page in pages:
        work = page.certificate.work
        if hardest and work > LEAP * hardest:
            yield _warning(
                page,
                "leap",
                f"a leap: work {work:.0f}, where the hardest page before it is {hardest:.0f}",
                "Put a page of middling work before it, or take some of its spots away",
            )
        hardest = max(hardest, work)


def _twins(pages: tuple[CertifiedPage, ...]) -> Iterator[Problem]:
    for one, other in pairwise(pages):
        ours = one.wish is not None and other.wish is not None  # links that nobody typed
        if one.certificate.shape == other.certificate.shape and not ours:
            yield _warning(
                other,
                "twins",
                f"its tree has the same shape as that of {one.name}, the page before",
                "Link the spots of one of them in another way, or put a page between them",
            )


def _repeats(pages: tuple[CertifiedPage, ...]) -> Iterator[Problem]:
    """Pages of a puzzle that stands before, though there are trees of as many spots that do not."""
    first: dict[Puzzle, CertifiedPage] = {}
    back: list[tuple[CertifiedPage, CertifiedPage]] = []
    for page in pages:
        puzzle = _puzzle(page)
        if puzzle in first:
            back.append((page, first[puzzle]))
        first.setdefault(puzzle, page)
    used = Counter(numbers for _, numbers in first)
    for page, before in back:
        spots = len(page.spots)
        if spots >= len(TREES) or used[_puzzle(page)[1]] < TREES[spots]:
            yield _warning(
                page,
                "repeat",
                f"it is the same puzzle as {before.name}: the same tree and the same numbers",
                "Link the spots of one of them in another way",
            )


def _puzzle(page: CertifiedPage) -> Puzzle:
    return page.certificate.shape, tuple(number.value for number in page.numbers)


def _no_puzzles(pages: tuple[CertifiedPage, ...]) -> Iterator[Problem]:
    for page in pages:
        if len(page.given) == len(page.spots):
            yield _warning(
                page,
                "no-puzzle",
                "every number is given, so that nothing is left to find",
                "Take some of the given numbers away",
            )
        elif page.certificate.one_in == 1:
            yield _warning(
                page,
                "no-puzzle",
                "every arrangement of its numbers is a solution",
                "Add a spot, or link the spots in another way",
            )


def _falls(ordered: OrderedBook) -> Iterator[Problem]:
    """Chapters of the main run whose first page is harder than the last one before it."""
    main = [chapter for chapter in ordered.chapters if not chapter.optional]
    for before, after in pairwise(main):
        last, first = before.pages[-1], after.pages[0]
        if first.certificate.work > ABOVE * last.certificate.work:
            yield _warning(
                first,
                "no-breath",
                f"its chapter begins with work {first.certificate.work:.0f}, and the chapter "
                f"before ends with {last.certificate.work:.0f}",
                "Begin the chapter with an easier page, so that a class gets its breath back",
            )


def _too_high(ordered: OrderedBook) -> Iterator[Problem]:
    limit = ordered.climb_to
    for chapter in ordered.chapters:
        if chapter.optional:
            continue
        for page in chapter.pages:
            band = page.certificate.band
            if BANDS.index(band) > BANDS.index(limit):
                yield _warning(
                    page,
                    "above-climb",
                    f"it is {band}, and the book climbs to {limit}",
                    "Put it into a chapter with optional = true, or let the book climb higher "
                    "with climb_to",
                )


def _warning(page: CertifiedPage, code: str, message: str, mend: str) -> Problem:
    line = page.line_of("links")
    return Problem(page.file, line, page.name, code, message, f"{mend}.", "warning")
