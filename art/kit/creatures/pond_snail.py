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
    "A great pond snail under water. Its horn-brown shell is nearly all one big whorl with a wide "
    "mouth, and ends in a fine spire; the grey foot glides along a log, two flat feelers in front."
)
SPOTS = {"foot": (32, 84.5), "shell": (47, 55.5), "spire": (67.5, 32), "tip": (86.5, 8.5)}
LINKS = ["foot-shell", "shell-spire", "spire-tip"]

AXIS = -54
MOUTH = (458, 716)
WHORLS = (
    "838,-12 858,4 846,24 818,30 806,4 816,-18",
    "780,-36 824,-20 830,16 808,46 770,50 756,10",
    "700,-66 778,-42 792,14 764,62 708,78 672,36 664,-16",
    "588,-104 690,-78 724,-16 716,50 676,102 610,114 540,60 520,-30",
    "0,-246 110,-280 250,-270 390,-222 506,-156 586,-86 620,0 598,86 526,160 410,216 270,244 "
    "120,236 0,190 -70,100 -96,-30 -70,-160",
)
"""The turns of the shell, the tip first, drawn along the x axis with the mouth at nought."""


def draw() -> Sheet:
    sheet = Sheet("pond-snail")
    rng = Random(52)
    sheet.ground(MIST, PAPER, seed=18)
    habitat(sheet, rng)
    sheet.layer("creature")
    sole(sheet)
    flesh(sheet)
    head(sheet)
    shell(sheet)
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
    lip = ribbon(
        knots("66,-258 -24,-234 -92,-146 -120,-20 -86,106 -8,192 74,228"),
        [0, 22, 38, 42, 38, 24, 0],
        19,
    )
    sheet.paper(wind(lip.moved(-22, 8)), BARK)
    sheet.paper(wind(lip), STRAW, lift=2)


def sole(sheet: Sheet) -> None:
    """The broad sole with its frilled edge."""
    edge = closed(
        *knots(
            "60,1040 130,1000 260,990 480,990 660,1000 820,1020 950,1072! 760,1096 480,1096 "
            "220,1094 80,1084"
        )
    )
    sheet.paper(edge, OCHRE, lift=3)
    sheet.paper([slit((x, 1074), 40, 0, 0.2) for x in range(140, 840, 62)], RUST)


def flesh(sheet: Sheet) -> None:
    """A broad grey foot, flecked with yellow, and the flat lobe of the mouth."""
    feeler(sheet, knots("140,900! 148,810 130,726! 186,790 236,860!"))
    shape = closed(
        *knots(
            "24,1024 22,980 48,936 96,892 170,860 260,836 350,770 470,740 610,820 710,890 "
            "810,960 900,1052! 640,1054 400,1058 200,1058 80,1054"
        )
    )
    sheet.paper(shape, SLATE, lift=2)
    flecks = rows(
        shape,
        line(*knots("90,980 260,920 420,910 740,1020")),
        (-124, -88, -52, -16, 20, 56, 92),
        50,
        lambda p, a, n, i: slit(p, 17 - n % 3 * 3, a + 20, 0.55),
    )
    sheet.paper(clear_of(flecks, ellipse((178, 912), 44)), STRAW)


def feeler(sheet: Sheet, edge: list[Knot]) -> None:
    """Flat and three-cornered, unlike a land snail's stalks."""
    sheet.paper(closed(*edge), SLATE, lift=1.5)


def head(sheet: Sheet) -> None:
    """The eyes sit at the roots of the feelers."""
    near = closed(*knots("50,970! 56,880 26,790! 92,844 150,920! 110,970"))
    sheet.paper(near, SLATE)
    sheet.paper(ellipse((184, 906), 18), STRAW)
    sheet.paper(ellipse((184, 906), 12), INK)
    sheet.paper(ellipse((180, 902), 4), PAPER)


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
