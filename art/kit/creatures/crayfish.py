"""A white-clawed crayfish backs out from its stone, claws raised."""

from __future__ import annotations

from random import Random

from art.kit.curves import Curve, Knot, closed, ellipse, knots, ribbon, step
from art.kit.cutouts import slit, stone
from art.kit.palette import (
    BARK,
    INK,
    MOSS,
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
from art.kit.sheet import Sheet

NAME = "Crayfish"
CHAPTER = "brook"
DESCRIPTION = (
    "A crayfish seen from above on the bed of the brook: dark brown, with two big raised claws on "
    "rust-red arms, long feelers, eight walking legs and a tail fan spread like a hand."
)
SPOTS = {
    "left_claw": (18, 23.5),
    "left_arm": (17.5, 51),
    "back": (49.5, 55),
    "tail": (51, 84),
}
LINKS = ("left_claw-left_arm", "left_arm-back", "back-tail")


def draw() -> Sheet:
    sheet = Sheet("crayfish")
    rng = Random(31)
    sheet.ground(SAND, PAPER, seed=12)
    habitat(sheet, rng)
    sheet.layer("creature")
    with sheet.posed(-3, (500, 620), 0.97):
        feelers(sheet)
        walking_legs(sheet)
        for side in (-1, 1):
            arm(sheet, side)
        tail(sheet)
        carapace(sheet)
    return sheet


def both(shape: Curve, side: int) -> Curve:
    return shape if side > 0 else shape.flipped(500)


def habitat(sheet: Sheet, rng: Random) -> None:
    """A bed of sand between stones, and a fallen alder leaf."""
    water = closed(
        *knots(
            "-10,-10! 1010,-10! 1010,1210! 760,1210! 900,1060 960,900 965,640 880,330 "
            "720,150 450,70 200,110 70,330 40,640 70,960 190,1130 250,1210! -10,1210!"
        )
    )
    sheet.paper(water, POOL)
    for x, y, rx, ry, colour in (
        (40, 1140, 130, 110, STONE),
        (200, 1210, 90, 60, SLATE),
        (970, 1160, 110, 100, STONE),
        (10, 40, 90, 60, SLATE),
        (500, -6, 130, 56, STONE),
        (1000, 20, 80, 70, SLATE),
    ):
        sheet.paper(stone((x, y), rx, ry, rng), colour, lift=2)
    grains = [
        slit(
            (rng.uniform(120, 880), rng.uniform(130, 1160)),
            rng.uniform(12, 30),
            rng.uniform(-20, 20),
            0.4,
        )
        for _ in range(90)
    ]
    sheet.paper(grains, STRAW)
    alder = closed(
        *knots("690,1100! 700,1040 760,1000 850,1010 886,1060 860,1130 780,1160 710,1140")
    )
    sheet.paper(alder, MOSS, lift=2)
    veins = [
        slit((700 + 30 * i, 1094 - 4 * i + side * 28), 46, side * 50 - 8, 0.16)
        for i in range(1, 6)
        for side in (-1, 1)
    ]
    sheet.paper([*veins, ribbon([(640, 1120), (700, 1096), (860, 1070)], [4, 4, 0])], SAGE)


def feelers(sheet: Sheet) -> None:
    """Two long feelers swept back and four short ones."""
    for side, course in (
        (1, [(536, 350), (570, 240), (600, 130), (570, 60), (500, 90)]),
        (-1, [(536, 350), (590, 260), (660, 300), (740, 400), (700, 470)]),
    ):
        sheet.paper(both(ribbon(course, [11, 8, 6, 4, 0]), side), RUST, lift=1)
        sheet.paper(
            [
                both(ribbon([(516, 330), (x, 250), (x + 14, 180)], [6, 5, 0]), side)
                for x in (520, 540)
            ],
            RUST,
            lift=1,
        )


def walking_legs(sheet: Sheet) -> None:
    """Four pairs, each of three papers."""
    for y, knee, ankle, foot in (
        (500, (700, 570), (790, 640), (850, 740)),
        (560, (706, 640), (790, 740), (830, 850)),
        (610, (690, 710), (760, 830), (780, 940)),
        (650, (660, 770), (710, 900), (700, 1010)),
    ):
        for side in (-1, 1):
            dy = 14 * side
            k, a, f = ((p[0], p[1] + dy) for p in (knee, ankle, foot))
            sheet.paper(both(ribbon([a, f], [13, 11, 0]), side), OCHRE, lift=1)
            sheet.paper(both(ribbon([k, a], [16, 20, 12]), side), MOSS, lift=1)
            sheet.paper(both(ribbon([(560, y), k], [22, 24, 16]), side), BARK, lift=1.5)


def arm(sheet: Sheet, side: int) -> None:
    """Slim arm, wrist, and the claw: pale fingers with teeth, warts on the palm."""
    thigh = ribbon(knots("560,520 660,540 740,590"), [34, 36, 44])
    upper = ribbon(knots("730,590 790,620 836,600"), [46, 54, 58])
    wrist = closed(
        *knots("770,590 762,510 778,440 820,402 872,430 886,520 876,600 824,640 786,630")
    )
    sheet.paper(both(thigh, side), RUST, lift=2)
    sheet.paper(both(upper, side), RUST, lift=2)
    sheet.paper(both(wrist, side), RUST, lift=2)
    spread = 7 if side < 0 else -3
    hinge = (830, 400)

    def claw(shape: Curve) -> Curve:
        return both(shape.turned(spread, hinge), side)

    finger = closed(
        *knots("760,300 706,240 690,140 700,70 742,16! 750,110 780,180 824,244 820,300")
    )
    if side < 0:
        finger = finger.turned(-9, (790, 300))
    sheet.paper(claw(finger), RUST, lift=2)
    palm = closed(
        *knots(
            "800,430 744,360 740,290 796,226! 826,150 850,70 878,10! 930,110 946,240 "
            "916,350 860,430"
        )
    )
    sheet.paper(claw(palm), RUST, lift=2)
    edge = closed(*knots("796,226! 826,150 850,70 878,10! 880,100 868,180 836,236"))
    sheet.paper(claw(edge), SAND)
    teeth = [ellipse((866 - 8 * i, 90 + 32 * i), 9) for i in range(4)]
    sheet.paper([claw(t) for t in teeth], BARK)
    warts = [
        slit((x, y), 22, 70, 0.5)
        for x, y in knots(
            "906,170 912,220 880,270 906,290 850,300 800,290 870,340 820,346 780,330 840,390"
        )
    ]
    sheet.paper([claw(w) for w in warts], BARK)
    sheet.paper(
        [
            both(slit((x, y), 24, 30, 0.45), side)
            for x, y in knots("650,534 700,556 810,470 846,500 806,560 850,570")
        ],
        BARK,
    )


def tail(sheet: Sheet) -> None:
    """Six hoops and the fan."""
    for angle, size in ((22, 226), (158, 226), (56, 236), (124, 236)):
        sheet.paper(paddle((500, 985), size, angle), RUST, lift=2)
        sheet.paper(
            [
                slit(step((500, 985), angle + a, size * 0.74), 60, angle + a, 0.14)
                for a in (-9, 0, 9)
            ],
            STRAW,
        )
    sheet.paper(paddle((500, 960), 226, 90), BARK, lift=2)
    sheet.paper(
        [slit(step((500, 960), 90 + a, 170), 60, 90 + a, 0.14) for a in (-10, 0, 10)], OCHRE
    )
    for i in range(6, 0, -1):
        y, half = 700 + 50 * i, 146 - 10 * i
        hoop = closed(
            (500 - half, y - 50),
            (500, y - 72),
            (500 + half, y - 50),
            (500 + half + 24, y + 30, 0),
            (500 + half - 30, y + 22),
            (500, y + 32),
            (500 - half + 30, y + 22),
            (500 - half - 24, y + 30, 0),
        )
        sheet.paper(hoop, BARK, lift=1.5)
        sheet.paper(
            [
                slit((500 + k * half * 0.3, y + 8 - 3 * abs(k)), 24, k * -6, 0.36)
                for k in (-2, -1, 0, 1, 2)
            ],
            OCHRE,
        )


def paddle(root: Knot, size: float, angle: float) -> Curve:
    """One blade of the tail fan."""
    return closed(
        (*root, 0),
        *(
            step(root, angle + a, size * r)
            for a, r in knots("-24,0.5 -21,0.86 -8,1 8,1 21,0.86 24,0.5")
        ),
    )


def carapace(sheet: Sheet) -> None:
    """One long shell, rounded like a barrel, with the furrow behind the head and a pointed beak."""
    shell = closed(
        *knots(
            "500,262! 514,330 540,372! 566,404 600,460 622,540 626,640 606,710 560,752 500,760 "
            "440,752 394,710 374,640 378,540 400,460 434,404 460,372! 486,330"
        )
    )
    for side in (-1, 1):
        sheet.paper(both(ribbon([(524, 412), (572, 384)], [15, 13]), side), RUST, lift=1)
        sheet.paper(both(ellipse((578, 376), 19), side), INK, lift=1)
    sheet.paper(shell, BARK, lift=4)
    head = closed(
        *knots(
            "500,262! 514,330 540,372! 566,404 598,460 606,520 560,566 500,590 440,566 394,520 "
            "402,460 434,404 460,372! 486,330"
        )
    )
    sheet.paper(head, BARK, lift=2.5)
    cuts = [
        slit((500 + x, y), 24, a, 0.4)
        for x, y, a in knots(
            "40,440,60 72,480,60 40,510,50 24,400,70 92,580,80 60,630,80 96,650,90 64,690,100 "
            "30,650,90 84,710,110 36,710,100"
        )
    ]
    sheet.paper([both(d, side) for d in cuts for side in (-1, 1)], OCHRE)
