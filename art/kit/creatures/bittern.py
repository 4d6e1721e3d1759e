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
    STONE,
    STRAW,
)
from art.kit.rows import clear_of, rows
from art.kit.sheet import Sheet

NAME = "Bittern"
CHAPTER = "reed bed"
DESCRIPTION = (
    "A bittern, a golden-brown heron with dark stripes down its throat, makes itself a reed: neck "
    "stretched, dagger bill pointing at the sky. It steps through the reeds on long green toes."
)
SPOTS = {
    "foot": (32, 92),
    "breast": (40, 57.5),
    "neck": (51, 31),
    "wing": (63, 60),
    "other_foot": (65.5, 92),
}
LINKS = ["foot-breast", "breast-neck", "neck-wing", "wing-other_foot"]

BODY = closed(
    *knots(
        "540,330 572,440 640,560 704,680 736,780 728,870 690,930! 640,880 560,880 470,850 400,780 "
        "380,680 400,570 450,450"
    )
)
NECK = knots("512,240 524,330 514,430 468,530 426,630 420,720 460,810")
NECK_GIRTH = [46, 48, 54, 70, 90, 92, 56]


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
    for at in knots("70,230 250,330 720,150 920,250"):
        plume(sheet, at)


def plume(sheet: Sheet, at: Knot) -> None:
    """A reed's flowering head: a soft brown plume that hangs to one side, unlike corn."""
    sheet.paper(ribbon([(at[0], 1210), (at[0] + 6, 700), at], [6, 5, 3]), STRAW)
    sprays = [
        leaf((at[0] + 3 * i, at[1] - 20 * i), 128 - 9 * i, 62 - 17 * i, 0.15, -0.14)
        for i in range(9)
    ]
    sheet.papers(sprays, [STONE], lift=0.6)


def legs(sheet: Sheet) -> None:
    """Stout green legs, the heel bent backwards, three very long toes before it and one behind."""
    for joints, bend in (
        (knots("590,830 640,930 700,990,0 676,1060 648,1130"), (184, 164, 142, 14)),
        (knots("470,820 490,920 536,984,0 470,1050 372,1112"), (190, 168, 146, 24)),
    ):
        claws = toes(joints[-1], bend, 132, 13, 0.3)
        sheet.paper([ribbon(joints, [60, 40, 23, 20, 20], 17), *claws], MOSS, lift=2)
        thigh = ribbon([joints[0], joints[1], joints[2][:2]], [84, 52, 22])
        sheet.paper(thigh, OCHRE, lift=2)
        sheet.paper([slit(step(joints[1], a, 26), 44, 70, 0.26) for a in (-30, 90, 200)], BARK)


def body(sheet: Sheet) -> None:
    quills = [feather((690, 830), 170 - 8 * abs(i - 2), 44 + 12 * i, 0.3, 0.86) for i in range(4)]
    sheet.papers(quills, [RUST, BARK], lift=1)
    sheet.paper(BODY, OCHRE, lift=3)


def neck(sheet: Sheet) -> None:
    """Loose feathers: bars on the nape, long dark stripes from the chin to the belly."""
    shape = ribbon(NECK, NECK_GIRTH, 25)
    sheet.paper(shape, OCHRE, lift=3)
    with sheet.inside(shape):
        pale = ribbon(
            knots("478,250 482,330 466,430 418,530 376,630 374,720 430,830"),
            [22, 24, 32, 44, 52, 50, 34],
            25,
        )
        sheet.paper(pale, STRAW, lift=1)
        for course, colour in (
            ("496,330 484,420 446,510 410,610 406,700 430,790", RUST),
            ("478,310 464,410 420,510 378,610 372,700 400,800", BARK),
            ("464,330 440,430 394,530 348,630 342,710 366,790", RUST),
        ):
            stripe = ribbon(knots(course), [3, 7, 11, 14, 13, 4], 24)
            sheet.paper(stripe, colour)
            marks = [slit(p, 40, a, 0.2) for p, a in along(line(*knots(course)), 10)[2:-1]]
            sheet.paper(marks, OCHRE)
    bars = rows(
        shape,
        line(*knots("550,330 540,420 506,520 480,620 484,730")),
        (-24, 4),
        42,
        lambda p, a, n, i: crescent(p, 15, a, 0.42),
    )
    sheet.paper(clear_of(bars, pale), BARK)


def wing(sheet: Sheet) -> None:
    """Barred flight feathers under a shoulder of dark-tipped coverts, folded close."""
    roots = [(670 - 13 * i, 690 + 9 * i) for i in range(6)]
    flight = [feather(at, 280 - 16 * i, 72 + 5 * i, 0.22, 0.88) for i, at in enumerate(roots)]
    sheet.papers(reversed(flight), [RUST], lift=1)
    bars = [
        slit(step(at, 72 + 5 * i, r), 44, 162 + 5 * i, 0.36)
        for i, at in enumerate(roots)
        for r in range(150, 262 - 16 * i, 40)
    ]
    sheet.paper(bars, BARK)
    cap = closed(
        *knots("516,610 532,520 572,450 620,520 676,610 716,710 708,800 650,840 580,810 526,720")
    )
    sheet.paper(cap, OCHRE, lift=2)
    hems = rows(
        cap,
        line(*knots("566,460 616,600 660,840")),
        (-110, -74, -38, -2, 34, 70),
        50,
        lambda p, a, n, i: crescent(p, 20, a, 0.44),
    )
    sheet.paper(hems, BARK)


def bill(sheet: Sheet) -> None:
    """A dagger as long as the head, pointing up and forward."""
    sheet.paper(closed(*knots("462,214! 446,120 450,8! 482,110 500,190! 486,230")), MOSS, lift=2)
    sheet.paper(closed(*knots("488,190! 464,110 450,8! 502,110 536,176!")), FERN)


def head(sheet: Sheet) -> None:
    """No wider than the neck: a dark cap, a moustache, an eye that looks along the bill."""
    skull = closed(
        *knots("454,220! 478,186 516,168 548,180 566,220 570,280 562,350 520,366 480,340 462,290")
    )
    sheet.paper(skull, OCHRE, lift=1)
    cap = closed(
        *knots("500,184! 526,158 562,172 588,220 590,290 584,400! 564,340 558,270 540,216")
    )
    sheet.paper(cap, INK, lift=1)
    sheet.paper(closed(*knots("458,246! 484,270 506,320 508,384! 480,360 462,310")), INK)
    sheet.paper(ellipse((512, 240), 27), STRAW)
    sheet.paper(ellipse((512, 240), 23), PAPER)
    sheet.paper(ellipse((508, 236), 15), INK)
    sheet.paper(ellipse((503, 230), 5), PAPER)


def tufts(sheet: Sheet, rng: Random) -> None:
    blades = [
        leaf((x, 1215), rng.uniform(90, 170), -90 + rng.uniform(-24, 24), 0.13)
        for x in (6, 40, 80, 210, 300, 700, 800, 940, 980)
    ]
    sheet.papers(blades, [MOSS, SAGE], lift=1)
