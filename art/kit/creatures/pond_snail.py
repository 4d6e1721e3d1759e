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
    STONE,
    STRAW,
)
from art.kit.rows import clear_of, rows
from art.kit.sheet import Sheet

NAME = "Pond snail"
CHAPTER = "mill pond"
DESCRIPTION = (
    "A great pond snail under water glides along a log. Its soft olive neck comes out of the wide "
    "mouth of a horn-brown shell with a fine spire; the eyes sit at the roots of two flat feelers."
)
SPOTS = {
    "heel": (84, 83),
    "foot": (40, 84.5),
    "shell": (55, 58),
    "spire": (72, 35.5),
    "tip": (90, 12.5),
}
LINKS = ("heel-foot", "foot-shell", "shell-spire", "spire-tip")

AXIS = -52
MOUTH = (436, 778)
WHORLS = (
    "838,-12 858,4 846,24 818,30 806,4 816,-18",
    "772,-30 820,-26 834,8 816,44 776,56 752,18",
    "692,-50 768,-52 798,0 778,56 716,92 668,52 656,-6",
    "588,-78 680,-94 734,-36 734,36 690,104 616,140 536,90 516,-10",
    "0,-226 110,-262 250,-262 390,-222 506,-156 586,-86 622,0 606,90 540,170 430,232 290,264 "
    "130,262 0,216",
)
"""The turns of the shell, the tip first, drawn along the x axis with the mouth at nought."""


def draw() -> Sheet:
    sheet = Sheet("pond-snail")
    rng = Random(52)
    sheet.ground(MIST, PAPER, seed=18)
    habitat(sheet, rng)
    sheet.layer("creature")
    tail(sheet)
    shell(sheet)
    mouth(sheet)
    neck(sheet)
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
    """Five turns with a dark seam between them; fine lines of growth run across the last."""
    for text in WHORLS:
        turn = closed(*knots(text))
        left, _, right, bottom = turn.box
        sheet.paper(wind(turn), BARK, lift=2.5)
        shade = closed(
            (left - 40, bottom * 0.8),
            ((left + right) / 2, bottom * 0.66),
            (right - 0.12 * bottom, -0.1 * bottom),
            (right + 80, bottom, 0),
            (left - 40, bottom + 60, 0),
        )
        with sheet.inside(wind(turn)):
            sheet.paper(wind(turn.moved(-10, 0)), OCHRE)
            sheet.paper(wind(shade), RUST)
    big = closed(*knots(WHORLS[-1])).scaled(0.97, about=(250, 0))
    growth = [
        slit((x + 30 * (n % 2) - 0.0016 * y * y, y), 64, 84 - 0.12 * y, 0.15)
        for n, y in enumerate(range(-224, 150, 40))
        for x in range(0, 600, 62)
    ]
    inside = [cut for cut in growth if big.holds(cut)]
    sheet.paper(map(wind, inside), RUST)
    sheet.paper(map(wind, inside[::3]), STRAW)


def mouth(sheet: Sheet) -> None:
    """The way in: a wide pale lip round a dark hollow, from which the snail comes."""
    lip = closed(
        *knots("40,-262 -50,-236 -104,-120 -116,20 -84,160 0,248 66,240 96,120 100,-40 84,-200")
    )
    sheet.paper(wind(lip), STRAW, lift=2.5)
    hollow = closed(
        *knots("24,-214 -42,-190 -74,-96 -80,30 -54,140 2,202 40,190 60,90 64,-40 52,-160")
    )
    sheet.paper(wind(hollow), BARK)


def tail(sheet: Sheet) -> None:
    """The foot behind the shell, thin at its end, on the sole's pale frill."""
    frill = closed(*knots("40,1062! 220,1036 700,1036 880,1050 966,1078! 760,1096 200,1096"))
    sheet.paper(frill, OCHRE, lift=2)
    shape = closed(*knots("400,900! 560,880 680,930 800,1000 946,1064! 700,1066 400,1066!"))
    sheet.paper(shape, MOSS, lift=2)
    sheet.paper([slit((x, 1080), 40, 0, 0.2) for x in range(120, 880, 62)], RUST)
    flecks = [slit((x, 960 + (x * 7) % 84), 16, 20, 0.55) for x in range(600, 850, 28)]
    sheet.paper([fleck for fleck in flecks if shape.holds(fleck)], STRAW)


def neck(sheet: Sheet) -> None:
    """The soft body leans out of the mouth, long and low, and ends in a broad flat snout."""
    feeler(sheet, knots("128,920 104,850 64,770 20,700"))
    shape = closed(
        *knots(
            "492,780! 430,764 380,796 330,850 270,884 200,880 140,890 88,914 54,960 24,1012 "
            "22,1048 60,1066 300,1066 480,1066 566,1050 600,1000 598,920 566,850"
        )
    )
    sheet.paper(shape, MOSS, lift=2)
    flecks = rows(
        shape,
        line(*knots("90,1020 200,920 330,890 520,850")),
        (-6, 28, 62, 96, 130, 164),
        46,
        lambda p, a, n, i: slit(p, 17 - n % 3 * 3, a + 20, 0.55),
    )
    sheet.paper(clear_of(flecks, ellipse((206, 930), 60)), STRAW)


def head(sheet: Sheet) -> None:
    """Two flat pointed feelers, unlike a land snail's stalks; the eye sits at the root."""
    feeler(sheet, knots("216,926 218,830 206,740 176,640"))
    sheet.paper(ellipse((214, 926), 23), STRAW)
    sheet.paper(ellipse((214, 926), 15), INK)
    sheet.paper(ellipse((209, 920), 5), PAPER)


def feeler(sheet: Sheet, spine: list[Knot]) -> None:
    sheet.paper(ribbon(spine, [38, 30, 20, 11, 5], 15), MOSS, lift=1.5)


def front(sheet: Sheet) -> None:
    log = closed(*knots("-10,1096! 300,1072 640,1086 1010,1068! 1010,1210! -10,1210!"))
    sheet.paper(log, SAND, lift=2)
    grooves = [
        slit((x, y), 90, -2, 0.12)
        for x, y in knots("70,1130 240,1160 400,1116 560,1170 700,1126 880,1160 950,1110 140,1190")
    ]
    sheet.paper(grooves, STONE)
    for x, y, r in knots("300,240,18 350,190,11 250,330,9"):
        sheet.paper(bubble((x, y), r), PAPER)
