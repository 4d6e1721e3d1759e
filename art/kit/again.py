"""A drawn creature glued again, smaller: for marks, and for scenes with many creatures."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import nullcontext
from dataclasses import dataclass
from math import hypot, pi

from art.kit.curves import Curve, Point, added, polygon
from art.kit.palette import INK
from art.kit.sheet import Glued, Sheet

SHADE = 1.6
"""Shadows fall this much farther than they would by the scale alone, or they would be lost."""
LEAST_SHADE = 0.4
SLACK = 0.5
"""How far edges may be off, in units of the sheet."""


@dataclass(frozen=True)
class Fit:
    """Where shapes go: scaled about ``middle``, mirrored if asked, turned, and moved to ``at``."""

    middle: Point
    at: Point
    scale: float
    turn: float = 0
    is_flipped: bool = False

    @classmethod
    def of(
        cls,
        papers: Iterable[Glued],
        at: Point,
        size: float,
        turn: float = 0,
        is_flipped: bool = False,
    ) -> Fit:
        """The papers fill a square of ``size`` around ``at`` before they are turned."""
        boxes = [piece.box for glued in papers if not glued.edge for piece in glued.pieces]
        lefts, tops, rights, bottoms = zip(*boxes, strict=True)
        left, top, right, bottom = min(lefts), min(tops), max(rights), max(bottoms)
        middle = ((left + right) / 2, (top + bottom) / 2)
        return cls(middle, at, size / max(right - left, bottom - top), turn, is_flipped)

    def placed(self, piece: Curve) -> Curve:
        """The shape in its place, with short straight edges: what is small needs no curves."""
        x, y = self.middle
        shape = plain(piece, SLACK / self.scale).moved(-x, -y).scaled(self.scale)
        if self.is_flipped:
            shape = shape.flipped(0)
        return shape.turned(self.turn).moved(*self.at)


def glue_again(sheet: Sheet, drawn: Sheet, fit: Fit, least: float = 2000) -> None:
    """Glues the papers of ``drawn`` on ``sheet``, but for pieces of less than ``least`` square
    units of the large picture; eyes stay."""
    for glued in drawn.creature:
        large = [
            fit.placed(piece) for piece in glued.pieces if area(piece) > least or is_eye(glued)
        ]
        if large:
            edge = sheet.inside(fit.placed(glued.edge)) if glued.edge else nullcontext()
            with edge:
                far = SHADE * glued.lift * fit.scale
                sheet.paper(large, glued.colour, far if far > LEAST_SHADE else 0)


def is_eye(glued: Glued) -> bool:
    """Whether a paper is a single disc of ink, and no piece is cut from it."""
    if glued.colour != INK or glued.lift or len(glued.pieces) > 1:
        return False
    (piece,) = glued.pieces
    left, top, right, bottom = piece.box
    disc = pi / 4 * (right - left) * (bottom - top)
    return len(piece.segments) == 4 and abs(area(piece) / disc - 1) < 0.08


def area(piece: Curve) -> float:
    """The area of a shape, in square units (shoelace formula)."""
    run = piece.polygon
    turns = zip(run, (*run[1:], run[0]), strict=True)
    return abs(added(ax * by - bx * ay for (ax, ay), (bx, by) in turns)) / 2


def plain(piece: Curve, slack: float = SLACK) -> Curve:
    """A closed shape with straight edges that are nowhere farther off than ``slack``."""
    run = piece.polygon
    loop = run if run[0] == run[-1] else (*run, run[0])
    return polygon(*_plainer(loop, slack)[:-1])


def _plainer(run: Sequence[Point], slack: float) -> list[Point]:
    """The run of points with as few of them as stay within ``slack`` of it (Ramer 1972, Douglas
    and Peucker 1973)."""
    (ax, ay), (bx, by) = run[0], run[-1]
    chord = hypot(bx - ax, by - ay)
    off = [
        abs((bx - ax) * (ay - y) - (ax - x) * (by - ay)) / chord if chord else hypot(x - ax, y - ay)
        for x, y in run
    ]
    far = max(range(len(run)), key=off.__getitem__)
    if off[far] <= slack:
        return [run[0], run[-1]]
    return [*_plainer(run[: far + 1], slack)[:-1], *_plainer(run[far:], slack)]
