"""A shore crab stands its ground on the mud, one claw up."""

from __future__ import annotations

from random import Random

from art.kit.curves import Curve, Knot, along, closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import crescent, leaf, ripple, slit
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
    SAND,
    STONE,
    STRAW,
)
from art.kit.rows import clear_of
from art.kit.sheet import Sheet

NAME = "Shore crab"
CHAPTER = "salt marsh"
DESCRIPTION = (
    "A green shore crab seen from above, with five teeth on each side of its broad shell and eight "
    "pointed legs. It threatens: one claw is raised high and open, the other is held out."
)
SPOTS = {
    "shell": (50, 58),
    "arm": (84, 54),
    "claw": (82, 28.5),
    "other_arm": (15, 58),
    "other_claw": (25, 31),
    "thigh": (34, 77),
    "leg": (13, 81),
}
LINKS = (
    "shell-arm",
    "arm-claw",
    "shell-other_arm",
    "other_arm-other_claw",
    "shell-thigh",
    "thigh-leg",
)


def draw() -> Sheet:
    sheet = Sheet("shore-crab")
    rng = Random(52)
    sheet.ground(SAND, PAPER, seed=18)
    habitat(sheet, rng)
    sheet.layer("creature")
    for side in (1, -1):
        walking_legs(sheet, side)
    arm(sheet, knots("640,610 770,610 852,534"), (850, 520), -14, 1)
    arm(sheet, knots("360,620 250,640 166,586"), (150, 590), 30, -1)
    shell(sheet)
    return sheet


def both(shape: Curve, side: int) -> Curve:
    return shape if side > 0 else shape.flipped(500)


def habitat(sheet: Sheet, rng: Random) -> None:
    """Wet sand left by the tide, ripple marks, bladderwrack, a few cockles."""
    tide = knots("1010,210! 900,150 760,170 600,90 430,110 260,70 110,150 -10,130!")
    foam = closed((-10, -10, 0), (1010, -10, 0), *((x, y + 26, *c) for x, y, *c in tide))
    sheet.paper(foam, PAPER, lift=1)
    sheet.paper(closed((-10, -10, 0), (1010, -10, 0), *tide), POOL)
    swell = [
        ripple([(x, y), (x + 36, y - 10), (x + 74, y + 9), (x + 112, y)], 6)
        for x, y in knots("40,40 120,80 420,40 640,30 820,70 880,110 560,60")
    ]
    sheet.paper(swell, MIST)
    marks = [
        ripple([(x, y), (x + w / 3, y - 14), (x + w * 0.66, y + 12), (x + w, y)], 6)
        for x, y, w in knots(
            "320,200,240 400,260,200 300,330,150 420,380,150 20,640,110 10,700,90 900,620,100 "
            "100,1110,170 300,1150,170 540,1130,150 760,1120,150 420,1060,170 440,1000,120 "
            "20,280,120 900,300,100"
        )
    ]
    sheet.paper(marks, STRAW)
    for spine in (
        knots("1010,1060 930,1100 880,1160 860,1210"),
        knots("-10,1090 50,1110 110,1160 130,1210"),
    ):
        for point, angle in along(line(*spine), 5):
            fronds = [leaf(point, 100, angle + turn, 0.32, turn / 500) for turn in (-64, 64)]
            sheet.paper(fronds, SAGE, lift=1)
    for x, y, turn in knots("60,420,-20 560,1165,-8"):
        cockle(sheet, (x, y), turn)


def cockle(sheet: Sheet, at: Knot, turn: float) -> None:
    fan = [step(at, turn + a, r) for a, r in knots("180,38 215,46 250,50 290,50 325,46 0,38")]
    sheet.paper(closed((*step(at, turn + 90, 26), 0), *fan), PAPER, lift=1.5)
    ribs = [slit(step(at, turn + a, 14), 44, turn + a, 0.14) for a in (-140, -115, -90, -65, -40)]
    sheet.paper(ribs, STONE)


def walking_legs(sheet: Sheet, side: int) -> None:
    """Four pairs of three papers; the last toe is a blade."""
    for root, knee, ankle, foot in (
        ((660, 640), (850, 640), (930, 720), (970, 830)),
        ((650, 720), (820, 770), (890, 880), (930, 1010)),
        ((620, 780), (770, 880), (810, 1010), (800, 1130)),
        ((580, 830), (690, 960), (690, 1070), (640, 1160)),
    ):
        sheet.paper(both(ribbon([ankle, foot], [22, 18, 0]), side), OCHRE, lift=1)
        sheet.paper(both(ribbon([knee, ankle], [28, 31, 24]), side), MOSS, lift=1)
        sheet.paper(both(ribbon([root, knee], [36, 40, 30]), side), FERN, lift=1.5)
        marks = [slit(at, 26, angle, 0.36) for at, angle in along(line(knee, ankle), 5)[1:4]]
        sheet.paper([both(mark, side) for mark in marks], SAGE)


