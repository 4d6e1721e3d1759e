"""A barn swallow banks over the meadow after a fly."""

from __future__ import annotations

from random import Random

from art.kit.curves import Curve, closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import crescent, drop, feather, leaf, slit
from art.kit.palette import (
    BARK,
    DEEP,
    FERN,
    INK,
    MIST,
    MOSS,
    PAPER,
    POOL,
    RUST,
    SAGE,
    SAND,
    SHELL,
    SLATE,
    STRAW,
    TEAL,
)
from art.kit.rows import rows
from art.kit.sheet import Sheet

NAME = "Swallow"
CHAPTER = "river meadow"
DESCRIPTION = (
    "A swallow seen from below as it banks over the meadow: long sickle wings, a rust-red throat "
    "under a dark band, a white belly and a forked tail with two long streamers. A fly is just "
    "ahead of its bill."
)
SPOTS = {
    "belly": (44.5, 41.5),
    "left_wing": (16, 56.5),
    "right_wing": (72.5, 21.5),
    "left_streamer": (54.5, 72),
    "right_streamer": (78, 58.5),
}
LINKS = ["belly-left_wing", "belly-right_wing", "belly-left_streamer", "belly-right_streamer"]


def draw() -> Sheet:
    sheet = Sheet("swallow")
    rng = Random(61)
    sheet.ground(POOL, MIST, seed=22)
    habitat(sheet, rng)
    sheet.layer("creature")
    tail(sheet)
    wing(sheet, -1, -4)
    wing(sheet, 1, 4)
    body(sheet)
    head(sheet)
    sheet.layer("front")
    fly(sheet)
    return sheet


def bank(shape: Curve) -> Curve:
    """The bird is drawn flying straight up, its middle at nought; this turns it into the curve."""
    return shape.scaled(0.83).turned(-36).moved(450, 500)


def habitat(sheet: Sheet, rng: Random) -> None:
    """Evening clouds, the meadow and its seed heads."""
    clouds = [
        ribbon([(x, y), (x + w / 3, y - 12), (x + w * 0.7, y - 4), (x + w, y + 6)], [0, 16, 20, 0])
        for x, y, w in knots("600,90,330 -60,330,240 30,60,220 760,560,260 20,900,260")
    ]
    sheet.paper(clouds, MIST)
    hill = closed(*knots("-10,1060! 240,1000 520,1040 800,990 1010,1010! 1010,1210! -10,1210!"))
    sheet.paper(hill, SAGE, lift=1)
    for x in range(14, 1000, 44):
        if rng.random() < 0.82:
            flower(sheet, x + rng.uniform(-12, 12), rng.uniform(1010, 1090), rng)
    tufts = [
        leaf((x, 1215), rng.uniform(80, 130), -90 + rng.uniform(-24, 24), 0.14)
        for x in range(6, 1000, 34)
    ]
    sheet.papers(tufts, [MOSS, MOSS, FERN], lift=1)


def flower(sheet: Sheet, x: float, top: float, rng: Random) -> None:
    sway = rng.uniform(-26, 26)
    sheet.paper(ribbon([(x, 1210), (x + sway / 3, 1140), (x + sway, top)], [3, 3, 2]), MOSS)
    head = (SHELL, PAPER, MOSS)[round(x) % 3]
    sheet.paper(ellipse((x + sway, top), 13, 17 if head == MOSS else 11), head, lift=0.6)


def tail(sheet: Sheet) -> None:
    """Twelve feathers: the outermost drawn out into streamers, white windows in the others."""
    for side in (-1, 1):
        long = ribbon(
            [(side * x, y) for x, y in knots("14,110 92,280 160,440 210,600 246,780")],
            [36, 36, 24, 10, 0],
            17,
        )
        sheet.paper(bank(long), DEEP, lift=2)
        shorter = [
            feather((side * 8, 130), 270 - 34 * i, 90 - side * (22 - 5 * i), 0.21, 0.82)
            for i in range(5)
        ]
        sheet.papers(map(bank, shorter), [DEEP], lift=1)
        windows = [
            drop(step((side * 8, 130), 90 - side * (22 - 5 * i), 196 - 30 * i), 34, -90, 0.5)
            for i in range(4)
        ]
        sheet.paper(map(bank, windows), PAPER)


