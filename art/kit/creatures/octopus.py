"""An octopus spreads its arms over the rock."""

from __future__ import annotations

from math import sin
from random import Random

from art.kit.curves import Knot, along, closed, ellipse, heading, knots, line, step
from art.kit.cutouts import bubble, frond, ripple, slit
from art.kit.palette import BARK, INK, MIST, OCHRE, PAPER, POOL, RUST, SHELL, TEAL
from art.kit.rows import rows
from art.kit.sheet import Sheet

NAME = "Octopus"
CHAPTER = "open sea"
DESCRIPTION = (
    "An octopus, red-brown, with pale suckers in rows, spreads eight curling arms. One arm is "
    "raised; the eyes with their level pupils look out below the big bag of its body."
)
SPOTS = {
    "mantle": (42, 17),
    "web": (48, 56),
    "left_arm": (15, 47),
    "left_tip": (12.5, 18),
    "right_arm": (80.5, 50),
    "raised_arm": (84.5, 21.5),
    "lower_left": (35, 79),
    "lower_tip": (11, 80),
}
LINKS = (
    "web-mantle",
    "web-left_arm",
    "left_arm-left_tip",
    "web-right_arm",
    "right_arm-raised_arm",
    "web-lower_left",
    "lower_left-lower_tip",
)


def draw() -> Sheet:
    sheet = Sheet("octopus")
    rng = Random(82)
    sheet.ground(POOL, MIST, seed=21)
    habitat(sheet, rng)
    sheet.layer("creature")
    for arm_ in ARMS:
        arm(sheet, *arm_)
    body(sheet)
    return sheet


ARMS = (
    (knots("400,640 290,500 200,390 130,290 120,210"), 62, 52, 1),
    (knots("480,720 490,860 500,960 530,1060"), 66, 44, -1),
    (knots("420,690 280,720 160,800 90,900 80,960"), 72, 48, -1),
    (knots("570,690 720,710 850,760 926,830 940,880"), 72, 38, 1),
    (knots("400,660 290,590 190,560 110,500 70,440"), 76, 44, 1),
    (knots("430,720 380,830 320,960 290,1040 310,1100"), 78, 54, -1),
    (knots("560,720 630,830 700,940 780,1030 850,1060"), 78, 56, -1),
    (knots("570,660 680,640 780,590 830,480 846,340 830,220 780,140"), 80, 50, -1),
)
"""Course, half width at the root, radius of the curl at the end and the way it turns."""


def arm(sheet: Sheet, course: list[Knot], root: float, curl: float, side: int) -> None:
    """An arm that ends in a curl; its suckers lie on the inner side of it."""
    spine = list(course)
    angle = heading(course[-2], course[-1])
    for i in range(11):
        angle += side * 34
        spine.append(step(spine[-1], angle, curl * 0.6 * 0.9**i))
    count = 44
    places = along(line(*spine), count)
    halves = [root * (1 - i / (count - 1)) ** 0.85 for i in range(count)]
    outer = [step(at, a - side * 90, h) for (at, a), h in zip(places, halves, strict=True)]
    inner = [step(at, a + side * 90, h) for (at, a), h in zip(places, halves, strict=True)]
    belly = [step(at, a + side * 90, h * 0.5) for (at, a), h in zip(places, halves, strict=True)]
    tip: Knot = (*places[-1][0], 0)
    sheet.paper(closed(*outer[:-1:2], tip, *inner[-2::-2]), RUST, lift=2)
    sheet.paper(closed(*belly[2:-1:2], tip, *inner[-2:2:-2]), SHELL)
    cups = [
        ellipse(step(at, a + side * 90, h * 0.74), max(3, h * 0.17))
        for (at, a), h in list(zip(places, halves, strict=True))[5:-3]
    ]
    sheet.paper(cups[::2], PAPER)
    flecks = [
        slit(step(at, a - side * 90, h * (0.2 + 0.4 * (i % 2))), 22, a, 0.4)
        for i, ((at, a), h) in enumerate(list(zip(places, halves, strict=True))[6:30:2])
    ]
    sheet.paper(flecks, OCHRE)


def habitat(sheet: Sheet, rng: Random) -> None:
    """Open water, light from above, rock and weed below."""
    light = closed(*knots("-10,-10! 1010,-10! 1010,40! 800,20 560,60 300,14 -10,50!"))
    sheet.paper(light, MIST)
    waves = [
        ripple([(x, y), (x + 44, y - 13), (x + 90, y + 11), (x + 134, y - 2)], 7)
        for x, y in knots("40,110 90,160 640,110 690,400 660,330 20,640 900,660 20,340")
    ]
    sheet.paper(waves, MIST)
    rock = closed(
        *knots(
            "-10,1110! 120,1090 260,1150 420,1170 640,1176 820,1150 940,1090 1010,1100! "
            "1010,1210! -10,1210!"
        )
    )
    sheet.paper(rock, TEAL, lift=2)
    for spine in (
        knots("-10,1200 40,1120 50,1040 30,980"),
        knots("990,1210 960,1140 975,1080 1000,1030"),
    ):
        sheet.paper(frond(spine, 64, 6, 0.3), TEAL, lift=1)
    for x, y, r in knots("690,190,15 650,250,10 716,250,8"):
        sheet.paper(bubble((x, y), r), PAPER)


def body(sheet: Sheet) -> None:
    """The bag of the body behind the head; eyes on two bulges, with level pupils."""
    shape = closed(
        *knots(
            "470,40 560,90 604,190 600,290 560,370 572,420 620,450 660,520 640,590 620,650 610,720 "
            "560,780 480,800 400,780 350,720 340,640 310,590 300,520 340,450 380,410 360,350 "
            "290,270 260,180 300,90 380,44"
        )
    )
    sheet.paper(shape, RUST, lift=4)
    spots = rows(
        shape,
        line(*knots("440,60 430,200 450,340 480,480 490,760")),
        (-130, -78, -26, 26, 78, 130),
        64,
        lambda p, a, n, i: slit((p[0] + 13 * sin(7 * i + n), p[1]), 27, a + 20 * n, 0.5),
    )
    sheet.paper(spots, OCHRE)
    blots = rows(
        shape,
        line(*knots("440,80 430,200 440,330 460,420")),
        (-104, -52, 0, 52, 104),
        92,
        lambda p, a, n, i: ellipse((p[0], p[1] + 9 * sin(5 * i + n)), 10, 14, 30 * n),
    )
    sheet.paper(blots, BARK)
    for x in (345, 615):
        sheet.paper(ellipse((x, 516), 58), RUST, lift=2)
        sheet.paper(ellipse((x, 512), 34, 30), OCHRE)
        pupil = closed(
            *((x + dx, 512 + dy) for dx, dy in knots("-26,0 -18,-12 18,-12 26,0 18,12 -18,12"))
        )
        sheet.paper(pupil, INK)
        sheet.paper(ellipse((x - 10, 506), 5), PAPER)