def arm(sheet: Sheet, spine: list[Knot], hinge: Knot, turn: float, side: int) -> None:
    """Upper arm, wrist, and the claw: a moving finger inside, the palm with its fixed finger."""
    sheet.paper(ribbon(spine, [50, 62, 64]), MOSS, lift=2)

    def claw(shape: Curve) -> Curve:
        placed = shape if side > 0 else shape.flipped(0)
        return placed.scaled(1.06).moved(*hinge).turned(turn, hinge)

    finger = closed(
        *knots("-40,-120! -104,-170 -132,-260 -118,-330 -76,-404! -66,-300 -34,-220 10,-150")
    )
    sheet.paper(claw(finger), RUST, lift=2)
    tip = closed(*knots("-118,-330! -100,-372 -76,-404! -70,-350 -64,-310!"))
    sheet.paper(claw(tip), INK)
    palm = closed(
        *knots(
            "-50,20 -92,-60 -88,-140 -34,-200! -14,-260 10,-330 16,-400! 78,-310 110,-190 "
            "98,-70 50,20"
        )
    )
    sheet.paper(claw(palm), MOSS, lift=2)
    with sheet.inside(claw(palm)):
        edge = closed(*knots("-34,-200! -6,-220 30,-290 44,-350 30,-410! 0,-410! -20,-280!"))
        sheet.paper(claw(edge), SAND)
        sheet.paper(claw(closed(*knots("-10,-340! 20,-350 60,-336! 60,-420! -10,-420!"))), INK)
    teeth = [ellipse((x, y), 9) for x, y in knots("-10,-222 10,-258 22,-296")]
    sheet.paper([claw(tooth) for tooth in teeth], MOSS)
    warts = [
        slit((x, y), 26, a, 0.42)
        for x, y, a in knots(
            "66,-80,80 78,-130,86 78,-180,92 70,-230,100 56,-280,106 30,-40,60 -56,-60,100 "
            "-62,-110,96 40,-110,80 40,-170,88 -30,-30,90"
        )
    ]
    sheet.paper([claw(wart) for wart in warts], SAGE)


def shell(sheet: Sheet) -> None:
    """Three lobes between the eyes and five teeth on each side: the shore crab's own count."""
    for side in (1, -1):
        sheet.paper(both(ribbon([(572, 520), (590, 462)], [17, 15]), side), MOSS, lift=1)
        sheet.paper(both(ellipse((592, 452), 23), side), INK, lift=1)
        sheet.paper(crescent((500 + side * 92, 452), 13, -50, 0.5), PAPER)
        feelers = ribbon([(536, 500), (556, 430), (610, 380)], [7, 5, 0])
        sheet.paper(both(feelers, side), RUST, lift=1)
    half = knots(
        "500,480 530,474 552,490 570,482! 580,520 604,524 628,490! 646,528 676,524 700,512! "
        "704,556 730,560 754,560! 746,600 764,608 790,614! 776,650 788,666 806,682! 780,752 "
        "720,846 616,908 500,924"
    )
    left: list[Knot] = [(1000 - k[0], *k[1:]) for k in half[1:-1]]
    edge = closed(*half, *reversed(left))
    sheet.paper(edge, FERN, lift=3)
    for side in (1, -1):
        rim = [
            slit((x, y), 30, a, 0.4)
            for x, y, a in knots(
                "640,546,60 694,570,50 734,606,46 756,654,50 756,704,100 730,764,118 690,818,134 "
                "636,860,150 574,884,166"
            )
        ]
        sheet.paper([both(mark, side) for mark in rim], OCHRE)
        grooves = [
            crescent((600, 640), 74, 176, 0.22),
        ]
        sheet.paper([both(groove, side) for groove in grooves], MOSS)
        grains = [
            slit((x, y), 22, a, 0.5)
            for x, y, a in knots(
                "540,560,20 590,574,40 640,610,50 650,680,70 690,730,80 630,750,90 "
                "590,800,120 640,810,130 560,846,150 530,620,90 520,690,90 600,640,90 580,720,90"
            )
        ]
        sheet.paper([both(grain, side) for grain in clear_of(grains, *grooves)], SAGE)
