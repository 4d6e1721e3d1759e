"""The teacher's section as a run of sides."""

from __future__ import annotations

from collections.abc import Iterator

from bookmaker.layout.order.leaves import Piece, Titles, in_turn
from bookmaker.model import Answers, ClassNotes, Guide, KeyShares, OrderedBook, TermPlan


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
    if shares.marking is not None:
        sides = [Guide(parts, shares.marking) for parts in shares.guide]
        yield from in_turn("guide", "key", sides, (0, titles["key"]))


def _answers(ordered: OrderedBook, shares: KeyShares, titles: Titles) -> Iterator[Piece]:
    pages = ordered.pages
    entry = (1, titles["answers"]) if shares.guide else (0, titles["key"])
    for place, first in enumerate(range(0, len(pages), shares.answers)):
        here = pages[first : first + shares.answers]
        notes = tuple(shares.notes[page.id] for page in here if page.id in shares.notes)
        yield Piece(f"key-{place + 1}", "key", Answers(here, notes), None if place else entry)


def _notes(shares: KeyShares, titles: Titles) -> Iterator[Piece]:
    sides = [ClassNotes(chapters, place == 0) for place, chapters in enumerate(shares.chapters)]
    if sides:
        yield from in_turn("notes", "key", sides, (1, titles["notes"]))


def _plan(shares: KeyShares, titles: Titles) -> Iterator[Piece]:
    last = len(shares.plan) - 1
    sides = [
        TermPlan(rows, shares.practice if place == last else None, place == 0)
        for place, rows in enumerate(shares.plan)
    ]
    if sides:
        yield from in_turn("plan", "key", sides, (1, titles["plan"]))
