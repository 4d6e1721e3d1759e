"""Marks for the record page: a creature's own papers in two pale ones, for a child to colour in.

Each paper that has a shadow is cut again from the lighter paper, with its shadow from the other:
that parts wing from body without an outline. Of all small cuts the eyes alone stay.
"""

from __future__ import annotations

from collections.abc import Iterator

from art.kit.again import Fit, area, is_eye
from art.kit.palette import DEEP, MIST, MOSS, OCHRE, SAGE, SAND, SLATE, TEAL
from art.kit.sheet import Glued, Sheet

SIZE = 600
MARGIN = 22
SHADE = 1.7
"""Shadows fall this much farther than on the large picture, as marks are printed 25 mm wide."""
LEAST = 900
"""Papers smaller than this, in square units of the large picture, are left out."""
PAPERS = {
    "spring": (SAGE, MOSS),
    "brook": (MIST, TEAL),
    "mill pond": (SAGE, MOSS),
    "river meadow": (SAND, OCHRE),
    "reed bed": (SAND, OCHRE),
    "salt marsh": (SAND, SLATE),
    "estuary": (MIST, SLATE),
    "open sea": (MIST, DEEP),
}
"""The light and the dark paper of each chapter."""


def mark(drawn: Sheet, chapter: str) -> Sheet:
    """The mark of a drawn creature, on a square sheet of its own."""
    light, dark = PAPERS[chapter]
    cut = [*_cut(drawn)]
    fit = Fit.of(cut, (SIZE / 2, SIZE / 2), SIZE - 2 * MARGIN)
    sheet = Sheet(f"{drawn.name}-mark", SIZE, SIZE)
    sheet.layer("creature")
    for glued in cut:
        pieces = [fit.placed(piece) for piece in glued.pieces]
        if glued.lift:
            far = SHADE * glued.lift * fit.scale
            sheet.paper([piece.moved(3.2 * far, 5 * far) for piece in pieces], dark)
        sheet.paper(pieces, light if glued.lift else dark)
    return sheet


def _cut(drawn: Sheet) -> Iterator[Glued]:
    """The papers that a mark keeps, from the back."""
    for glued in drawn.creature:
        if glued.edge:
            continue
        large = tuple(piece for piece in glued.pieces if area(piece) > LEAST)
        if glued.lift and large:
            yield Glued(large, glued.colour, glued.lift)
        elif is_eye(glued):
            yield glued
