"""Rings on the brook where something dived, and a feather that comes down after it."""

from __future__ import annotations

from math import pi, sin

from art.kit.curves import Knot, along, ellipse, knots, line, ribbon, step
from art.kit.cutouts import drop, leaf, slit
from art.kit.palette import DEEP, MIST, POOL, STRAW, TEAL
from art.kit.sheet import Sheet

NAME = "Rings and a feather"
DESCRIPTION = (
    "Rings run over the brook where something has just dived, and drops fly up. A blue feather "
    "sails down."
)
MIDDLE = (430, 318)


def draw() -> Sheet:
    sheet = Sheet("ornament-brook", 1200, 440)
    for i, (rx, colour) in enumerate(
        ((410, POOL), (330, MIST), (262, POOL), (196, MIST), (134, TEAL), (76, DEEP))
    ):
        sheet.paper(ellipse(MIDDLE, rx, rx * 0.28), colour, lift=0.6 if i else 1.5)
    crown = [
        drop(step(MIDDLE, a, 46), size, a, 0.34)
        for a, size in ((-128, 120), (-110, 170), (-90, 210), (-68, 160), (-50, 110))
    ]
    sheet.paper(crown, POOL, lift=1)
    flying = [
        drop((x, y), size, a, 0.6)
        for x, y, size, a in knots(
            "270,150,40,-120 350,84,34,-100 452,50,40,-84 560,110,38,-60 620,190,30,-40 "
            "230,224,26,-140"
        )
    ]
    sheet.paper(flying, TEAL, lift=1)
    quill(sheet, knots("1150,66 1060,110 960,190 880,290 830,392"))
    return sheet


def quill(sheet: Sheet, spine: list[Knot]) -> None:
    """One flight feather: a narrow vane before the shaft, a broad one behind, and a bare foot."""
    shaft = line(*spine)
    places = along(shaft, 34)
    for side, breadth, colour in ((1, 112, DEEP), (-1, 74, TEAL)):
        sizes = [breadth * (0.4 + 0.6 * sin(pi * min(1, 0.12 + i / 36))) for i in range(28)]
        barbs = [
            leaf(place, sizes[i], angle + 180 + side * 142, 0.42)
            for i, (place, angle) in enumerate(places[:28])
            if (side, i) not in TORN
        ]
        sheet.paper(barbs, colour, lift=1.5)
        lines = [
            slit(step(place, angle + side * 34, 40), 46, angle + side * 38, 0.08)
            for place, angle in places[1:26:2]
        ]
        sheet.paper(lines, TEAL if colour == DEEP else POOL)
    sheet.paper(ribbon([*spine, (812, 436)], [2, 4, 5, 6, 7, 5]), STRAW, lift=0.5)


TORN = {(1, 9), (1, 10), (1, 20), (-1, 15)}
"""Where barbs are missing, by side and place."""
