"""An avocet banks over the creeks of the salt marsh, seen from above."""

from __future__ import annotations

from random import Random

from art.kit.curves import Curve, along, closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import crescent, feather, leaf, ripple, slit
from art.kit.palette import INK, MIST, MOSS, PAPER, POOL, SAGE, STONE, TEAL
from art.kit.rows import beside, row
from art.kit.sheet import Sheet

NAME = "Avocet"
CHAPTER = "salt marsh"
DESCRIPTION = (
    "An avocet flies over the creeks of the salt marsh, seen from above: a white bird with black "
    "wingtips and bars, a black cap, a thin bill that turns up at its end and long legs behind."
)
SPOTS = {
    "left_tip": (12.5, 15.5),
    "left_wing": (23, 41),
    "back": (51.5, 58),
    "neck": (71.5, 34),
    "right_wing": (81.5, 66.5),
    "right_tip": (88, 92),
}
LINKS = (
    "left_tip-left_wing",
    "left_wing-back",
    "back-neck",
    "back-right_wing",
    "right_wing-right_tip",
)

BACKWARDS = 128
"""The way the tail points, in degrees: the bird flies up to the right."""


def draw() -> Sheet:
    sheet = Sheet("avocet")
    rng = Random(61)
    sheet.ground(TEAL, POOL, seed=16)
    habitat(sheet, rng)
    sheet.layer("creature")
    legs(sheet)
    wing(sheet, line(*knots("560,580 450,486 330,392 236,270")), 238)
    wing(sheet, line(*knots("590,690 700,686 806,732 858,850")), 70)
    tail(sheet)
    body(sheet)
    head(sheet)
    return sheet


ISLANDS = (
    knots("290,-20! 330,50 410,74 500,56 580,66 620,30 630,-20!"),
    knots("1020,450! 964,470 940,530 960,590 946,640 1020,680!"),
    knots("-20,620! 40,640 70,710 46,790 84,880 50,960 -20,990!"),
    knots("380,1220! 410,1150 490,1120 560,1134 630,1112 690,1150 720,1220!"),
)


def habitat(sheet: Sheet, rng: Random) -> None:
    """Islands of mud, green with glasswort, and the tide in the creeks between them."""
    for edge in ISLANDS:
        island = closed(*edge)
        left, top, right, bottom = island.box
        middle = ((left + right) / 2, (top + bottom) / 2)
        sheet.paper(island.scaled(1.6, about=middle), POOL, lift=1)
        sheet.paper(island.scaled(1.28, about=middle), MIST)
    for edge in ISLANDS:
        island = closed(*edge)
        left, top, right, bottom = island.box
        about = ((left + right) / 2, (top + bottom) / 2)
        sheet.paper(island, STONE, lift=2)
        green = island.scaled(0.76, about=about)
        sheet.paper(green, SAGE, lift=1)
        sprigs = [
            leaf((rng.uniform(left, right), rng.uniform(top, bottom)), 30, rng.uniform(-120, -60))
            for _ in range(90)
        ]
        sheet.paper([sprig for sprig in sprigs if green.holds(sprig)], MOSS)
    waves = [
        ripple([(x, y), (x + 34, y - 12), (x + 72, y + 10), (x + 110, y - 2)], 6)
        for x, y in knots(
            "480,200 560,240 400,300 840,330 60,330 30,380 150,900 230,860 130,960 290,1120 "
            "640,960 560,1010 810,1130 690,20 740,70"
        )
    ]
    sheet.paper(waves, POOL)


