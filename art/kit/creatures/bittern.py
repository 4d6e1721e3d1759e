"""A bittern among the reeds points its bill at the sky."""

from __future__ import annotations

from random import Random

from art.kit.curves import Knot, along, closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import crescent, feather, leaf, reed, slit
from art.kit.limbs import toes
from art.kit.palette import (
    BARK,
    FERN,
    INK,
    MOSS,
    OCHRE,
    PAPER,
    RUST,
    SAGE,
    SAND,
    STRAW,
)
from art.kit.rows import clear_of, rows
from art.kit.sheet import Sheet

NAME = "Bittern"
CHAPTER = "reed bed"
DESCRIPTION = (
    "A bittern, a golden-brown heron with dark stripes down its neck, makes itself a reed: slim "
    "and tall on green legs, its bill straight up. One yellow eye watches you past the bill."
)
SPOTS = {
    "foot": (31, 91),
    "breast": (41, 58.5),
    "neck": (48.5, 30.5),
    "wing": (61.5, 63),
    "other_foot": (66.5, 92),
}
LINKS = ["foot-breast", "breast-neck", "neck-wing", "wing-other_foot"]

BODY = closed(
    *knots(
        "530,330 566,430 618,560 664,690 684,800 676,900 640,980 606,1010! 560,950 480,900 "
        "410,840 370,740 384,600 450,440"
    )
)
NECK = knots("508,226 500,320 482,420 456,530 436,640 436,740 480,860")
NECK_GIRTH = [46, 52, 60, 76, 92, 96, 70]


def draw() -> Sheet:
    sheet = Sheet("bittern")
    rng = Random(71)
    sheet.ground(SAND, PAPER, seed=26)
    habitat(sheet, rng)
    sheet.layer("creature")
    legs(sheet)
    body(sheet)
    bill(sheet)
    neck(sheet)
    wing(sheet)
    head(sheet)
    sheet.layer("front")
    tufts(sheet, rng)
    return sheet


def habitat(sheet: Sheet, rng: Random) -> None:
    """Reed stems, their long leaves and flowering heads."""
    for root in (20, 90, 240, 310, 690, 760, 910, 980):
        tip = (root + rng.uniform(-40, 40), rng.uniform(-40, 160))
        sheet.paper(reed((root, 1210), tip, 12, rng.uniform(-14, 14)), SAGE)
    for x, y, a in knots(
        "120,620,-60 200,420,-120 640,330,-50 700,240,-120 860,420,-56 900,560,-60 980,420,-124 "
        "20,380,-58 300,240,-126 120,260,-60"
    ):
        sheet.paper(leaf((x, y), 240, a, 0.1, 0.1 if a > -90 else -0.1), STRAW if y > 400 else SAGE)
    for at in knots("76,250 720,170 930,270"):
        plume(sheet, at)


def plume(sheet: Sheet, at: Knot) -> None:
    """A reed's flowering head."""
    sheet.paper(ribbon([(at[0], 1210), (at[0] + 6, 700), at], [6, 5, 3]), STRAW)
    sprays = [
        leaf((at[0], at[1] - 26 * i), 96 - 9 * i, -90 + side * (34 - 3 * i), 0.2, side * -0.08)
        for i in range(5)
        for side in (-1, 1)
    ]
    sheet.paper([*sprays, leaf((at[0], at[1] - 110), 100, -90, 0.24)], STRAW)


def legs(sheet: Sheet) -> None:
    """Stout green legs with very long toes, thighs feathered."""
    for joints, bend in (
        (knots("560,880 664,976,0 644,1122"), (-176, 168, 148, 8)),
        (knots("450,850 462,984,0 322,1108"), (-182, 172, 150, 14)),
    ):
        claws = toes(joints[-1], bend, 118, 13, 0.3)
        sheet.paper([ribbon(joints, [60, 40, 21, 19, 19], 13), *claws], MOSS, lift=2)
    breeches = closed(*knots("384,780 460,760 540,800 540,880 500,940 462,986! 410,900"))
    sheet.paper(breeches, OCHRE, lift=1)


