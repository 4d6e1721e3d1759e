"""A tail that slips under a stone beside the spring."""

from __future__ import annotations

from random import Random

from art.kit.curves import closed, ellipse, knots, line, ribbon
from art.kit.cutouts import frond, slit, stone, wave
from art.kit.palette import FERN, INK, MIST, MOSS, OCHRE, POOL, SAGE, SLATE, STONE
from art.kit.rows import rows
from art.kit.sheet import Sheet

NAME = "A tail under a stone"
DESCRIPTION = (
    "Water comes out between mossy stones. A black tail with yellow spots is just slipping away "
    "under one of them."
)
TAIL = knots("430,330 560,356 680,318 770,236 868,196 960,226 1010,286")


def draw() -> Sheet:
    sheet = Sheet("ornament-spring", 1200, 440)
    rng = Random(31)
    for spine in (knots("170,200 150,110 90,40"), knots("250,180 300,90 390,44")):
        sheet.paper(frond(spine, 84, 9), FERN, lift=1)
    for x, y, rx, ry, colour in ((120, 290, 120, 92, STONE), (300, 220, 130, 100, SLATE)):
        sheet.paper(stone((x, y), rx, ry, rng), colour, lift=2)
    water = closed(
        *knots(
            "190,300! 260,330 330,392 520,404 760,388 960,398 1190,380! 1120,420 800,432 460,436 "
            "220,428 130,380"
        )
    )
    sheet.paper(water, POOL, lift=1)
    light = [wave((x, y), r) for x, y, r in knots("300,396,40 470,420,50 700,410,54 980,412,50")]
    sheet.paper(light, MIST)
    tail(sheet)
    near = stone((440, 268), 150, 112, rng)
    sheet.paper(near, STONE, lift=3)
    moss = closed(*knots("300,250! 330,180 420,140 520,160 590,240! 520,222 450,246 380,222"))
    sheet.paper(moss, MOSS, lift=1)
    cuts = [slit((x, 196 + (x * 7) % 30), 22, -60 + x % 50, 0.34) for x in range(350, 560, 24)]
    sheet.paper([cut for cut in cuts if moss.holds(cut)], SAGE)
    grains = [slit((x, 290 + (x * 5) % 60), 22, -8, 0.34) for x in range(340, 560, 34)]
    sheet.paper([grain for grain in grains if near.holds(grain)], SLATE)
    sheet.paper(stone((110, 378), 84, 50, rng), SLATE, lift=2)
    sheet.paper(frond(knots("1100,392 1090,310 1130,230"), 70, 8), FERN, lift=1)
    return sheet


def tail(sheet: Sheet) -> None:
    shape = ribbon(TAIL, [60, 58, 50, 40, 30, 18, 0], 31)
    sheet.paper(shape, INK, lift=3)
    spots = rows(
        shape,
        line(*TAIL),
        (-20, 18),
        74,
        lambda p, a, n, i: ellipse(p, 22 - i * 1.2, 14 - i * 0.6, a + 20 * (n - 0.5)),
    )
    sheet.paper(spots, OCHRE)
