"""A puffin comes in to land with its bill full of fish."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from art.kit.curves import Knot, along, closed, ellipse, heading, knots, line, ribbon, step
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
    "A puffin brakes in the air over its cliff, pointed wings spread wide, orange webbed feet put "
    "forward: a black and white bird with a big striped bill, from which silver fish hang."
)
SPOTS = {
    "breast": (47.5, 43.5),
    "left_wing": (14, 42),
    "right_wing": (70, 34),
    "right_tip": (90, 21),
    "belly": (51, 69),
    "left_foot": (25, 90.5),
    "right_foot": (69, 93),
}
LINKS = (
    "breast-left_wing",
    "breast-right_wing",
    "right_wing-right_tip",
    "breast-belly",
    "belly-left_foot",
    "belly-right_foot",
)


@dataclass(frozen=True)
class Wing:
    """A wing's leading edge from shoulder to tip; which way its feathers point there and here."""

    lead: list[Knot]
    tip: float
    root: float


LEFT = Wing(knots("430,450 320,410 200,404 96,442 14,520"), 146, 92)
RIGHT = Wing(knots("610,440 690,330 790,246 890,200 986,190"), 4, 96)

BODY = closed(
    *knots(
        "352,420 390,350 470,310 566,330 650,410 716,520 770,640 800,760 790,850 720,910 620,936 "
        "510,930 410,880 350,790 322,670 322,540"
    )
)


def draw() -> Sheet:
    sheet = Sheet("puffin")
    rng = Random(91)
    sheet.ground(POOL, MIST, seed=22)
    habitat(sheet, rng)
    sheet.layer("creature")
    tail(sheet)
    wing(sheet, LEFT)
    wing(sheet, RIGHT)
    feet(sheet)
    body(sheet)
    with sheet.posed(6, (440, 300), 0.86):
        head(sheet)
    return sheet


def habitat(sheet: Sheet, rng: Random) -> None:
    """Sea far below, the turf of the cliff, cushions of thrift."""
    cloud = closed(*knots("-10,90! 80,60 200,80 250,40 330,-10! -10,-10!"))
    sheet.paper(cloud, MIST)
    sheet.paper(closed(*knots("600,-10! 680,60 800,50 900,90 1010,70! 1010,-10!")), MIST)
    waves = [
        ripple([(x, y), (x + 44, y - 12), (x + 90, y + 10), (x + 134, y - 2)], 6)
        for x, y in knots(
            "30,760 100,820 20,880 130,940 870,560 900,640 20,1020 850,480 60,700 860,900 830,980"
        )
    ]
    sheet.paper(waves, MIST)
    turf = closed(
        *knots(
            "-10,1120! 140,1090 320,1130 520,1150 720,1120 880,1060 1010,1050! 1010,1210! -10,1210!"
        )
    )
    sheet.paper(turf, SAGE, lift=3)
    blades = [
        leaf((rng.uniform(0, 1000), rng.uniform(1090, 1200)), 34, rng.uniform(-110, -70), 0.24)
        for _ in range(80)
    ]
    sheet.paper([blade for blade in blades if turf.holds(blade)], MOSS)
    for x, y in knots("60,1110 150,1140 940,1070 860,1120 960,1150 450,1170"):
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


def wing(sheet: Sheet, shape: Wing) -> None:
    """Narrow, stiff and pointed: long quills towards the tip, grey from below, black in front."""
    lead, count = line(*shape.lead), 17
    places = list(enumerate(along(lead, count)))
    for i, (root, _) in places[::-1]:
        part = i / (count - 1)
        angle = shape.root + (shape.tip - shape.root) * part**1.3
        size = 210 - 150 * abs(part - 0.25) ** 1.2
        sheet.paper(feather(root, size, angle, 0.26, 0.82), SLATE, lift=1)
    lining = [
        feather(root, 128 - 4.6 * i, shape.root + (shape.tip - shape.root) * (i / 13) ** 1.3, 0.4)
        for i, (root, _) in enumerate(along(lead, 14))
    ]
    sheet.papers(lining[::-1], [INK], lift=1)
    sheet.paper(ribbon(shape.lead, [62, 44, 34, 24, 8], 19), INK, lift=1.5)


def tail(sheet: Sheet) -> None:
    quills = [feather((700, 800), 236 - 4 * k, 40 - 11 * k, 0.3, 0.9) for k in range(5)]
    sheet.papers(quills, [INK], lift=1)


def feet(sheet: Sheet) -> None:
    """Put forward to brake: three toes each, webbed between, a claw on every toe."""
    for hip, foot, turn in (((430, 870), (306, 984), 122), ((600, 910), (660, 1014), 76)):
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
                "290,520! 390,540 470,530 536,500! 590,600 616,700 610,800 580,890 520,960 400,960 "
                "280,820 270,640"
            )
        )
        sheet.paper(front, PAPER, lift=1)
    flank = rows(
        BODY,
        line(*knots("620,480 690,610 720,740 690,880")),
        (-66, -33, 0, 33, 66),
        54,
        lambda p, a, n, i: crescent(p, 19, a, 0.3),
    )
    sheet.paper(clear_of(flank, front), SLATE)
    down = [
        slit(step((430, 540), a, r), 30, a, 0.24)
        for r, n in ((230, 14), (290, 11), (350, 9))
        for a in range(56, 112, n)
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
