"""A sea turtle rows through the open sea."""

from __future__ import annotations

import itertools
from random import Random

from art.kit.curves import Curve, Point, along, closed, ellipse, knots, line, polygon, step
from art.kit.cutouts import ripple, slit
from art.kit.palette import (
    BARK,
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
    STRAW,
    TEAL,
)
from art.kit.rows import rows
from art.kit.sheet import Sheet

NAME = "Sea turtle"
CHAPTER = "open sea"
DESCRIPTION = (
    "A sea turtle seen from above, rowing with its long front flippers: one reaches forward, the "
    "other sweeps back. Its shell is a mosaic of brown plates with golden rays."
)
SPOTS = {
    "shell": (50, 60),
    "nape": (51.5, 33),
    "left_shoulder": (21.5, 44),
    "left_tip": (10, 20),
    "right_shoulder": (80, 44),
    "right_tip": (89.5, 68),
    "left_hindleg": (28, 86),
    "right_hindleg": (73, 87),
}
LINKS = [
    "shell-nape",
    "shell-left_shoulder",
    "left_shoulder-left_tip",
    "shell-right_shoulder",
    "right_shoulder-right_tip",
    "shell-left_hindleg",
    "shell-right_hindleg",
]

SHELL_EDGE = closed(
    *knots(
        "510,356 600,372 690,420 756,510 780,620 760,740 704,850 620,950 520,1030! 420,950 "
        "330,850 264,740 240,620 262,510 326,420 420,372"
    )
)


def draw() -> Sheet:
    sheet = Sheet("sea-turtle")
    rng = Random(92)
    sheet.ground(POOL, MIST, seed=23)
    habitat(sheet, rng)
    sheet.layer("creature")
    flippers(sheet)
    head(sheet)
    shell(sheet)
    return sheet


def habitat(sheet: Sheet, rng: Random) -> None:
    """Open water over the deep: bands of light, and a shoal of small fish."""
    deep = closed(
        *knots("-10,1060! 200,1130 420,1160 640,1150 860,1090 1010,1010! 1010,1210! -10,1210!")
    )
    sheet.paper(deep, TEAL)
    corner = closed(*knots("640,-10! 720,50 840,60 920,130 1010,150! 1010,-10!"))
    sheet.paper(corner, MIST)
    waves = [
        ripple([(x, y), (x + 44, y - 13), (x + 90, y + 11), (x + 134, y - 2)], 7)
        for x, y in knots(
            "250,90 310,150 700,200 760,260 30,640 60,700 20,760 850,330 250,260 60,900 820,960"
        )
    ]
    sheet.paper(waves, MIST)
    for x, y in knots("60,1010 130,1060 50,1090 880,1120 950,1060 950,1150"):
        body = closed(
            (x - 40, y, 0),
            (x - 8, y - 13),
            (x + 24, y - 2),
            (x + 44, y - 14, 0),
            (x + 44, y + 14, 0),
            (x + 24, y + 3),
            (x - 8, y + 13),
        )
        sheet.paper(body, SAND, lift=1)


LIMBS = (
    (
        knots(
            "380,420 310,430 260,390 210,300 150,190 70,84! 40,190 56,330 104,460 180,560 300,600 "
            "400,560"
        ),
        knots("380,520 260,480 150,340 90,160"),
    ),
    (
        knots(
            "620,430 720,410 820,420 900,490 950,640 960,800 930,960! 880,860 840,740 790,660 "
            "700,610 620,580"
        ),
        knots("620,510 760,500 880,600 920,880"),
    ),
    (
        knots("410,900 310,930 220,1000 180,1080 210,1140 300,1130 400,1060 470,980"),
        knots("420,960 320,1030 220,1110"),
    ),
    (
        knots("600,900 700,940 790,1010 830,1090 790,1150 700,1130 610,1060 540,980"),
        knots("590,960 700,1040 800,1120"),
    ),
)
"""Edge and middle of each flipper."""


def flippers(sheet: Sheet) -> None:
    sheet.paper(closed(*knots("490,980! 550,980! 524,1096!")), FERN, lift=1)
    for edge, middle in reversed(LIMBS):
        shape = closed(*edge)
        sheet.paper(shape, FERN, lift=3)
        plates = rows(
            shape,
            line(*middle),
            (-108, -72, -36, 0, 36, 72, 108),
            46,
            lambda p, a, n, i: ellipse(p, 20, 14, a + 12 * (n - 3)),
        )
        sheet.paper(plates, MOSS)
        sheet.paper([plate.scaled(0.4, about=middle_of(plate)) for plate in plates[::2]], SAGE)


