"""The teacher's section as a run of sides."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from bookmaker.binding.sides import Piece
from bookmaker.model import Answers, ClassNotes, Guide, KeyShares, OrderedBook, TermPlan

Titles = Mapping[str, str]


def key_pieces(
    ordered: OrderedBook, titles: Titles, shares: KeyShares | None = None
) -> Iterator[Piece]:
    """How to mark and the ramp, the answers, notes for each chapter, and the term plan.

    ``titles`` has the words of the outline: "key", and "answers", "notes" and "plan" where the
    ``shares`` hold more than answers.
    """
    shares = shares or KeyShares()
    parts = (*_guide(shares, titles), *_answers(ordered, shares, titles))
    yield from (*parts, *_notes(shares, titles), *_plan(shares, titles))


def _guide(shares: KeyShares, titles: Titles) -> Iterator[Piece]:
    if shares.marking is None:
        return
    for place, parts in enumerate(shares.guide):
        bookmark = (0, titles["key"]) if place == 0 else None
        yield Piece(_nth("guide", place), "key", Guide(parts, shares.marking), bookmark)


def _answers(ordered: OrderedBook, shares: KeyShares, titles: Titles) -> Iterator[Piece]:
    pages = ordered.pages
    entry = (1, titles["answers"]) if shares.guide else (0, titles["key"])
    for place, first in enumerate(range(0, len(pages), shares.answers)):
        here = pages[first : first + shares.answers]
        notes = tuple(shares.notes[page.page.id] for page in here if page.page.id in shares.notes)
        yield Piece(f"key-{place + 1}", "key", Answers(here, notes), None if place else entry)


def _notes(shares: KeyShares, titles: Titles) -> Iterator[Piece]:
    for place, chapters in enumerate(shares.chapters):
        bookmark = (1, titles["notes"]) if place == 0 else None
        yield Piece(_nth("notes", place), "key", ClassNotes(chapters, place == 0), bookmark)


def _plan(shares: KeyShares, titles: Titles) -> Iterator[Piece]:
    last = len(shares.plan) - 1
    for place, rows in enumerate(shares.plan):
        practice = shares.practice if place == last else None
        bookmark = (1, titles["plan"]) if place == 0 else None
        yield Piece(_nth("plan", place), "key", TermPlan(rows, practice, place == 0), bookmark)


def _nth(name: str, place: int) -> str:
    return f"{name}-{place + 1}" if place else name
