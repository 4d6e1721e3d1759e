"""Wet prints from lily pad to lily pad, and rings where they end."""

from __future__ import annotations

from art.kit.curves import Curve, Knot, closed, ellipse, ribbon, step
from art.kit.cutouts import bubble, drop, slit
from art.kit.palette import FERN, MIST, MOSS, PAPER, POOL, SAGE, TEAL
from art.kit.sheet import Sheet

NAME = "Wet prints on lily pads"
DESCRIPTION = (
    "Lily pads from above. Wet prints go from one to the next, smaller hands before long-toed "
    "feet, and end in rings on the water."
)


def draw() -> Sheet:
    sheet = Sheet("ornament-mill-pond", 1200, 440)
    for at, radius, turn, colour in (
        ((160, 240), 150, 78, MOSS),
        ((456, 176), 158, -86, FERN),
        ((738, 284), 138, 84, MOSS),
    ):
        pad(sheet, at, radius, turn, colour)
    pad(sheet, (330, 386), 46, 20, SAGE)
    pad(sheet, (610, 402), 34, 200, SAGE)
    for at, turn in (((156, 236), -12), ((452, 186), 8), ((736, 276), 6)):
        prints(sheet, at, turn)
    for radius, colour in ((150, POOL), (119, MIST), (89, POOL), (60, MIST), (32, TEAL)):
        sheet.paper(ellipse((1030, 212), radius), colour, lift=1 if radius == 150 else 0)
    drops = [drop(step((1030, 212), a, 162), 34, a, 0.6) for a in (-100, -64, -120, 70, 104, 178)]
    sheet.paper(drops, TEAL, lift=0.6)
    for x, y, r in ((1026, 206, 12), (1044, 226, 7), (1016, 228, 6)):
        sheet.paper(bubble((x, y), r), PAPER)
    return sheet


def pad(sheet: Sheet, at: Knot, radius: float, turn: float, colour: str) -> None:
    """Round, with its notch and with veins from the middle."""
    rim = [step(at, turn + a, radius) for a in [9, *range(30, 340, 30), 351]]
    sheet.paper(closed((*at, 0), (*rim[0], 0), *rim[1:-1], (*rim[-1], 0)), colour, lift=2)
    veins = [
        slit(step(at, turn + a, radius * 0.66), radius * 0.4, turn + a, 0.07)
        for a in range(36, 340, 24)
    ]
    sheet.paper(veins, SAGE if colour != SAGE else MOSS)


def prints(sheet: Sheet, at: Knot, turn: float) -> None:
    """Two small hands of four fingers; behind them two feet of five long toes."""
    shapes: list[Curve] = []
    for side in (-1, 1):
        hand = step(step(at, turn, 56), turn + 90 * side, 30)
        shapes += spread(hand, turn + 24 * side, 4, 30)
        foot = step(step(at, turn, -34), turn + 90 * side, 52)
        shapes += spread(foot, turn + 16 * side, 5, 54)
    sheet.paper(shapes, MIST)


def spread(at: Knot, turn: float, count: int, reach: float) -> list[Curve]:
    """Fingers from one palm, a round tip on each."""
    angles = [turn + 26 * (i - (count - 1) / 2) for i in range(count)]
    palm = ellipse(at, reach * 0.26)
    fingers = [ribbon([at, step(at, a, reach)], [reach * 0.11, reach * 0.07]) for a in angles]
    return [palm, *fingers, *(ellipse(step(at, a, reach), reach * 0.14) for a in angles)]
