"""A dipper stands on its stone in white water and bows before it dives."""

from __future__ import annotations

from random import Random

from art.kit.curves import closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import crescent, drop, feather, leaf, ripple, slit
from art.kit.limbs import toes
from art.kit.palette import (
    BARK,
    INK,
    MIST,
    MOSS,
    PAPER,
    POOL,
    RUST,
    SAGE,
    SLATE,
    STONE,
    TEAL,
)
from art.kit.rows import rows
from art.kit.sheet import Sheet

NAME = "Dipper"
CHAPTER = "spring"
DESCRIPTION = (
    "A dipper, a round brown bird with a snow-white breast and a short cocked tail, bows "
    "on a stone in the middle of the stream. Water falls behind it and splashes round its feet."
)
SPOTS = {"breast": (25, 57), "wing": (57, 48.5), "tail": (88, 40), "belly": (51, 73.5)}
LINKS = ["wing-breast", "wing-tail", "wing-belly"]

BODY = closed(
    *knots(
        "178,440 196,372 250,316 330,296 412,330 480,388 610,410 740,440 836,520 "
        "830,640 770,770 640,880 480,920 330,888 212,800 160,680 158,560"
    )
)


POSE = (-8, (520, 700), 0.93)


def draw() -> Sheet:
    sheet = Sheet("dipper")
    rng = Random(11)
    sheet.ground(POOL, MIST, seed=5)
    habitat(sheet, rng)
    sheet.layer("creature")
    with sheet.posed(*POSE):
        tail(sheet)
    legs(sheet)
    with sheet.posed(*POSE):
        body(sheet)
        mantle(sheet)
        wing(sheet)
        head(sheet)
    sheet.layer("front")
    spray(sheet, rng)
    return sheet


def habitat(sheet: Sheet, rng: Random) -> None:
    """Falling water between mossy banks, and a dark stone in the pool."""
    falls = [
        ribbon([(x, -10), (x + 14, 300), (x - 8, 600), (x + 12, end)], [17, 10, 14, 0])
        for x, end in zip(
            range(330, 1000, 62),
            (640, 300, 420, 240, 330, 280, 200, 700, 420, 820, 640),
            strict=True,
        )
    ]
    sheet.paper(falls, MIST)
    sheet.paper(falls[1::3], PAPER)
    bank(sheet, rng)
    pool = closed(*knots("-10,985! 180,960 420,985 700,955 1010,990! 1010,1210! -10,1210!"))
    sheet.paper(pool, TEAL, lift=1)
    rock = closed(*knots("80,1215! 150,1110 290,1040 480,1012 680,1016 840,1080 950,1215!"))
    sheet.paper(rock, STONE, lift=3)
    with sheet.inside(rock):
        flecks = [
            slit((rng.uniform(100, 930), rng.uniform(1040, 1200)), rng.uniform(16, 44), -8, 0.3)
            for _ in range(46)
        ]
        sheet.paper(flecks, SLATE)


def bank(sheet: Sheet, rng: Random) -> None:
    edge = knots("330,-10 300,60 226,90 200,170 120,196 96,290 30,310 -10,400")
    sheet.paper(closed((-10, -10, 0), (330, -10, 0), *edge[1:-1], (-10, 400, 0)), MOSS, lift=3)
    blades = [
        leaf((x, y), 26, rng.uniform(20, 70), 0.36)
        for x in range(12, 300, 38)
        for y in range(14, 330, 40)
        if x + 0.85 * y < 250
    ]
    sheet.paper(blades, SAGE)


def body(sheet: Sheet) -> None:
    sheet.paper(BODY, SLATE, lift=3)
    with sheet.inside(BODY):
        belly = closed(*knots("100,700! 260,760 440,750 640,690 900,560! 900,960! 100,960!"))
        sheet.paper(belly, BARK)
        band = closed(*knots("100,690! 240,760 430,750 600,700! 520,800 380,850 240,836 100,800!"))
        sheet.paper(band, RUST, lift=1)
        frill = closed(
            *knots("90,420! 240,420 340,440 430,490 470,590 440,700 340,770 220,764 90,690!")
        )
        sheet.paper(frill, PAPER, lift=1.5)
        barbs = [
            slit(step((290, 520), a, r), 30, a, 0.22)
            for r, n in ((206, 14), (160, 20))
            for a in range(40, 160, n)
        ]
        sheet.paper(barbs, MIST)


