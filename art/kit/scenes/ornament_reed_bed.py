"""Reeds and bulrushes bend in the wind."""

from __future__ import annotations

from random import Random

from art.kit.curves import along, closed, ellipse, knots, line, ribbon
from art.kit.cutouts import leaf, slit, wave
from art.kit.palette import BARK, FERN, MIST, MOSS, OCHRE, POOL, RUST, SAGE, STRAW
from art.kit.sheet import Sheet

NAME = "Reeds"
DESCRIPTION = "Reeds with feathery heads and bulrushes bend in the wind over a strip of water."


def draw() -> Sheet:
    sheet = Sheet("ornament-reed-bed", 1200, 300)
    rng = Random(35)
    sheet.paper(
        closed(*knots("20,270! 300,248 620,262 900,246 1180,268! 900,294 300,294")), POOL, lift=1
    )
    far = [
        leaf((x, 276), rng.uniform(110, 200), -84 + rng.uniform(-8, 14), 0.07, -0.05)
        for x in range(40, 1130, 24)
    ]
    sheet.papers(far, [SAGE, STRAW, SAGE], lift=1)
    for x, top, lean in knots("120,60,50 330,26,66 480,74,56 690,34,70 860,66,56 1010,30,60"):
        plume(sheet, x, top, lean)
    for x, top in knots("210,84 262,112 570,70 616,104 780,96 960,78 1000,110"):
        sheet.paper(
            ribbon([(x, 286), (x + 8, 200), (x + 22, top - 20)], [4, 3.4, 1.6]), FERN, lift=1
        )
        sheet.paper(ellipse((x + 18, top + 36), 13, 42, 7), BARK, lift=1.5)
        sheet.paper([slit((x + 16 + k, top + 36 + 3 * k), 24, 96, 0.2) for k in (-4, 4)], RUST)
    near = [
        leaf(
            (x, 290),
            rng.uniform(90, 190),
            -82 + rng.uniform(-16, 22),
            0.075,
            rng.uniform(-0.1, 0.02),
        )
        for x in range(60, 1130, 30)
    ]
    sheet.papers(near, [MOSS, FERN, MOSS], lift=1)
    sheet.paper(
        [wave((x, y), r) for x, y, r in knots("200,284,40 460,288,44 740,286,46 1010,282,40")], MIST
    )
    return sheet


def plume(sheet: Sheet, x: float, top: float, lean: float) -> None:
    """A reed's stalk and its feathery head, blown to one side."""
    stalk = [(x, 284), (x + lean * 0.3, 180), (x + lean, top + 40)]
    sheet.paper(ribbon(stalk, [4, 3.4, 2.4]), OCHRE, lift=1)
    head = along(
        line((x + lean * 0.86, top + 64), (x + lean * 1.3, top + 8), (x + lean * 2.3, top)), 9
    )
    tufts = [
        leaf(at, 58 - 3 * i, angle + side * (34 - 2 * i) + 20, 0.22)
        for i, (at, angle) in enumerate(head)
        for side in (-1, 1)
    ]
    sheet.papers(tufts, [STRAW, OCHRE], lift=0.8)
