"""A fire salamander walks over a wet stone at the spring and looks round."""

from __future__ import annotations

from random import Random

from art.kit.curves import Curve, Knot, Point, along, closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import frond, leaf, ripple, slit, stone
from art.kit.limbs import leg, toes
from art.kit.palette import (
    FERN,
    INK,
    MIST,
    MOSS,
    OCHRE,
    PAPER,
    POOL,
    SAGE,
    SAND,
    SLATE,
    STONE,
)
from art.kit.rows import beside, clear_of, row
from art.kit.sheet import Sheet

NAME = "Salamander"
CHAPTER = "spring"
DESCRIPTION = (
    "A fire salamander, black with yellow patches, seen from above. It walks over a pale wet "
    "stone beside the spring and turns its head; moss, ferns and running water lie around it."
)
SPOTS = {"shoulder": (35, 34.5), "hip": (55.5, 65), "tail": (32, 88)}
LINKS = ["shoulder-hip", "hip-tail"]

SPINE = knots(
    "392,262 340,345 352,450 440,580 535,700 570,830 520,970 400,1055 255,1050 160,960 175,850"
)
GIRTH = [62, 92, 104, 108, 110, 94, 74, 62, 48, 30, 0]
HEAD = (430, 195)


def draw() -> Sheet:
    sheet = Sheet("salamander")
    rng = Random(7)
    sheet.ground(SAGE, PAPER, seed=3)
    habitat(sheet, rng)
    sheet.layer("creature")
    legs(sheet)
    body = ribbon(SPINE, GIRTH)
    sheet.paper(body, INK, lift=3)
    skin(sheet, body)
    head(sheet)
    sheet.layer("front")
    ferns(sheet)
    return sheet


def habitat(sheet: Sheet, rng: Random) -> None:
    """A runnel of spring water, the stone, and cushions of moss."""
    water = closed(
        *knots("1010,-10! 1010,1210! 770,1210! 830,1000 760,800 840,560 720,330 760,150 690,-10!")
    )
    sheet.paper(water, POOL)
    sheet.paper(
        [
            ripple([(x, y), (x + 24, y + 70), (x - 10, y + 150), (x + 20, y + 230)], 6)
            for x, y in knots(
                "800,40 880,150 950,20 900,420 960,560 860,700 930,860 850,960 960,1000 960,300"
            )
        ],
        MIST,
    )
    slab = closed(
        *knots(
            "28,470 60,210 190,75 430,40 650,75 800,210 850,420 890,640 880,900 790,1100 "
            "560,1168 280,1160 90,1060 36,800"
        )
    )
    sheet.paper(slab, SAND, lift=3)
    with sheet.inside(slab):
        flecks = [
            slit((rng.uniform(40, 880), rng.uniform(60, 1150)), rng.uniform(14, 40), -24, 0.35)
            for _ in range(70)
        ]
        sheet.paper(flecks, PAPER)
        sheet.paper(flecks[::5], STONE)
    for x, y, rx, ry in knots("905,380,70,52 960,470,60,44 880,1120,80,60"):
        sheet.paper(stone((x, y), rx, ry, rng), STONE, lift=2)
    cushion(sheet, (30, 50), 200, MOSS, rng)
    cushion(sheet, (700, 1215), 150, MOSS, rng)
    cushion(sheet, (870, 1205), 110, FERN, rng)


def cushion(sheet: Sheet, at: Knot, size: float, colour: str, rng: Random) -> None:
    """Moss: a ragged round paper with a star of blades cut into it."""
    rim = [
        (*step(at, a + 7, size * rng.uniform(0.9, 1.08)), *([0] if a % 2 else []))
        for a in range(0, 360, 15)
    ]
    sheet.paper(closed(*rim), colour, lift=2)
    blades = [
        leaf(step(at, a, size * r), size * 0.17, a + rng.uniform(-20, 20), 0.34)
        for r in (0.1, 0.34, 0.56, 0.76)
        for a in range(int(r * 40), 360, int(18 / (r + 0.1)))
    ]
    sheet.paper(blades, SAGE if colour == MOSS else MOSS)