def mantle(sheet: Sheet) -> None:
    """The back's feathers, each with a dark hem."""
    ridge = line(*knots("470,395 610,420 740,455 850,530"))
    hems = rows(BODY, ridge, (22, 58, 94, 130), 46, lambda p, a, n, i: crescent(p, 21, a, 0.34))
    sheet.paper(hems, INK)


def tail(sheet: Sheet) -> None:
    quills = [
        feather((690, 580), reach, angle, 0.25, 0.9)
        for angle, reach in ((8, 276), (2, 290), (-4, 298), (-10, 298), (-16, 288))
    ]
    sheet.papers(quills, [INK, SLATE], lift=1.5)


def legs(sheet: Sheet) -> None:
    """Strong pale shins, bent for the bow."""
    for hip, ankle, foot in (
        ((590, 850), (694, 936, 0), (644, 1052)),
        ((440, 870), (536, 968, 0), (476, 1076)),
    ):
        claws = toes(foot, (-184, 164, 138, 8), 92, 12, 0.3)
        sheet.paper([ribbon([hip, ankle, foot], [40, 30, 15, 14, 15], 13), *claws], BARK, lift=2)


def wing(sheet: Sheet) -> None:
    """Short and round: flight feathers fanned under one another, coverts over their roots."""
    flight = [feather((520, 640 - 10 * i), 350 - 4 * i * i, 13 - 5 * i, 0.2) for i in range(6)]
    sheet.papers(flight, [INK, SLATE], lift=1)
    second = [
        feather((480, 660 - 18 * i), 250 - 6 * abs(i - 2), 19 - 8 * i, 0.24) for i in range(6)
    ]
    sheet.papers(second, [SLATE], lift=1)
    cap = closed(*knots("412,610 446,520 530,474 624,486 660,550 636,630 560,690 464,690"))
    sheet.paper(cap, SLATE, lift=1.5)
    hems = rows(
        cap,
        line(*knots("440,600 540,590 660,570")),
        (-66, -33, 0, 33, 66),
        44,
        lambda p, a, n, i: crescent(p, 18, a, 0.36),
    )
    sheet.paper(hems, INK)


def head(sheet: Sheet) -> None:
    hood = closed(
        *knots(
            "176,446! 178,390 222,326 300,296 390,306 470,352 560,392! 530,412 556,436! "
            "512,444 524,474! 476,462 474,492! 420,464 330,434 240,424"
        )
    )
    sheet.paper(hood, BARK, lift=1)
    sheet.paper(
        [
            slit(step((330, 470), a, r), 24, a + 80, 0.3)
            for r, n in ((88, 24), (124, 17))
            for a in range(-62, 4, n)
        ],
        INK,
    )
    sheet.paper(closed(*knots("66,432! 140,396 192,384! 198,410 188,432! 130,430")), INK, lift=1)
    sheet.paper(ellipse((264, 374), 25), INK)
    sheet.paper(ellipse((257, 367), 7), PAPER)
    sheet.paper(crescent((264, 376), 31, -80, 0.28), PAPER)


def spray(sheet: Sheet, rng: Random) -> None:
    """Ripples and drops thrown up round the stone."""
    swirls = [
        ripple([(x, y), (x + w * 0.3, y - 12), (x + w * 0.65, y + 10), (x + w, y - 4)], 6)
        for x, y, w in knots(
            "10,1030,120 -20,1090,110 20,1150,90 830,1030,170 900,1090,120 930,1150,90 40,1000,80"
        )
    ]
    sheet.paper(swirls, MIST)
    drops = [
        drop((x, y), 34, a, 0.62)
        for x, y, a in knots(
            "180,1010,-70 130,940,-60 214,950,-84 836,1000,-110 890,930,-120 930,1000,-100 "
            "80,870,-70"
        )
    ]
    sheet.paper(drops, PAPER, lift=1)
