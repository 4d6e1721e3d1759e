"""A puffin comes in to land with its bill full of fish."""

from __future__ import annotations

from random import Random

from art.kit.curves import Curve, Knot, along, closed, ellipse, heading, knots, line, ribbon, step
from art.kit.cutouts import crescent, feather, leaf, ripple, slit
from art.kit.palette import (
    FERN,
    INK,
    MIST,
    MOSS,
    OCHRE,
    PAPER,
    POOL,
    RUST,
    SAGE,
    SHELL,
    SLATE,
    STONE,
    STRAW,
)
from art.kit.rows import clear_of, rows
from art.kit.sheet import Sheet

NAME = "Puffin"
CHAPTER = "open sea"
DESCRIPTION = (
    "A puffin comes in to land on its cliff, wings spread and orange webbed feet put forward: a "
    "black and white bird with a big striped bill, from which silver fish hang."
)
SPOTS = {
    "breast": (49, 41),
    "left_wing": (13.5, 35),
    "right_wing": (86, 28),
    "belly": (53, 67.5),
    "left_foot": (31, 90),
    "right_foot": (69, 90.5),
    "tail": (86.5, 73),
}
LINKS = [
    "breast-left_wing",
    "breast-right_wing",
    "breast-belly",
    "belly-left_foot",
    "belly-right_foot",
    "belly-tail",
]

BODY = closed(
    *knots(
        "350,330 380,260 470,220 570,250 650,340 730,460 776,610 770,750 716,860 620,930 500,946 "
        "390,890 320,780 296,640 310,480"
    )
)


def draw() -> Sheet:
    sheet = Sheet("puffin")
    rng = Random(91)
    sheet.ground(POOL, MIST, seed=22)
    habitat(sheet, rng)
    sheet.layer("creature")
    tail(sheet)
    wing(sheet, line(*knots("420,420 330,330 250,296 176,300")), 186, 74)
    wing(sheet, line(*knots("650,420 726,322 790,266 846,246")), -30, 96)
    feet(sheet)
    body(sheet)
    head(sheet)
    return sheet


def habitat(sheet: Sheet, rng: Random) -> None:
    """Sea far below, the turf of the cliff, cushions of thrift."""
    cloud = closed(*knots("-10,90! 80,60 200,80 250,40 330,-10! -10,-10!"))
    sheet.paper(cloud, MIST)
    sheet.paper(closed(*knots("600,-10! 680,60 800,50 900,90 1010,70! 1010,-10!")), MIST)
    waves = [
        ripple([(x, y), (x + 44, y - 12), (x + 90, y + 10), (x + 134, y - 2)], 6)
        for x, y in knots("30,640 100,700 20,760 130,820 840,560 880,620 20,560 860,500 60,880")
    ]
    sheet.paper(waves, MIST)
    turf = closed(
        *knots("-10,990! 120,960 300,1000 520,1030 740,1000 900,950 1010,960! 1010,1210! -10,1210!")
    )
    sheet.paper(turf, SAGE, lift=3)
    blades = [
        leaf((rng.uniform(0, 1000), rng.uniform(1030, 1200)), 34, rng.uniform(-110, -70), 0.24)
        for _ in range(80)
    ]
    sheet.paper([blade for blade in blades if turf.holds(blade)], MOSS)
    for x, y in knots("60,1010 140,1100 40,1150 930,1010 860,1130 960,1120 500,1160"):
        thrift(sheet, (x, y))


def thrift(sheet: Sheet, at: Knot) -> None:
    stalks = [ribbon([(at[0], at[1] + 50), step(at, a, 34)], [4, 3]) for a in (-140, -90, -40)]
    sheet.paper(stalks, FERN)
    heads = [ellipse(step(at, a, 40), 21, 16) for a in (-140, -90, -40)]
    sheet.paper(heads, SHELL, lift=1)
    marks = [
        slit(step(step(at, a, 46), b, 9), 14, b, 0.5) for a in (-140, -90, -40) for b in (-130, -50)
    ]
    sheet.paper(marks, RUST)


def wing(sheet: Sheet, lead: Curve, out: float, back: float) -> None:
    """Short and narrow, dark: more a flipper than a wing."""
    count, sense = 19, 1 if back < 90 else -1
    for i, (root, _) in list(enumerate(along(lead, count)))[::-sense]:
        part = (i / (count - 1)) ** 1.6
        angle = back + (out - back) * part
        sheet.paper(feather(root, 168 + 12 * part, angle, 0.3, 0.86), SLATE, lift=1)
    lining = [
        feather(root, 122, back + (out - back) * (i / 13) ** 1.6, 0.34, 0.84)
        for i, (root, _) in enumerate(along(lead, 14))
    ]
    sheet.papers(lining[::-sense], [INK], lift=1)
    arm = [place for place, _ in along(lead, 7)]
    sheet.paper(ribbon(arm, [70, 52, 40, 30, 22]), INK, lift=1.5)


