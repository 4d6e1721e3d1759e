"""Marks for the record page: a creature's own papers in two pale ones, for a child to colour in.

Each paper that has a shadow is cut again from the lighter paper, with its shadow from the other:
that parts wing from body without an outline. Of all small cuts the eyes alone stay.
"""

from __future__ import annotations

from collections.abc import Iterator

from art.kit.curves import Curve
from art.kit.palette import DEEP, INK, MIST, MOSS, OCHRE, SAGE, SAND, SLATE, TEAL
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
    fit = _Fit([piece for glued in cut for piece in glued.pieces])
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
        large = tuple(piece for piece in glued.pieces if _area(piece) > LEAST)
        if glued.lift and large:
            yield Glued(large, glued.colour, glued.lift)
        elif _is_eye(glued):
            yield glued


def _is_eye(glued: Glued) -> bool:
    """A single disc of ink."""
    if glued.colour != INK or glued.lift or len(glued.pieces) > 1:
        return False
    left, top, right, bottom = glued.pieces[0].box
    disc = 3.14159 / 4 * (right - left) * (bottom - top)
    return abs(_area(glued.pieces[0]) / disc - 1) < 0.04 and len(glued.pieces[0].segments) == 4


class _Fit:
    """Moves and scales shapes so that all of them fill the sheet."""

    def __init__(self, pieces: list[Curve]) -> None:
        lefts, tops, rights, bottoms = zip(*(piece.box for piece in pieces), strict=True)
        left, top, right, bottom = min(lefts), min(tops), max(rights), max(bottoms)
        self.scale = (SIZE - 2 * MARGIN) / max(right - left, bottom - top)
        self._middle = (left + right) / 2, (top + bottom) / 2

    def placed(self, piece: Curve) -> Curve:
        x, y = self._middle
        return piece.moved(-x, -y).scaled(self.scale).moved(SIZE / 2, SIZE / 2)


def _area(piece: Curve) -> float:
    """The area of a shape, in square units (shoelace formula)."""
    run = piece.polygon
    turns = zip(run, (*run[1:], run[0]), strict=True)
    return abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in turns)) / 2
