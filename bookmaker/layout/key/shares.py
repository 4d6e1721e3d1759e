"""How much of the teacher's section goes onto a side."""

from __future__ import annotations

from bookmaker.layout.key.answers import grid
from bookmaker.layout.key.guide import guide_sides
from bookmaker.layout.key.notes import share_notes
from bookmaker.layout.key.plan import share_plan
from bookmaker.model import KeyShares, OrderedBook, Teaching
from bookmaker.typeset import sheet_of
from bookmaker.words import Words


def measure_key(
    ordered: OrderedBook, teaching: Teaching, words: Words, scale: float = 1.0
) -> KeyShares:
    """What stands on each side of the key, on the book's paper."""
    sheet = sheet_of(ordered, scale)
    across, down = grid(sheet)
    if teaching.marking is None or teaching.practice is None:
        return KeyShares(across * down, teaching.pages)
    return KeyShares(
        answers=across * down,
        notes=teaching.pages,
        guide=guide_sides(sheet),
        marking=teaching.marking,
        chapters=share_notes(teaching.chapters, sheet, words),
        plan=share_plan(teaching.plan, teaching.practice, sheet, words),
        practice=teaching.practice,
    )
