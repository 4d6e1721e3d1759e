"""A brown trout bends up through the brook towards a mayfly."""

from __future__ import annotations

from random import Random

from art.kit.curves import Curve, Point, along, bent, closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import bubble, leaf, ripple, slit, stone
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

NAME = "Trout"
CHAPTER = "brook"
DESCRIPTION = (
    "A brown trout under water, its back green, its flank golden with dark and rusty spots. "
    "It swings up from the pebbles in a curve, mouth open, towards a mayfly over the surface."
)
SPOTS = {
    "shoulder": (38, 31),
    "back_fin": (72, 40),
    "belly_fin": (29, 58.5),
    "middle": (50, 53.5),
    "upper_tail": (87.5, 74),
    "lower_tail": (71, 88.5),
}
LINKS = (
    "middle-shoulder",
    "middle-back_fin",
    "middle-belly_fin",
    "middle-upper_tail",
    "middle-lower_tail",
)

SPINE = line(*knots("138,222 296,300 440,426 530,606 566,770 640,890 770,960 880,982"))
BODY = closed(
    *knots(
        "0,-18! 60,-60 160,-104 300,-138 440,-146 600,-128 780,-84 900,-62 960,-76 "
        "960,76 900,62 780,88 600,134 440,152 280,140 150,114 78,96 26,66! 74,50 "
        "112,20! 60,4"
    )
)
BACK = closed(
    *knots("-20,-18! 96,-44 220,-58 420,-66 640,-52 800,-30 1000,-24! 1000,-240! -20,-240!")
)
BELLY = closed(*knots("20,66! 120,62 280,88 440,96 620,80 800,48 1000,40! 1000,240! 0,240!"))


def draw() -> Sheet:
    sheet = Sheet("trout")
    rng = Random(21)
    sheet.ground(MIST, PAPER, seed=9)
    habitat(sheet, rng)
    sheet.layer("creature")
    fins(sheet)
    body(sheet)
    head(sheet)
    sheet.layer("front")
    bed(sheet, rng)
    mayfly(sheet)
    return sheet


def swim(shape: Curve) -> Curve:
    return bent(shape, SPINE)


def habitat(sheet: Sheet, rng: Random) -> None:
    """The surface above, waterweed at the sides, light on the water."""
    surface = closed(
        *knots("-10,128! 180,108 420,132 700,104 880,126 1010,112! 1010,-10! -10,-10!")
    )
    sheet.paper(surface, SAND, lift=2)
    for stem in (
        [(930, 1210), (960, 900), (900, 600), (950, 250)],
        [(60, 1210), (40, 1000), (100, 820), (60, 640)],
    ):
        places = along(line(*stem), 16)[1:]
        blades = [
            leaf(at, 96 - 3 * i, angle + side * 34, 0.22, side * 0.06)
            for i, (at, angle) in enumerate(places)
            for side in (-1, 1)
        ]
        sheet.paper([ribbon(stem, [8, 7, 0]), *blades], SAGE)
    waves = [
        ripple([(x, y), (x + w / 3, y - 14), (x + w * 0.66, y + 12), (x + w, y)], 7)
        for x, y, w in knots(
            "470,190,220 720,240,170 560,270,130 60,470,150 30,540,110 700,720,150 "
            "760,780,100 240,960,170 180,1010,110"
        )
    ]
    sheet.paper(waves, POOL)


FINS = [
    knots("400,-110! 440,-230 500,-300 560,-316 680,-262! 656,-190 670,-100!"),
    knots("800,-70! 836,-132 884,-150! 874,-106 860,-56!"),
    knots("500,120! 500,220 540,300 600,322 672,290! 640,200 610,116!"),
    knots("760,74! 780,150 818,200 874,176! 862,116 850,60!"),
]


