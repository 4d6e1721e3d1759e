"""What a teacher should hear of an order: leaps in work, twins, and pages above the climb."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from bookmaker.model import BANDS, CertifiedPage, OrderedBook, Problem

LEAP = 3.0
"""A page takes a leap when its work is more than this many times the hardest before it."""


def warnings_of(ordered: OrderedBook) -> tuple[Problem, ...]:
    """What could not be had: leaps and twins of the whole run, and pages that climb too high."""
    return (*_leaps(ordered.pages), *_twins(ordered.pages), *_too_high(ordered))


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
        if one.certificate.shape == other.certificate.shape:
            yield _warning(
                other,
                "twins",
                f"its tree has the same shape as that of {one.name}, the page before",
                "Link the spots of one of them in another way, or put a page between them",
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