def tail(sheet: Sheet) -> None:
    quills = [feather((640, 770), 318 - 4 * k, 46 - 9 * k, 0.24, 0.9) for k in range(6)]
    sheet.papers(quills, [INK], lift=1)


def feet(sheet: Sheet) -> None:
    """Put forward to brake: three toes each, webbed between, a claw on every toe."""
    for hip, foot, turn in (((440, 890), (336, 1000), 112), ((600, 890), (672, 1006), 72)):
        rim = knots("44,146! 22,116 0,160! -22,116 -44,146!")
        ends = [step(foot, turn + a, r) for a, r, *corner in rim if corner]
        sheet.paper([slit(end, 36, heading(foot, end), 0.4) for end in ends], INK)
        web = closed(
            step(foot, turn + 140, 26),
            *((*step(foot, turn + a, r), *corner) for a, r, *corner in rim),
            step(foot, turn - 140, 26),
        )
        sheet.paper(web, RUST, lift=2)
        sheet.paper(ribbon([hip, foot], [36, 25, 22]), RUST, lift=1)
        bones = [ribbon([foot, step(foot, turn + a, 122)], [9, 0]) for a in (-40, 0, 40)]
        sheet.paper(bones, OCHRE)


def body(sheet: Sheet) -> None:
    """White in front, black behind; small feathers cut along the seam and the flank."""
    sheet.paper(BODY, INK, lift=3)
    with sheet.inside(BODY):
        front = closed(
            *knots(
                "280,470! 360,490 440,480 510,446! 556,540 580,660 570,780 530,880 480,980 380,960 "
                "270,800 260,600"
            )
        )
        sheet.paper(front, PAPER, lift=1)
    flank = rows(
        BODY,
        line(*knots("610,420 670,560 690,700 640,850")),
        (-66, -33, 0, 33, 66),
        54,
        lambda p, a, n, i: crescent(p, 19, a, 0.3),
    )
    sheet.paper(clear_of(flank, front), SLATE)
    down = [
        slit(step((400, 500), a, r), 30, a, 0.24)
        for r, n in ((250, 14), (310, 11), (370, 9))
        for a in range(62, 116, n)
    ]
    sheet.paper([barb for barb in down if front.holds(barb) and BODY.holds(barb)], MIST)


def head(sheet: Sheet) -> None:
    """A grey-white cheek, a black cap and collar, the bill as deep as the face."""
    skull = closed(
        *knots("336,210 360,130 430,84 520,96 580,160 590,250 560,340 470,380 390,350 346,300")
    )
    sheet.paper(skull, INK, lift=2)
    cheek = closed(
        *knots("336,180! 370,140 430,128 486,160 520,220 540,262! 500,300 440,318 380,312 344,290!")
    )
    sheet.paper(cheek, PAPER)
    fish(sheet)
    bill = closed(*knots("352,148! 290,150 214,200 160,296! 230,300 300,312 356,306! 372,226"))
    sheet.paper(bill, SLATE, lift=2)
    with sheet.inside(bill):
        sheet.paper(closed(*knots("318,120! 292,220 308,330! 100,330! 100,120!")), STRAW)
        sheet.paper(closed(*knots("296,120! 270,220 286,330! 100,330! 100,120!")), RUST)
        sheet.paper(
            [ribbon([(x + 6, 130), (x - 12, 230), (x + 2, 330)], [4, 4]) for x in (246, 206)], STRAW
        )
        sheet.paper(ribbon([(150, 286), (240, 244), (360, 248)], [0, 4, 4]), INK)
    sheet.paper(ellipse((366, 258), 15, 19), OCHRE, lift=1)
    sheet.paper(closed(*knots("396,196! 424,162 450,196!")), SLATE)
    sheet.paper(slit((426, 224), 44, 6, 0.3), SLATE)
    sheet.paper(slit((492, 236), 62, 28, 0.14), STONE)
    sheet.paper(ellipse((424, 200), 19), RUST)
    sheet.paper(ellipse((424, 200), 13), INK)
    sheet.paper(crescent((424, 200), 8, -50, 0.55), PAPER)


def fish(sheet: Sheet) -> None:
    """Sand eels, held crosswise."""
    for x, dx, y in ((206, -60, 430), (236, -16, 470), (270, 10, 450), (302, 40, 420)):
        spine = [(x, 250), (x + dx * 0.3, 320), (x + dx, y)]
        sheet.paper(ribbon(spine, [12, 15, 12, 4]), PAPER, lift=1)
        tail = step((x + dx, y), 90, 2)
        sheet.paper([slit(step(tail, 90 + a, 14), 34, 90 + a, 0.4) for a in (-24, 24)], PAPER)
        sheet.paper(
            ribbon([(x + 6, 256), (x + 6 + dx * 0.3, 322), (x + dx + 3, y)], [5, 6, 0]), SLATE
        )
