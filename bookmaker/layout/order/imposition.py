"""Imposition for saddle stitch: which pages share a sheet that is folded once and stapled.

Two pages that stand side by side on a sheet add up to one more than the number of pages, which is
a multiple of four (a rule of every printing handbook, as in Kipphan, Handbook of Print Media,
2001, on gathering inset signatures; told from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

PAGES_PER_SHEET = 4
SHEET_THICKNESS = 0.1
"""Millimetres of office paper, 80 g a square metre (common practice, no source)."""
MOST_SHEETS = 15
"""What a booklet stapler goes through (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Folded:
    """One sheet, ``number`` 1 the outermost: pages counted from 1, left before right.

    A page beyond the last one of the book is blank. ``creep`` is how far its pages move
    towards the fold, in millimetres, because the sheets outside it wrap around it.
    """

    number: int
    outside: tuple[int, int]
    inside: tuple[int, int]
    creep: float


def impose(pages: int, thickness: float = SHEET_THICKNESS) -> tuple[Folded, ...]:
    """The sheets of a booklet of ``pages``, from the outermost in.

    Blanks come at the end, where they interrupt nothing and keep every chapter on its side.
    Raises ValueError for no pages.
    """
    if pages < 1:
        raise ValueError("a booklet needs a page")
    sheets = -(-pages // PAGES_PER_SHEET)
    last = sheets * PAGES_PER_SHEET
    return tuple(
        Folded(
            number=place + 1,
            outside=(last - 2 * place, 2 * place + 1),
            inside=(2 * place + 2, last - 2 * place - 1),
            creep=round(place * thickness, 3),
        )
        for place in range(sheets)
    )