def wing(sheet: Sheet, lead: Curve, out: float) -> None:
    """Feathers hung from the leading edge; ``out`` is the way the outermost one points.

    The hand is black; a black bar crosses the small feathers of the arm.
    """
    count, side = 19, 1 if out < BACKWARDS else -1
    for i, (root, _) in list(enumerate(along(lead, count)))[::-side]:
        part = max(0.0, (i - 5) / (count - 6)) ** 1.3
        angle = BACKWARDS + (out - BACKWARDS) * part
        size = 236 + 50 * part - (26 if i < 2 else 0)
        sheet.paper(feather(root, size, angle, 0.3, 0.86), INK if i > 11 else PAPER, lift=1)
    hand = [place for place, _ in along(lead, 25)[13:]]
    sheet.paper(ribbon(hand, [0, 26, 30, 34]), INK, lift=1)
    cover = closed(
        *(p for p, _ in along(lead, 9)),
        *(p for p, _ in reversed(along(beside(lead, side * 96), 9)[:8])),
    )
    sheet.paper(cover, PAPER, lift=1.5)
    bar = [place for place, _ in along(beside(lead, side * 76), 20)[3:14]]
    sheet.paper(ribbon(bar, [0, 22, 25, 22, 0]), INK)
    hems = row(beside(lead, side * 30), 36, lambda p, a, n, i: crescent(p, 17, a + side * 90, 0.3))
    sheet.paper(hems[2:-1], STONE)


def legs(sheet: Sheet) -> None:
    """Long and blue-grey, trailed behind; the toes are webbed."""
    for dx, dy in ((0, 0), (46, 26)):
        hip, heel, foot = (
            (420 + dx, 810 + dy),
            (306 + dx, 950 + dy, 0),
            (196 + dx, 1076 + dy),
        )
        toes = closed(
            step(foot, -50, 12),
            (*step(foot, 96, 78), 0),
            step(foot, 114, 60),
            (*step(foot, 128, 92), 0),
            step(foot, 143, 60),
            (*step(foot, 160, 76), 0),
        )
        sheet.paper([ribbon([hip, heel, foot], [13, 12, 15, 10, 9], 13), toes], POOL, lift=1.5)


def tail(sheet: Sheet) -> None:
    quills = [
        feather((480, 730), 216 - 3 * abs(k), BACKWARDS + 8 * k, 0.3) for k in (-2, 2, -1, 1, 0)
    ]
    sheet.papers(quills, [PAPER], lift=1)


def body(sheet: Sheet) -> None:
    """Seen from above: broad at the shoulders, two black bars along the back."""
    shape = closed(
        *knots(
            "740,240 812,290 790,360 742,430 716,520 700,610 640,700 560,780 430,870 "
            "400,850 420,740 470,630 530,560 610,500 660,420 690,310"
        )
    )
    sheet.paper(shape, PAPER, lift=3)
    with sheet.inside(shape):
        barbs = [
            slit(step((520, 700), a, r), 30, a, 0.24)
            for r, n in ((110, 26), (150, 18))
            for a in range(80, 176, n)
        ]
        sheet.paper(barbs, STONE)
    for bar in (
        knots("596,540! 540,574 470,660 424,770 416,830! 462,790 500,710 560,620"),
        knots("690,600! 668,670 590,750 500,826 446,858! 470,806 540,740 620,660"),
    ):
        sheet.paper(closed(*bar), INK, lift=1)


def head(sheet: Sheet) -> None:
    """Turned to one side: the cap and a stripe down the nape, the bill thin as a straw."""
    bill = ribbon(knots("784,250 850,176 906,112 940,60 938,12"), [15, 10, 8, 6, 5, 0], 17)
    sheet.paper(bill, INK, lift=2)
    skull = ellipse((764, 292), 66, 58, -52)
    sheet.paper(skull, PAPER, lift=2)
    cap = closed(
        *knots(
            "812,230! 768,218 712,236 684,298 664,376 630,452 588,520! 664,474 708,404 "
            "726,344 760,318 796,290"
        )
    )
    sheet.paper(cap, INK, lift=1)
    sheet.paper(ellipse((770, 276), 19), PAPER)
    sheet.paper(ellipse((770, 276), 15), INK)
    sheet.paper(crescent((770, 276), 9, -50, 0.55), PAPER)
