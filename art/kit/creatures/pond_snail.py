"""A great pond snail glides over a sunken log."""

from __future__ import annotations

from random import Random

from art.kit.curves import Curve, Knot, along, closed, ellipse, knots, line, ribbon
from art.kit.cutouts import bubble, leaf, ripple, slit
from art.kit.palette import (
    BARK,
    FERN,
    INK,
    MIST,
    MOSS,
    OCHRE,
    PAPER,
    POOL,
    RUST,
    SAGE,
    SAND,
    SLATE,
    STONE,
    STRAW,
)
from art.kit.rows import clear_of, rows
from art.kit.sheet import Sheet

NAME = "Pond snail"
CHAPTER = "mill pond"
DESCRIPTION = (
    "A great pond snail under water. Its tall brown shell winds up to a fine point; the broad "
    "grey foot glides along a stem, and the head with two flat feelers stretches forward."
)
SPOTS = {"foot": (29.5, 81.5), "shell": (45.5, 54.5), "spire": (65, 32), "tip": (81.5, 9.5)}
LINKS = ["foot-shell", "shell-spire", "spire-tip"]

AXIS = -56
MOUTH = (420, 690)
WHORLS = knots("704,26,24 650,44,44 582,72,62 496,108,86 396,150,112 280,200,138 120,262,196")
"""How far up the axis from the mouth, half width, half height: the tip first."""


def draw() -> Sheet:
    sheet = Sheet("pond-snail")
    rng = Random(52)
    sheet.ground(MIST, PAPER, seed=18)
    habitat(sheet, rng)
    sheet.layer("creature")
    foot(sheet)
    shell(sheet)
    head(sheet)
    sheet.layer("front")
    front(sheet)
    return sheet


def wind(shape: Curve) -> Curve:
    """The shell is drawn along the x axis, mouth at nought; this stands it on its snail."""
    return shape.turned(AXIS).moved(*MOUTH)


def habitat(sheet: Sheet, rng: Random) -> None:
    """Duckweed at the top, stems of pondweed, and a sunken log."""
    waves = [
        ripple([(x, y), (x + w / 3, y - 12), (x + w * 0.66, y + 10), (x + w, y)], 7)
        for x, y, w in knots(
            "330,230,150 480,330,110 150,420,130 780,560,140 700,700,120 790,830,150 30,560,100"
        )
    ]
    sheet.paper(waves, POOL)
    for stem in (
        knots("80,1100 120,800 60,480 110,160"),
        knots("930,1100 900,900 950,700 910,470"),
    ):
        places = along(line(*stem), 14)[1:]
        blades = [
            leaf(at, 104 - 3 * i, angle + side * 42, 0.24, side * 0.07)
            for i, (at, angle) in enumerate(places)
            for side in (-1, 1)
        ]
        sheet.paper([ribbon(stem, [8, 7, 0]), *blades], SAGE)
    surface = closed(*knots("-10,60! 240,44 520,62 760,46 1010,58! 1010,-10! -10,-10!"))
    sheet.paper(surface, SAND, lift=2)
    weed = [
        ellipse((x, 56 + rng.uniform(-9, 7)), rng.uniform(20, 30), 12, rng.uniform(-8, 8))
        for x in range(16, 620, 46)
    ]
    sheet.papers(weed, [MOSS, SAGE, FERN], lift=1)
    roots = [
        ribbon([(x, 66), (x + 6, 96), (x - 4, 128)], [2.5, 2.5, 0]) for x in range(20, 620, 92)
    ]
    sheet.paper(roots, MOSS)