def fins(sheet: Sheet) -> None:
    """Tail, back fin, the small fat fin that marks the trout's family, belly fins."""
    tail = closed(
        *knots(
            "900,-50! 1000,-100 1090,-190 1150,-204! 1142,-110 1128,0 1142,112 1150,198! "
            "1090,180 1000,102 900,50!"
        )
    )
    sheet.paper(swim(tail), MOSS, lift=3)
    rays = [slit(step((860, 0), a, r), 84, a, 0.1) for a in range(-34, 38, 7) for r in (170, 256)]
    sheet.paper([swim(r) for r in rays if tail.holds(r)], STRAW)
    for edge, colour in zip(FINS, (MOSS, RUST, RUST, RUST), strict=True):
        fin = closed(*edge)
        sheet.paper(swim(fin), colour, lift=3)
        left, top, right, _bottom = fin.box
        up = top < 0
        root = ((left + right) / 2 - 20, 0)
        rays = [
            slit(step(root, (-1 if up else 1) * a, r), 62, (-1 if up else 1) * a, 0.12)
            for a in range(30, 130, 9)
            for r in (150, 206, 262)
        ]
        sheet.paper([swim(r) for r in rays if fin.holds(r)], STRAW)


def body(sheet: Sheet) -> None:
    shape = swim(BODY)
    sheet.paper(shape, OCHRE, lift=4)
    with sheet.inside(shape):
        sheet.paper(swim(BACK), FERN)
        sheet.paper(swim(BELLY), STRAW)
    middle = line((230, 0), (940, 0))
    marks = rows(
        BODY,
        middle,
        (-104, -66, 24, 62),
        66,
        lambda p, a, n, i: ellipse(
            (p[0] + (i * 37 + n * 23) % 22, p[1] + (i * 53) % 14 - 7),
            11 + (i * 5 + n * 3) % 6,
            10 + (i * 3) % 5,
        ),
    )
    sheet.paper([swim(m) for m in clear_of(marks, BELLY)], INK)
    red = rows(BODY, line((270, -22), (930, -6)), (0,), 104, lambda p, a, n, i: ellipse(p, 20, 18))
    sheet.paper([swim(m) for m in red], STRAW)
    sheet.paper([swim(m.scaled(0.6, about=centre(m))) for m in red], RUST)


def centre(shape: Curve) -> Point:
    left, top, right, bottom = shape.box
    return (left + right) / 2, (top + bottom) / 2


def head(sheet: Sheet) -> None:
    gill = closed(*knots("176,-92! 236,-74 268,-14 258,60 200,122! 214,60 212,-10 200,-60"))
    sheet.paper(swim(gill), RUST, lift=1)
    cover = closed(*knots("136,-72! 196,-70 232,-36 240,16 226,74 176,116! 150,70 140,10 146,-40"))
    sheet.paper(swim(cover), STRAW, lift=2)
    marks = (ellipse((184, -26), 11), ellipse((206, 8), 9), ellipse((178, 40), 8))
    sheet.paper(map(swim, marks), INK)
    jaw = swim(closed(*knots("14,-8! 70,0 140,34 152,60! 110,46 66,14")))
    sheet.paper(jaw, BARK)
    sheet.paper(swim(ellipse((104, -34), 27)), STRAW)
    sheet.paper(swim(ellipse((104, -34), 18)), INK)
    sheet.paper(swim(ellipse((98, -40), 6)), PAPER)
    fin = swim(closed(*knots("236,76! 310,88 390,150 420,214! 340,214 260,150")))
    sheet.paper(fin, RUST, lift=2)
    sheet.paper([swim(slit(step((240, 70), a, 110), 70, a, 0.12)) for a in (30, 41, 52)], STRAW)


def bed(sheet: Sheet, rng: Random) -> None:
    for x, y, rx, ry, colour in (
        (60, 1190, 130, 80, STONE),
        (230, 1210, 110, 66, SLATE),
        (400, 1200, 110, 60, SAND),
        (560, 1214, 100, 56, STONE),
        (980, 1200, 110, 50, SLATE),
    ):
        sheet.paper(stone((x, y), rx, ry, rng), colour, lift=2)
    for x, y, r in ((96, 176, 14), (66, 220, 9), (330, 170, 14), (372, 150, 9)):
        sheet.paper(bubble((x, y), r), PAPER)


def mayfly(sheet: Sheet) -> None:
    """Upright wings, a bent body and three long tails."""
    sheet.paper([leaf((166, 92), 84, -128, 0.5), leaf((160, 94), 80, -84, 0.46)], PAPER, lift=1.5)
    sheet.paper(ribbon([(116, 86), (160, 94), (230, 66)], [11, 11, 4]), BARK, lift=1)
    sheet.paper(
        [ribbon([(226, 68), (280, y + 12), (340, y)], [2.6, 2.2, 0]) for y in (18, 38, 58)], BARK
    )
