"""The term plan: which pages in which week."""

from __future__ import annotations

from dataclasses import dataclass

from bookmaker.model import CertifiedPage, OrderedBook


@dataclass(frozen=True, slots=True)
class Week:
    """One week of the term, counted from 1, and its pages."""

    number: int
    pages: tuple[CertifiedPage, ...]


def term_plan(ordered: OrderedBook) -> tuple[Week, ...]:
    """Share the pages out over the weeks, as evenly as can be, in their order, from week 1."""
    pages, weeks = ordered.pages, ordered.weeks
    shares = [-(-len(pages) * week // weeks) for week in range(weeks + 1)]
    return tuple(Week(week + 1, pages[shares[week] : shares[week + 1]]) for week in range(weeks))
