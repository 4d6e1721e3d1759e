"""Eelgrass in the current."""

from __future__ import annotations

from random import Random

from art.kit.curves import closed, ellipse, knots, ribbon
from art.kit.cutouts import bubble, slit, wave
from art.kit.palette import DEEP, FERN, MOSS, POOL, SAND, SLATE, STONE, TEAL
from art.kit.sheet import Sheet

NAME = "Eelgrass"
DESCRIPTION = "Long blades of eelgrass stream in the tide; small fish swim through them."


def draw() -> Sheet:
    sheet = Sheet("ornament-estuary", 1200, 300)
    rng = Random(37)
    sheet.paper(
        [
            wave((x, y), r, -3, 0.08)
            for x, y, r in knots("160,60,60 420,34,56 700,54,60 960,30,54 1100,90,50 560,110,44")
        ],
        POOL,
    )
    for start, colours in ((30, (POOL, MOSS)), (46, (FERN, MOSS, TEAL))):
        blades = []
        for i in range(17):
            x, tall = start + i * 62 + rng.uniform(-16, 16), rng.uniform(110, 210)
            reach = tall * rng.uniform(0.55, 0.95)
            spine = [
                (x, 290),
                (x + reach * 0.16, 290 - tall * 0.4),
                (x + reach * 0.5, 290 - tall * 0.72),
                (x + reach, 290 - tall * (0.86 + 0.1 * (i % 2))),
            ]
            blades.append(ribbon(spine, [8, 11, 10, 8, 0], 13))
        sheet.papers(blades, colours, lift=1)
        if start == 30:
            for x, y in knots("330,130 640,96 700,150 930,120"):
                fish(sheet, x, y)
    silt = closed(*knots("10,286! 200,270 480,280 760,266 1000,280 1190,284! 1000,298 200,298"))
    sheet.paper(silt, STONE, lift=1)
    sheet.paper(
        [slit((rng.uniform(60, 1140), rng.uniform(280, 294)), 18, 0, 0.3) for _ in range(26)], SLATE
    )
    for x, y, r in knots("1010,170,13 1036,136,9 496,70,10 516,44,7"):
        sheet.paper(bubble((x, y), r), TEAL)
    return sheet


def fish(sheet: Sheet, x: float, y: float) -> None:
    """A young bass heading up the tide."""
    shape = closed(*knots("-52,0! -30,-18 4,-18 34,-4! 56,-20! 52,0 56,20! 34,4! 4,18 -30,16"))
    sheet.paper(shape.moved(x, y), SAND, lift=1.5)
    back = closed(*knots("-50,-3! -30,-18 4,-18 34,-4! 4,-6 -26,-6"))
    sheet.paper(back.moved(x, y), SLATE)
    sheet.paper([slit((x + k, y + 2), 12, 0, 0.3) for k in (-14, 2, 18)], SLATE)
    sheet.paper(ellipse((x - 37, y - 3), 4), DEEP)
