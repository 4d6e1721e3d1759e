"""An otter turns under water after a fish."""

from __future__ import annotations

from random import Random

from art.kit.curves import Curve, Knot, along, closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import bubble, crescent, leaf, ripple, slit, stone
from art.kit.palette import (
    BARK,
    INK,
    MIST,
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

NAME = "Otter"
CHAPTER = "river meadow"
DESCRIPTION = (
    "An otter dives in a high arch under water: flat head with stiff whiskers, short webbed feet "
    "and a thick tapering tail. It looks at a small fish; silver bubbles rise from its fur."
)
SPOTS = {
    "paw": (51.5, 70.5),
    "chest": (37, 43.5),
    "back": (66.5, 26),
    "tail": (85.5, 52),
    "tip": (77, 81),
}
LINKS = ["paw-chest", "chest-back", "back-tail", "tail-tip"]

SPINE = knots("250,700 290,560 390,400 560,290 730,320 830,460 862,640 820,840 720,1000 600,1110")
GIRTH = [92, 104, 124, 134, 138, 128, 90, 62, 40, 20, 0]
HEAD = (238, 770)


def draw() -> Sheet:
    sheet = Sheet("otter")
    rng = Random(63)
    sheet.ground(MIST, PAPER, seed=24)
    habitat(sheet, rng)
    sheet.layer("creature")
    limb(sheet, knots("820,520 896,640 898,740"), (92, 108), BARK)
    limb(sheet, knots("380,700 390,860 350,930"), (118, 112), BARK)
    body(sheet)
    limb(sheet, knots("730,430 720,570 660,670"), (118, 160), BARK)
    limb(sheet, knots("390,600 500,710 520,800"), (84, 130), BARK)
    head(sheet)
    sheet.layer("front")
    front(sheet, rng)
    return sheet


def habitat(sheet: Sheet, rng: Random) -> None:
    """The bank with its grasses above, weed and pebbles below."""
    bank = closed(*knots("-10,110! 200,92 480,116 760,88 1010,104! 1010,-10! -10,-10!"))
    sheet.paper(bank, SAND, lift=2)
    blades = [
        leaf((x, -10), rng.uniform(80, 120), 90 + rng.uniform(-26, 26), 0.14)
        for x in range(4, 1000, 40)
    ]
    sheet.paper(blades, STRAW)
    deep = closed(*knots("-10,860! 260,830 520,880 780,840 1010,866! 1010,1210! -10,1210!"))
    sheet.paper(deep, POOL)
    for stem in (knots("70,1200 40,900 100,600 50,330"), knots("960,1200 990,980 930,800 970,600")):
        places = along(line(*stem), 14)[1:]
        blades = [
            leaf(at, 96 - 3 * i, angle + side * 36, 0.22, side * 0.06)
            for i, (at, angle) in enumerate(places)
            for side in (-1, 1)
        ]
        sheet.paper([ribbon(stem, [8, 7, 0]), *blades], SAGE)
    waves = [
        ripple([(x, y), (x + w / 3, y - 12), (x + w * 0.66, y + 10), (x + w, y)], 7)
        for x, y, w in knots("120,200,180 790,190,160 560,500,90 480,930,130 110,340,90")
    ]
    sheet.paper(waves, POOL)


def limb(sheet: Sheet, joints: list[Knot], webbing: tuple[float, float], colour: str) -> None:
    """A short leg and a broad webbed foot of five toes."""
    foot, (turn, reach) = joints[-1], webbing
    spread = (-44, -22, 0, 22, 44)
    web = [step(foot, turn + a, reach * (0.84 if i % 2 else 0.78)) for i, a in enumerate(spread)]
    heel = [step(foot, turn + 120, 40), step(foot, turn - 120, 40)]
    sheet.paper(closed(heel[1], *web, heel[0]), RUST, lift=1.5)
    toes = [
        ribbon([foot, step(foot, turn + a, reach * 0.6), step(foot, turn + a, reach)], [19, 15, 11])
        for a in spread
    ]
    sheet.paper([ribbon(joints, [84, 60, 44]), *toes], colour, lift=2)


def body(sheet: Sheet) -> None:
    shape = ribbon(SPINE, GIRTH, 33)
    sheet.paper(shape, BARK, lift=4)
    hairs = rows(
        shape,
        line(*SPINE),
        (-112, -76, -38, 0, 38, 76),
        64,
        lambda p, a, n, i: slit(p, 40, a, 0.18),
    )
    with sheet.inside(shape):
        belly = ribbon(knots("340,800 390,640 470,500 580,430 690,470"), [60, 66, 56, 40, 0], 17)
        sheet.paper(belly, STONE)
    sheet.paper(clear_of(hairs, belly), OCHRE)


def head(sheet: Sheet) -> None:
    """Flat and broad, drawn facing left, then lifted out of the dive."""

    def placed(shape: Curve) -> Curve:
        return shape.scaled(1.32).turned(-30).moved(*HEAD)

    ear = closed(*knots("92,-74 96,-112 124,-124 146,-98 134,-66"))
    sheet.paper(placed(ear), BARK, lift=2)
    skull = closed(
        *knots(
            "-168,12 -160,-34 -122,-52 -84,-62 -40,-90 20,-104 110,-90 170,-20 156,66 70,104 "
            "-40,102 -128,86 -164,52"
        )
    )
    sheet.paper(placed(skull), BARK, lift=3)
    with sheet.inside(placed(skull)):
        cheek = closed(*knots("-200,30! -140,16 -80,24 -10,52 60,64 180,78! 180,140! -200,140!"))
        sheet.paper(placed(cheek), SAND)
    nose = closed(*knots("-176,-2! -166,-40 -138,-46 -122,-30! -134,0 -154,14"))
    sheet.paper(placed(nose), INK, lift=1)
    sheet.paper(
        [placed(ellipse(p, 4)) for p in knots("-116,30 -94,30 -104,46 -80,46 -72,30")], BARK
    )
    hairs = [
        placed(slit((x, y), 26, 8, 0.22))
        for x, y in knots(
            "24,-76 70,-70 110,-56 44,-44 90,-30 134,-22 60,-6 110,8 20,-18 144,22 80,34 30,18"
        )
    ]
    sheet.paper(hairs, OCHRE)
    sheet.paper(placed(ellipse((-52, -44), 21)), INK)
    sheet.paper(placed(crescent((-52, -44), 26, -90, 0.22)), SAND)
    sheet.paper(placed(ellipse((-58, -50), 6.5)), PAPER)
    whiskers = [
        ribbon([start, middle, tip], [2.4, 2.2, 0])
        for start, middle, tip in (
            ((-112, 36), (-150, 80), (-216, 108)),
            ((-104, 46), (-126, 106), (-176, 160)),
            ((-88, 46), (-92, 116), (-116, 180)),
        )
    ]
    sheet.paper(map(placed, whiskers), INK)


def front(sheet: Sheet, rng: Random) -> None:
    for left, top, rx, ry, colour in (
        (40, 1200, 120, 70, STONE),
        (200, 1216, 100, 56, SLATE),
        (360, 1214, 100, 50, SAND),
        (960, 1206, 110, 60, STONE),
    ):
        sheet.paper(stone((left, top), rx, ry, rng), colour, lift=2)
    fish = closed(
        *knots(
            "70,1110! 120,1080 190,1084 250,1112! 294,1084! 286,1116 298,1148! 250,1122! "
            "186,1140 118,1138"
        )
    )
    sheet.paper(fish, SAND, lift=2)
    sheet.paper(
        [ellipse((108, 1106), 7), *(slit((x, 1112), 24, 4, 0.3) for x in (150, 182, 214))], SLATE
    )
    for x, y, r in knots(
        "150,560,17 200,480,10 120,470,9 250,300,16 200,390,10 290,240,8 940,330,13 950,400,8"
    ):
        sheet.paper(bubble((x, y), r), PAPER)