def middle_of(shape: Curve) -> Point:
    left, top, right, bottom = shape.box
    return (left + right) / 2, (top + bottom) / 2


def head(sheet: Sheet) -> None:
    """Wedge-shaped, with a horny beak; the plates of the crown lie like paving."""
    with sheet.posed(8, (515, 300)):
        neck = closed(*knots("430,420 440,330 456,270 580,270 596,330 610,420"))
        sheet.paper(neck, FERN, lift=1)
        folds = [slit((516 + k * 34, 300 + 10 * abs(k)), 40, 90, 0.24) for k in (-1, 0, 1)]
        sheet.paper(folds, MOSS)
        skull = closed(
            *knots(
                "516,44! 560,76 592,136 602,200 586,262 544,290 490,290 448,262 432,200 442,136 "
                "474,76"
            )
        )
        sheet.paper(skull, FERN, lift=2)
        sheet.paper(closed(*knots("516,44! 540,66 544,88 516,98 488,88 492,66")), STRAW)
        crown = (
            knots("516,122! 540,132! 540,166! 516,178! 492,166! 492,132!"),
            knots("516,190! 550,174! 562,214! 540,250! 516,256! 492,250! 470,214! 482,174!"),
        )
        sheet.paper([closed(*plate) for plate in crown], MOSS)
        for side in (-1, 1):
            cheeks = [
                slit((516 + side * x, y), 30, 90 + side * 20, 0.5)
                for x, y in ((68, 226), (56, 258))
            ]
            sheet.paper(cheeks, MOSS)
            eye = (516 + side * 66, 150)
            sheet.paper(ellipse(eye, 20, 26, side * -16), MOSS, lift=1)
            sheet.paper(ellipse((eye[0] + side * 2, eye[1]), 15, 19, side * -16), INK)
            sheet.paper(slit((eye[0] - 3, eye[1] - 8), 13, -40, 0.6), PAPER)


SEAMS = ((384, 58), (494, 78), (612, 84), (730, 76), (844, 58), (946, 30))
"""Down the middle of the shell: where one plate ends and the next begins, and half their width."""
BULGE = 1.5


def shell(sheet: Sheet) -> None:
    """Five plates in the middle, four on each side, and a rim of small ones, all with gold rays."""
    sheet.paper(SHELL_EDGE, STRAW, lift=4)
    heart = (512, 660)
    ring = [place for place, _ in along(Curve(SHELL_EDGE.segments, False), 27)]
    for one, two in itertools.pairwise(ring):
        corners = [one, two, toward(two, heart, 0.15), toward(one, heart, 0.15)]
        plate = polygon(*corners)
        sheet.paper(plate.scaled(0.9, about=middle_of(plate)), BARK)
    field = SHELL_EDGE.scaled(0.83, about=heart)
    mids = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2 * BULGE) for a, b in itertools.pairwise(SEAMS)]
    with sheet.inside(field):
        for side in (-1, 1):
            for k in range(4):
                (ya, wa), (ys, ws), (yb, wb) = mids[k], SEAMS[k + 1], mids[k + 1]
                up, down = (-70 if k == 0 else 14 * k - 20), 16 * k + (90 if k == 3 else 0)
                inner = [(512 + side * w, y) for w, y in ((wb, yb), (ws, ys), (wa, ya))]
                plate = polygon(*inner, (512 + side * 320, ya + up), (512 + side * 320, yb + down))
                about = (512 + side * 190, (ya + yb) / 2)
                sheet.paper(plate.scaled(0.94, 0.92, about=about), RUST)
                rays = [
                    slit(step(inner[1], (0 if side > 0 else 180) + a, 92), 96, a, 0.13)
                    for a in (-26, -9, 9, 26)
                ]
                sheet.paper(rays, OCHRE)
        for (ya, wa), (yb, wb), (ym, wm) in zip(SEAMS, SEAMS[1:], mids, strict=False):
            plate = polygon(
                (512 - wa, ya),
                (512 + wa, ya),
                (512 + wm, ym),
                (512 + wb, yb),
                (512 - wb, yb),
                (512 - wm, ym),
            )
            sheet.paper(plate.scaled(0.92, about=(512, ym)), BARK)
            rays = [slit(step((512, yb), a, 62), 60, a, 0.14) for a in (-122, -106, -90, -74, -58)]
            sheet.paper(rays, OCHRE)


def toward(one: Point, other: Point, part: float) -> Point:
    return one[0] + (other[0] - one[0]) * part, one[1] + (other[1] - one[1]) * part
