"""A grass snake winds between the reeds and tastes the air."""

from __future__ import annotations

from random import Random

from art.kit.curves import Curve, closed, ellipse, knots, line, polygon, ribbon
from art.kit.cutouts import leaf, slit
from art.kit.palette import (
    FERN,
    INK,
    MOSS,
    OCHRE,
    PAPER,
    RUST,
    SAGE,
    SAND,
    STRAW,
)
from art.kit.rows import beside, row
from art.kit.sheet import Sheet

NAME = "Grass snake"
CHAPTER = "reed bed"
DESCRIPTION = (
    "A grass snake seen from above winds in four bends between the reeds: olive green with short "
    "black bars and a yellow collar behind the head. Its forked tongue tastes the air."
)
SPOTS = {
    "nape": (50.5, 12.5),
    "first_bend": (79.5, 29),
    "middle": (47, 43.5),
    "second_bend": (19.5, 62),
    "back": (51.5, 74),
    "third_bend": (84.5, 82.5),
}
LINKS = [
    "nape-first_bend",
    "first_bend-middle",
    "middle-second_bend",
    "second_bend-back",
    "back-third_bend",
]

SPINE = knots(
    "250,218 360,158 520,140 700,180 800,290 770,420 620,500 440,530 270,600 196,730 270,850 "
    "440,892 640,880 800,920 840,1030 740,1110 560,1130 380,1120"
)
GIRTH = [56, 62, 72, 80, 84, 86, 86, 86, 86, 84, 80, 74, 66, 58, 48, 36, 24, 0]
HEAD = (196, 262)


def draw() -> Sheet:
    sheet = Sheet("grass-snake")
    rng = Random(72)
    sheet.ground(SAND, PAPER, seed=27)
    habitat(sheet, rng)
    sheet.layer("creature")
    body(sheet)
    head(sheet)
    sheet.layer("front")
    front(sheet, rng)
    return sheet


REEDS = knots("120,1210,90,-20 340,1210,380,-20 590,1210,560,-20 700,1210,730,-20 930,1210,950,-20")


def stems() -> list[Curve]:
    return [ribbon([(a, b), ((a + c) / 2, 600), (c, d)], [15, 14, 11]) for a, b, c, d in REEDS]


def habitat(sheet: Sheet, rng: Random) -> None:
    """Stems, and the fallen leaves of last year between them."""
    litter = [
        leaf(
            (rng.uniform(-20, 960), rng.uniform(0, 1190)),
            rng.uniform(120, 200),
            rng.uniform(-30, 30),
            0.12,
        )
        for _ in range(26)
    ]
    sheet.paper(litter, STRAW)
    sheet.paper(stems(), SAGE, lift=1)


def body(sheet: Sheet) -> None:
    spine = line(*SPINE)
    shape = ribbon(SPINE, GIRTH, 60)
    sheet.paper(shape, MOSS, lift=4)
    scales = [
        mark
        for n, offset in enumerate((-30, -10, 10, 30))
        for mark in row(beside(spine, offset), 36, lambda p, a, n, i: slit(p, 18, a, 0.34), n)
    ]
    sheet.paper([m for m in scales if shape.holds(m)], FERN)
    with sheet.inside(shape):
        bars = [
            mark
            for n, offset in enumerate((-64, 64))
            for mark in row(
                beside(spine, offset), 74, lambda p, a, n, i: slit(p, 58, a + 90, 0.46), n
            )
        ]
        sheet.paper(bars, INK)


def head(sheet: Sheet) -> None:
    """Broad behind, blunt before, drawn facing left; the collar that marks the grass snake."""

    def placed(shape: Curve) -> Curve:
        return shape.scaled(1.3).turned(-36).moved(*HEAD)

    for side in (-1, 1):
        tongue = ribbon([(-100, 0), (-150, 4), (-180, side * 20)], [5, 4, 0])
        sheet.paper(placed(tongue), RUST)
    skull = closed(
        *knots(
            "-118,0 -108,-32 -70,-52 -10,-66 50,-70 110,-48 150,-34! 150,34! 110,48 50,70 -10,66 "
            "-70,52 -108,32"
        )
    )
    sheet.paper(placed(skull), MOSS, lift=3)
    with sheet.inside(placed(skull)):
        collar = closed(*knots("44,-90! 36,-40 52,0 36,40 44,90! 90,90! 80,40 92,0 80,-40 90,-90!"))
        sheet.paper(placed(collar), OCHRE)
        dark = closed(
            *knots("88,-90! 80,-40 96,0 80,40 88,90! 118,90! 122,40 112,0 122,-40 118,-90!")
        )
        sheet.paper(placed(dark), INK)
    shields = [
        closed(*knots("-34,-30! -4,-36 24,-8 22,0! -20,0!")),
        closed(*knots("-44,-26! -84,-20 -88,0! -48,0!")),
    ]
    for shield in shields:
        mirrored = shield.scaled(1, -1)
        sheet.paper([placed(shield.moved(0, -3)), placed(mirrored.moved(0, 3))], FERN)
    for side in (-1, 1):
        sheet.paper(placed(ellipse((-58, side * 50), 22, 17, side * 20)), OCHRE)
        sheet.paper(placed(ellipse((-60, side * 52), 15, 13)), INK)
        sheet.paper(placed(ellipse((-60, side * 52), 4.5).moved(6, -3)), PAPER)
        sheet.paper(placed(ellipse((-102, side * 13), 4)), INK)


def front(sheet: Sheet, rng: Random) -> None:
    """Two stems pass in front of a bend, so the snake is woven into the reeds."""
    for number, top, bottom in ((1, 720, 1010), (2, 310, 700)):
        window = polygon((0, top), (1000, top), (1000, bottom), (0, bottom))
        with sheet.inside(window):
            sheet.paper(stems()[number], SAGE, lift=1.5)
    tufts = [
        leaf((x, 1215), rng.uniform(90, 170), -90 + rng.uniform(-24, 24), 0.14)
        for x in (4, 34, 70, 110, 150, 900, 940, 980)
    ]
    sheet.papers(tufts, [MOSS, FERN], lift=1)
