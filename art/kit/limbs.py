"""Legs, hands and eyes: the parts that most animals share."""

from __future__ import annotations

from collections.abc import Sequence

from art.kit.curves import Curve, Knot, ellipse, ribbon, step
from art.kit.cutouts import crescent
from art.kit.palette import INK, PAPER
from art.kit.sheet import Sheet


def leg(joints: Sequence[Knot], widths: Sequence[float]) -> Curve:
    """A limb through its joints; ``widths`` are half widths from root to end."""
    return ribbon(joints, widths)


def toes(
    at: Knot, angles: Sequence[float], reach: float, fat: float, tip: float = 0.8
) -> list[Curve]:
    """Fingers or toes fanned out from ``at``; ``fat`` is half a finger, ``tip`` its end to that.

    Middle fingers are longer than the outer ones; ``tip`` 0 makes claws.
    """
    middle = (len(angles) - 1) / 2
    pieces = []
    for i, angle in enumerate(angles):
        far = reach * (1 - 0.1 * abs(i - middle))
        spine = [at, step(at, angle, far * 0.55), step(at, angle + 6 * (i - middle), far)]
        pieces.append(ribbon(spine, [fat * 1.2, fat, fat * tip]))
    return pieces


def eye(sheet: Sheet, at: Knot, radius: float, colour: str = INK, iris: str | None = None) -> None:
    """A watchful eye: iris if any, pupil and one glint cut out of it."""
    if iris:
        sheet.paper(ellipse(at, radius), iris)
        radius *= 0.62
    sheet.paper(ellipse(at, radius), colour)
    sheet.paper(crescent(at, radius * 0.62, -50, 0.55), PAPER)
