"""The term plan: which pages in which week, and which beside it for those who want more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from bookmaker.model import CertifiedPage, OrderedBook


@dataclass(frozen=True, slots=True)
class Week:
    """One week of the term, counted from 1: its pages, and those ``beside`` for who wants more."""

    number: int
    pages: tuple[CertifiedPage, ...]
    beside: tuple[CertifiedPage, ...] = ()

    @property
    def every(self) -> tuple[CertifiedPage, ...]:
        return (*self.pages, *self.beside)


def term_plan(ordered: OrderedBook) -> tuple[Week, ...]:
    """Share the main run out over all the weeks, as evenly as can be, in its order, from week 1.

    Pages of optional chapters are shared out by themselves, each as late as its share allows,
    since they are the harder ones. Where every chapter is optional they are the main run.
    """
    main = [page for each in ordered.chapters if not each.optional for page in each.pages]
    more = [page for each in ordered.chapters if each.optional for page in each.pages]
    if not main:
        main, more = more, []
    weeks = ordered.weeks
    first = [-(-len(main) * week // weeks) for week in range(weeks + 1)]
    late = [len(more) * week // weeks for week in range(weeks + 1)]
    shares = zip(_shares(main, first), _shares(more, late), strict=True)
    return tuple(Week(number, *share) for number, share in enumerate(shares, 1))


def _shares(pages: Sequence[CertifiedPage], ends: Sequence[int]) -> list[tuple[CertifiedPage, ...]]:
    return [tuple(pages[a:b]) for a, b in pairwise(ends)]
