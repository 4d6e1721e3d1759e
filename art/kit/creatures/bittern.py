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
    "A bittern, a stout golden-brown heron with dark stripes down its front, makes itself a reed: "
    "it stands on long green legs, neck stretched, bill straight up. One yellow eye watches you."
)
SPOTS = {
    "neck": (42, 31.5),
    "breast": (38, 58),
    "wing": (70.5, 65),
    "foot": (45, 89.5),
    "otherfoot": (69.5, 91.5),
}
LINKS = ["foot-breast", "breast-neck", "neck-wing", "wing-otherfoot"]

NECK = knots("456,240 452,330 440,430 416,540 396,660 410,790 480,900")
NECK_GIRTH = [66, 84, 106, 130, 148, 146, 110]
BODY = closed(
    *knots(
        "262,700 290,600 370,530 480,520 590,570 700,670 800,800 880,930 930,1050! 840,1020 "
        "720,1010 600,1010 470,980 350,900 280,800"
    )
)


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
    """Green legs, set apart like two more stems, with very long toes."""
    for joints in (knots("640,960 740,1040,0 690,1130"), knots("450,930 530,1030,0 450,1120")):
        claws = toes(joints[-1], (-186, 160, 128, 10), 120, 13, 0.3)
        sheet.paper([ribbon(joints, [70, 46, 22, 19, 18], 13), *claws], MOSS, lift=2)


def body(sheet: Sheet) -> None:
    quills = [feather((720, 900), 250 - 8 * abs(i - 2), 28 + 9 * i, 0.26, 0.86) for i in range(4)]
    sheet.papers(quills, [RUST, BARK], lift=1)
    sheet.paper(BODY, OCHRE, lift=3)


def neck(sheet: Sheet) -> None:
    """Loose feathers: bars on the nape, long dark stripes from the chin to the belly."""
    shape = ribbon(NECK, NECK_GIRTH, 25)
    sheet.paper(shape, OCHRE, lift=3)
    with sheet.inside(shape):
        pale = ribbon(
            knots("414,210 394,330 362,430 326,540 312,660 340,800 440,930"),
            [50, 54, 62, 78, 96, 106, 100],
            25,
        )
        sheet.paper(pale, STRAW, lift=1)
        for course, colour in (
            ("440,280 430,360 408,450 384,560 376,660 400,780 480,900", RUST),
            ("418,270 402,360 374,450 342,560 330,670 356,800 440,930", BARK),
            ("390,270 372,360 338,450 300,560 284,680 312,820 400,940", RUST),
        ):
            stripe = ribbon(knots(course), [4, 10, 14, 18, 20, 16, 5], 24)
            sheet.paper(stripe, colour)
            marks = [slit(p, 46, a, 0.24) for p, a in along(line(*knots(course)), 12)[2:-1]]
            sheet.paper(marks, OCHRE)
    bars = rows(
        shape,
        line(*knots("500,330 500,440 496,560 496,680 510,800")),
        (-30, 6, 42),
        44,
        lambda p, a, n, i: crescent(p, 18, a, 0.42),
    )
    sheet.paper(clear_of(bars, pale), BARK)


def wing(sheet: Sheet) -> None:
    """Barred flight feathers under a shoulder of dark-tipped coverts."""
    roots = [(640 - 10 * i, 700 + 16 * i) for i in range(7)]
    flight = [feather(at, 400 - 24 * i, 50 + 3.4 * i, 0.17, 0.88) for i, at in enumerate(roots)]
    sheet.papers(reversed(flight), [RUST], lift=1)
    bars = [
        slit(step(at, 50 + 3.4 * i, r), 46, 140 + 3.4 * i, 0.36)
        for i, at in enumerate(roots)
        for r in range(180, 380 - 24 * i, 44)
    ]
    sheet.paper(bars, BARK)
    cap = closed(
        *knots("500,720 490,620 530,560 600,570 700,660 780,770 790,850 730,890 630,890 540,820")
    )
    sheet.paper(cap, OCHRE, lift=2)
    hems = rows(
        cap,
        line(*knots("540,570 640,700 740,880")),
        (-110, -70, -30, 10, 50, 90),
        56,
        lambda p, a, n, i: crescent(p, 23, a, 0.44),
    )
    sheet.paper(hems, BARK)


def bill(sheet: Sheet) -> None:
    """A dagger as long as the head."""
    sheet.paper(closed(*knots("398,250! 402,130 424,8! 444,110 470,190!")), MOSS, lift=2)
    sheet.paper(closed(*knots("440,196! 430,110 424,8! 446,106 484,186!")), FERN)


def head(sheet: Sheet) -> None:
    """Narrow, hardly wider than the neck; dark crown and moustache."""
    skull = closed(
        *knots("398,254! 412,218 440,188 474,172 506,192 522,250 524,310 520,360 450,350 396,320")
    )
    sheet.paper(skull, OCHRE)
    cap = closed(
        *knots("444,186! 474,166 508,184 530,236 542,310 546,390! 522,340 510,262 486,208")
    )
    sheet.paper(cap, INK, lift=1)
    sheet.paper(closed(*knots("404,266! 430,284 450,326 456,392! 430,366 410,326")), INK)
    sheet.paper(ellipse((454, 242), 27), STRAW)
    sheet.paper(ellipse((452, 240), 16), INK)
    sheet.paper(ellipse((447, 234), 5.5), PAPER)


def tufts(sheet: Sheet, rng: Random) -> None:
    blades = [
        leaf((x, 1215), rng.uniform(90, 170), -90 + rng.uniform(-24, 24), 0.13)
        for x in (6, 40, 80, 210, 300, 700, 800, 940, 980)
    ]
    sheet.papers(blades, [MOSS, SAGE], lift=1)