def shell(sheet: Sheet) -> None:
    """Seven turns, each over the one before, a dark seam between them, and lines of growth."""
    lip = ribbon(knots("206,636 304,758 436,852 570,896"), [12, 26, 28, 14], 15)
    sheet.paper(lip, STRAW, lift=2)
    for at, half, tall in WHORLS:
        turn = whorl(at, half, tall)
        sheet.paper(wind(turn), BARK, lift=2.5)
        turn = turn.moved(-0.09 * tall - 5, 0).scaled(1, 0.99)
        sheet.paper(wind(turn), RUST)
        lines = [
            slit((at + tall * up - 0.12 * abs(y), y), tall * 0.46, 14 - 26 * y / half, 0.16)
            for up, shift in ((0.62, 0), (0.1, 0.5), (-0.42, 0))
            for y in (half * (-0.8 + 0.2 * (i + shift)) for i in range(9))
        ]
        if half > 60:
            with sheet.inside(wind(turn)):
                shade = closed(
                    (at - 2 * tall, half * 0.5),
                    (at, half * 0.62),
                    (at + tall, half * 0.34),
                    (at + 2 * tall, half * 1.4, 0),
                    (at - 2 * tall, half * 1.4, 0),
                )
                sheet.paper(wind(shade), BARK)
            sheet.paper([wind(c) for c in lines if turn.holds(c)], OCHRE)


def whorl(at: float, half: float, tall: float) -> Curve:
    """One turn of the shell: broader towards the mouth, leaning with the winding."""
    return closed(
        (at + tall, -half * 0.52),
        (at + tall * 1.06, 0),
        (at + tall * 0.76, half * 0.6),
        (at - tall * 0.1, half),
        (at - tall, half * 0.86),
        (at - tall * 1.1, 0),
        (at - tall * 0.8, -half * 0.8),
        (at + tall * 0.2, -half),
    )


def foot(sheet: Sheet) -> None:
    """The broad sole with its frilled edge, flecked with yellow."""
    sole = closed(
        *knots(
            "60,1010 120,970 240,960 480,970 700,970 860,1000 970,1060! 800,1088 500,1088 "
            "220,1086 90,1066"
        )
    )
    sheet.paper(sole, OCHRE, lift=3)
    sheet.paper([slit((x, 1060), 40, 0, 0.2) for x in range(140, 860, 62)], RUST)
    feeler(sheet, knots("240,850 226,780 196,710 196,620"))
    flesh = closed(
        *knots(
            "40,960 56,900 110,856 190,836 290,806 380,760 540,800 690,870 800,950 900,1034! "
            "700,1036 420,1038 220,1032 120,1026 60,1000"
        )
    )
    sheet.paper(flesh, SLATE, lift=2)
    flecks = rows(
        flesh,
        line(*knots("90,950 300,870 520,900 780,1000")),
        (-90, -54, -18, 18, 54, 90, 124),
        50,
        lambda p, a, n, i: slit(p, 17 - n % 3 * 3, a + 20, 0.55),
    )
    sheet.paper(clear_of(flecks, ellipse((158, 884), 40)), STRAW)


def feeler(sheet: Sheet, spine: list[Knot]) -> None:
    """Flat and three-cornered, unlike a land snail's stalks."""
    sheet.paper(ribbon(spine, [46, 26, 20, 9], 9), SLATE, lift=2)


def head(sheet: Sheet) -> None:
    """The eyes sit at the roots of the feelers; the mouth is a lobe over the stone."""
    feeler(sheet, knots("150,890 124,800 72,730 44,640"))
    sheet.paper(ellipse((168, 886), 21), STRAW)
    sheet.paper(ellipse((168, 886), 16), INK)
    sheet.paper(ellipse((163, 880), 5), PAPER)


def front(sheet: Sheet) -> None:
    log = closed(*knots("-10,1096! 300,1072 640,1086 1010,1068! 1010,1210! -10,1210!"))
    sheet.paper(log, SAND, lift=2)
    grooves = [
        slit((x, y), 90, -2, 0.12)
        for x, y in knots("70,1130 240,1160 400,1116 560,1170 700,1126 880,1160 950,1110 140,1190")
    ]
    sheet.paper(grooves, STONE)
    for x, y, r in knots("300,240,18 350,190,11 250,330,9 760,640,14 800,590,9"):
        sheet.paper(bubble((x, y), r), PAPER)
