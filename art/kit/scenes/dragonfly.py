"""A dragonfly, the small traveller that hides on the pages: big plain shapes, seen from above."""

from __future__ import annotations

from art.kit.curves import Curve, closed, ellipse, knots, ribbon
from art.kit.cutouts import slit
from art.kit.palette import DEEP, INK, MIST, PAPER, POOL, TEAL
from art.kit.sheet import Sheet

NAME = "Dragonfly"
DESCRIPTION = (
    "A dragonfly from above: four pale wings with dark rims, a long dark body with light bands, "
    "and two big eyes."
)
AXIS = 300
WINGS = (
    "300,226! 390,130 500,76 570,92 576,142 520,196 410,240 300,262!",
    "300,270! 410,262 510,288 560,344 540,396 480,394 390,344 300,306!",
)


def draw() -> Sheet:
    sheet = Sheet("dragonfly", 600, 600)
    sheet.layer("creature")
    with sheet.posed(20, (310, 320), 0.8):
        for side in (-1, 1):
            for edge in reversed(WINGS):
                wing(sheet, edge, side)
        body(sheet)
    return sheet


def both(shape: Curve, side: int) -> Curve:
    return shape if side > 0 else shape.flipped(AXIS)


def wing(sheet: Sheet, edge: str, side: int) -> None:
    """A dark rim, the pale wing on it, a mark near the tip, two veins."""
    shape = both(closed(*knots(edge)), side)
    left, top, right, bottom = shape.box
    middle = ((left + right) / 2, (top + bottom) / 2)
    sheet.paper(shape.scaled(1.09, 1.24, about=middle), INK, lift=1)
    sheet.paper(shape, PAPER)
    fore = edge == WINGS[0]
    tip = (530, 104) if fore else (520, 352)
    sheet.paper(both(ellipse(tip, 22, 11, -10 if fore else 50), side), DEEP)
    veins = (((430, 166), 190, -30), ((420, 198), 150, -22)) if fore else (((430, 314), 170, 20),)
    sheet.paper([both(slit(at, size, turn, 0.05), side) for at, size, turn in veins], POOL)


def body(sheet: Sheet) -> None:
    """Thick where the wings are, then long and banded, two claspers at its end."""
    tail = ribbon([(300, 280), (300, 430), (300, 584)], [26, 20, 22, 16])
    sheet.paper(tail.scaled(1.5, 1.02, about=(300, 420)), PAPER)
    sheet.paper(tail, DEEP, lift=1)
    bands = [ellipse((300, y), 19, 9) for y in (352, 402, 452, 502, 550)]
    sheet.paper(bands, POOL)
    chest = closed(*knots("300,170 346,206 350,262 328,310 300,320 272,310 250,262 254,206"))
    sheet.paper(chest.scaled(1.16, about=(300, 250)), PAPER)
    sheet.paper(chest, TEAL, lift=1)
    sheet.paper([slit((x, 246), 96, 90, 0.2) for x in (280, 320)], MIST)
    for side in (-1, 1):
        sheet.paper(both(ellipse((326, 142), 40, 36), side), PAPER)
    for side in (-1, 1):
        sheet.paper(both(ellipse((326, 142), 33, 30), side), INK, lift=1)
    sheet.paper([ellipse((x, 130), 9) for x in (314, 336 - 70)], PAPER)