def body(sheet: Sheet) -> None:
    quills = [feather((610, 880), 210 - 10 * abs(i - 2), 62 + 8 * i, 0.24, 0.86) for i in range(4)]
    sheet.papers(quills, [RUST, BARK], lift=1)
    sheet.paper(BODY, OCHRE, lift=3)


def neck(sheet: Sheet) -> None:
    """Loose feathers: bars on the nape, long dark stripes from the chin to the belly."""
    shape = ribbon(NECK, NECK_GIRTH, 25)
    sheet.paper(shape, OCHRE, lift=3)
    with sheet.inside(shape):
        pale = ribbon(
            knots("484,250 472,330 448,430 414,540 392,650 394,740 450,870"),
            [22, 28, 34, 44, 50, 50, 40],
            25,
        )
        sheet.paper(pale, STRAW, lift=1)
        for course, colour in (
            ("490,310 476,400 452,500 432,600 428,700 450,800", RUST),
            ("472,300 454,400 424,500 398,610 394,710 424,830", BARK),
            ("454,310 432,400 398,500 370,610 366,700 396,810", RUST),
        ):
            stripe = ribbon(knots(course), [3, 8, 11, 13, 13, 4], 24)
            sheet.paper(stripe, colour)
            marks = [slit(p, 38, a, 0.2) for p, a in along(line(*knots(course)), 11)[2:-1]]
            sheet.paper(marks, OCHRE)
    bars = rows(
        shape,
        line(*knots("536,340 528,440 514,540 508,640 520,760")),
        (-24, 4),
        42,
        lambda p, a, n, i: crescent(p, 15, a, 0.42),
    )
    sheet.paper(clear_of(bars, pale), BARK)


def wing(sheet: Sheet) -> None:
    """Barred flight feathers under a shoulder of dark-tipped coverts, folded close."""
    roots = [(630 - 13 * i, 740 + 8 * i) for i in range(6)]
    flight = [feather(at, 290 - 18 * i, 82 + 4 * i, 0.21, 0.88) for i, at in enumerate(roots)]
    sheet.papers(reversed(flight), [RUST], lift=1)
    bars = [
        slit(step(at, 82 + 4 * i, r), 42, 172 + 4 * i, 0.36)
        for i, at in enumerate(roots)
        for r in range(150, 270 - 18 * i, 40)
    ]
    sheet.paper(bars, BARK)
    cap = closed(
        *knots("520,640 528,540 562,484 604,530 656,660 684,780 676,850 630,880 570,850 534,750")
    )
    sheet.paper(cap, OCHRE, lift=2)
    hems = rows(
        cap,
        line(*knots("564,500 600,640 630,880")),
        (-92, -58, -24, 10, 44, 78),
        50,
        lambda p, a, n, i: crescent(p, 20, a, 0.44),
    )
    sheet.paper(hems, BARK)


def bill(sheet: Sheet) -> None:
    """A dagger as long as the head."""
    sheet.paper(closed(*knots("462,226! 478,130 510,16! 516,120 524,190!")), MOSS, lift=2)
    sheet.paper(closed(*knots("496,196! 500,110 510,16! 520,110 532,184!")), FERN)


def head(sheet: Sheet) -> None:
    """Narrow, hardly wider than the neck; dark crown and moustache."""
    skull = closed(
        *knots("460,236! 474,200 500,176 530,172 552,200 558,250 552,310 540,360 490,350 452,310")
    )
    sheet.paper(skull, OCHRE)
    cap = closed(
        *knots("506,180! 530,168 552,188 564,238 570,300 568,376! 554,320 546,252 532,206")
    )
    sheet.paper(cap, INK, lift=1)
    sheet.paper(closed(*knots("466,250! 488,268 502,306 502,366! 480,342 466,300")), INK)
    sheet.paper(ellipse((506, 232), 23), STRAW)
    sheet.paper(ellipse((504, 230), 14), INK)
    sheet.paper(ellipse((500, 225), 5), PAPER)


def tufts(sheet: Sheet, rng: Random) -> None:
    blades = [
        leaf((x, 1215), rng.uniform(90, 170), -90 + rng.uniform(-24, 24), 0.13)
        for x in (6, 40, 80, 210, 300, 700, 800, 940, 980)
    ]
    sheet.papers(blades, [MOSS, SAGE], lift=1)