def legs(sheet: Sheet) -> None:
    """Stout legs: four fingers in front, five toes behind."""
    limbs = [
        ([(370, 385), (250, 400), (150, 330)], [52, 38, 30], (148, 325), (-170, -128, -92, -52)),
        ([(350, 430), (520, 450), (640, 370)], [52, 38, 30], (646, 366), (-104, -66, -28, 12)),
        ([(545, 760), (395, 800), (330, 905)], [60, 44, 32], (322, 905), (60, 98, 134, 170, 205)),
        ([(545, 740), (700, 700), (760, 590)], [60, 44, 32], (764, 585), (-142, -106, -70, -34, 2)),
    ]
    for joints, widths, hand, angles in limbs:
        sheet.paper([leg(joints, widths), *toes(hand, angles, 84, 13)], INK, lift=2)
    for x, y, angle in knots("235,385,-160 566,424,-42 368,838,118 722,662,-58"):
        sheet.paper(blotch((x, y), 44, 24, angle, 0), OCHRE)


def skin(sheet: Sheet, body: Curve) -> None:
    """Two broken rows of yellow, grooves along the flanks and pores down the back."""
    spine = line(*SPINE)
    places = along(spine, 30)
    patches = [blotch(*patch_at(places, patch)) for patch in PATCHES]
    with sheet.inside(body):
        sheet.paper(patches, OCHRE)
    pores = [
        pore
        for offset in (-10, 10)
        for pore in row(beside(spine, offset), 30, lambda p, a, n, i: slit(p, 11, a, 0.7))[3:-8]
    ]
    sheet.paper(clear_of(pores, *patches), SLATE)


PATCHES = knots(
    "3,62,70,34 5,-64,92,38 8,60,84,36 9,-62,50,32 12,-64,96,36 12,62,50,32 "
    "15,66,90,36 16,-52,60,34 19,46,64,26 19,-42,50,26 22,-28,62,22 23,34,44,20 "
    "25,6,44,18 27,0,34,12"
)
"""Place along the back (0 to 29), how far beside it, half length and half width."""


def patch_at(
    places: list[tuple[Point, float]], patch: Knot
) -> tuple[Point, float, float, float, float]:
    place, side, long, wide = patch
    point, angle = places[int(place)]
    return step(point, angle + 90, side), long, wide, angle, place


def blotch(at: Knot, long: float, wide: float, angle: float, seed: float) -> Curve:
    """A patch of yellow with a waist."""
    rng = Random(int(seed) + 100)
    shape = [
        (long * x * rng.uniform(0.85, 1.1), wide * y * rng.uniform(0.8, 1.15))
        for x, y in knots("-1,0 -0.6,-0.9 0,-0.6 0.6,-1 1,-0.1 0.5,0.9 -0.1,0.65 -0.7,1")
    ]
    return closed(*((at[0] + x, at[1] + y) for x, y in shape)).turned(angle, at)


def head(sheet: Sheet) -> None:
    """Broad and blunt, with bulging eyes, turned to the right."""
    x, y = HEAD
    turn = 38

    def placed(shape: Curve) -> Curve:
        return shape.moved(x, y).turned(turn, HEAD)

    skull = closed(
        *knots(
            "0,-128 48,-108 82,-58 96,-8 104,46 88,96 40,128 -40,128 -88,96 -104,46 -96,-8 "
            "-82,-58 -48,-108"
        )
    )
    eyes = [ellipse((side * 86, -34), 27, 34, side * 16) for side in (-1, 1)]
    sheet.paper([placed(e) for e in eyes], INK, lift=2)
    sheet.paper(placed(skull), INK, lift=2)
    for side in (-1, 1):
        sheet.paper(placed(ellipse((side * 82, -36), 23, 29, side * 16)), OCHRE)
        sheet.paper(placed(ellipse((side * 90, -38), 15, 20, side * 16)), INK)
        sheet.paper(placed(slit((side * 90, -47), 15, side * 30, 0.5)), PAPER)
        gland = closed(
            (side * 62, 14), (side * 92, 40), (side * 84, 92), (side * 52, 106), (side * 44, 60)
        )
        sheet.paper(placed(gland), OCHRE)
        dots = [
            ellipse((side * (66 + dx), yy), 4) for dx, yy in ((0, 36), (10, 56), (-4, 66), (4, 84))
        ]
        sheet.paper([placed(d) for d in dots], INK)
    sheet.paper([placed(ellipse((side * 15, -104), 4.5)) for side in (-1, 1)], SLATE)


def ferns(sheet: Sheet) -> None:
    sheet.paper(frond([(1010, 830), (940, 880), (905, 960), (915, 1050)], 92, 8), FERN, lift=2)
    sheet.paper(frond([(-10, 720), (60, 650), (96, 560), (84, 460)], 84, 8), FERN, lift=2)
    sheet.paper(frond([(600, -10), (690, 40), (750, 120), (760, 220)], 84, 8), FERN, lift=2)