def wing(sheet: Sheet, side: int, lift: float) -> None:
    """A sickle: long primaries swept back from the wrist, short secondaries, a pale lining."""

    def placed(shape: Curve) -> Curve:
        raised = shape.turned(lift * side, (60, -120))
        return bank(raised if side > 0 else raised.flipped(0))

    primaries = [
        leaf((210 - 8 * i, -200 + 14 * i), 590 * 0.88**i, 35 + 4.6 * i, 0.13 + 0.016 * i, 0.05)
        for i in range(9)
    ]
    secondaries = [
        feather((180 - 22 * i, -140 + 8 * i), 178 - 2 * i, 80 + 1.6 * i, 0.28) for i in range(6)
    ]
    sheet.papers(map(placed, reversed([*primaries, *secondaries])), [DEEP], lift=1)
    coverts = [
        feather((236 - 24 * i, -184 + 7 * i), 122 - 2 * i, 62 + 4 * i, 0.34) for i in range(8)
    ]
    sheet.papers(map(placed, reversed(coverts)), [SLATE], lift=1)
    arm = closed(
        *knots(
            "30,-150 90,-196 160,-234 230,-236 290,-190 330,-130! 270,-124 210,-116 150,-90 "
            "90,-40 30,0"
        )
    )
    sheet.paper(placed(arm), SAND, lift=1.5)
    hems = rows(
        arm,
        line(*knots("60,-100 150,-166 290,-176")),
        (-30, 0, 30),
        38,
        lambda p, a, n, i: crescent(p, 14, 80, 0.36),
    )
    sheet.paper(map(placed, hems), STRAW)
    edge = ribbon(
        knots("40,-160 100,-206 166,-238 236,-228 330,-164 440,-78 560,16"),
        [8, 14, 18, 20, 18, 12, 0],
        17,
    )
    sheet.paper(placed(edge), DEEP)


BODY = closed(
    *knots(
        "0,-250 70,-230 108,-150 112,-40 92,70 52,170 0,240! -52,170 -92,70 -112,-40 -108,-150 "
        "-70,-230"
    )
)


def body(sheet: Sheet) -> None:
    sheet.paper(bank(BODY), PAPER, lift=3)
    with sheet.inside(bank(BODY)):
        vent = closed(*knots("-120,110! -40,130 0,124 40,130 120,110! 120,260! -120,260!"))
        sheet.paper(bank(vent), SAND)
        breast = closed(*knots("-130,-150! -50,-118 0,-108 50,-118 130,-150! 130,-300! -130,-300!"))
        sheet.paper(bank(breast), DEEP, lift=1)
        plumes = rows(
            BODY,
            line((0, -60), (0, 200)),
            (-66, -33, 0, 33, 66),
            50,
            lambda p, a, n, i: slit(p, 24, 90, 0.2),
        )
        sheet.paper(map(bank, plumes), STRAW)


def head(sheet: Sheet) -> None:
    """The head looks aside: a rust throat and forehead, a dark cap, a short wide bill."""
    skull = closed(
        *knots("-92,-190 -96,-260 -72,-336 -20,-374 46,-358 92,-306 98,-240 88,-180 0,-150")
    )
    sheet.paper(bank(skull), DEEP, lift=2)
    with sheet.inside(bank(skull)):
        throat = closed(
            *knots(
                "-60,-400! -20,-340 -6,-280 10,-220 40,-180 0,-164 -60,-176 -140,-190! -140,-400!"
            )
        )
        sheet.paper(bank(throat), RUST, lift=1)
        brow = closed(*knots("-40,-400! -14,-360 26,-348 50,-380! 40,-420!"))
        sheet.paper(bank(brow), RUST)
    sheet.paper(
        bank(closed(*knots("-52,-366! -46,-396 -28,-424! -12,-398 0,-376! -26,-364"))), INK, lift=1
    )
    sheet.paper(bank(ellipse((30, -300), 25)), INK)
    sheet.paper(bank(crescent((30, -300), 31, 80, 0.26)), TEAL)
    sheet.paper(bank(ellipse((20, -306), 7)), PAPER)


def fly(sheet: Sheet) -> None:
    sheet.paper([leaf((128, 108), 62, a, 0.42) for a in (-70, -20)], PAPER, lift=1)
    sheet.paper(slit((124, 114), 54, 30, 0.42), BARK, lift=1)
