"""A caddis larva drags its house of stones along the bed of the spring."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from random import Random

from art.kit.curves import (
    Curve,
    Knot,
    along,
    closed,
    ellipse,
    heading,
    knots,
    line,
    ribbon,
    step,
)
from art.kit.cutouts import bubble, leaf, slit, stone
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
    SLATE,
    STONE,
    STRAW,
)
from art.kit.sheet import Sheet

NAME = "Caddis larva"
CHAPTER = "spring"
DESCRIPTION = (
    "A caddis larva under water. Its soft body sits in a bent tube that it has built of sand "
    "grains, pebbles and bits of leaf; only its brown head, back and six long legs look out."
)
SPOTS = {
    "tip": (89, 15.5),
    "tube": (63, 43),
    "collar": (34.5, 53),
    "middle_leg": (20, 87),
}
LINKS = ["tip-tube", "tube-collar", "collar-middle_leg"]

TUBE = knots("1108,90 1040,230 920,360 740,450 520,500")
GIRTH = [70, 88, 114, 142, 160]


def draw() -> Sheet:
    sheet = Sheet("caddis-larva", 1200, 1000)
    rng = Random(5)
    sheet.ground(MIST, PAPER, seed=8)
    habitat(sheet, rng)
    sheet.layer("creature")
    far_legs(sheet)
    larva(sheet)
    near_legs(sheet)
    case(sheet, rng)
    sheet.layer("front")
    bed(sheet, rng)
    return sheet


def habitat(sheet: Sheet, rng: Random) -> None:
    """Still water over a sandy bed, with water weed behind."""
    far = closed(*knots("-10,640! 150,610 400,660 700,640 960,690 1210,650! 1210,1010! -10,1010!"))
    sheet.paper(far, POOL)
    for x, top, sway in ((96, 60, -1), (640, 40, 1), (1130, 420, -1)):
        stem = [(x, 900), (x + 26 * sway, (900 + top) / 2), (x - 14 * sway, top)]
        sheet.paper(whorls(stem, 64), SAGE)
    sand = closed(
        *knots("-10,830! 200,850 520,826 800,850 1020,815 1210,840! 1210,1010! -10,1010!")
    )
    sheet.paper(sand, SAND, lift=2)
    grains = [
        slit(
            (rng.uniform(0, 1200), rng.uniform(866, 990)),
            rng.uniform(12, 30),
            rng.uniform(-20, 20),
            0.4,
        )
        for _ in range(90)
    ]
    sheet.paper(grains, STRAW)


def whorls(stem: Sequence[Knot], size: float) -> list[Curve]:
    """Water weed: a stalk with rings of narrow leaves."""
    places = along(line(*stem), 12)[2:]
    pieces = [ribbon(stem, [9, 7, 0])]
    for i, (at, angle) in enumerate(places):
        pieces += [
            leaf(at, size * (1 - i * 0.05), angle + a, 0.2, a / 600) for a in (-62, -26, 26, 62)
        ]
    return pieces


def case(sheet: Sheet, rng: Random) -> None:
    """Stones laid like tiles round a tube: narrow towards its sides, small towards its tip."""
    tube = ribbon(TUBE, GIRTH)
    sheet.paper([tube, ellipse((500, 504), 74, 166, 6)], INK, lift=4)
    papers = [STONE, SAND, SLATE, STRAW, RUST, PAPER, SLATE, MOSS, BARK, STONE, SAND, FERN, STRAW]
    rings = along(line(*TUBE), 14)
    for i, (at, angle) in enumerate(rings):
        half = GIRTH[0] + (GIRTH[-1] - GIRTH[0]) * (i / 13) ** 0.85
        sides = (-0.86, 0.86, -0.45, 0.45, 0) if i % 2 else (-0.7, 0.7, -0.22, 0.22)
        for j, side in enumerate(sides):
            centre = step(at, angle + 90, half * side)
            squash = (1 - (side * 0.9) ** 2) ** 0.5
            shape = pebble(centre, 50 * half / 110, 46 * half / 110 * squash + 4, angle, rng)
            sheet.paper(shape, papers[(i * 5 + j * 3) % len(papers)], lift=1)


def pebble(at: Knot, rx: float, ry: float, angle: float, rng: Random) -> Curve:
    """A broken pebble: some of its corners are sharp."""
    knots = []
    for turn in range(0, 360, 45):
        x, y = step((0, 0), turn + rng.uniform(-12, 12), rng.uniform(0.88, 1.12))
        knots.append((at[0] + rx * x, at[1] + ry * y, *([0] if rng.random() < 0.35 else [])))
    return closed(*knots).turned(angle, at)


def larva(sheet: Sheet) -> None:
    """Three plated rings of the breast and the head, bent towards the ground."""
    soft = ribbon([(560, 500), (420, 520), (300, 575)], [118, 112, 88])
    sheet.paper(soft, STRAW, lift=2)
    for spine, half, colour in (
        ([(440, 404), (408, 500), (440, 622)], 46, OCHRE),
        ([(356, 432), (322, 530), (352, 640)], 44, RUST),
        ([(286, 476), (250, 560), (276, 646)], 38, BARK),
    ):
        plate = ribbon(spine, [half * 0.5, half, half, half * 0.5])
        sheet.paper(plate, colour, lift=1.5)
        sheet.paper(
            [slit(at, 22, angle, 0.4) for at, angle in along(line(*spine), 9)[1:-1]],
            INK if colour != BARK else OCHRE,
        )
    jaws = [
        closed(*knots("96,672! 64,690 60,724! 92,716 124,694!")),
        closed(*knots("136,694! 112,720 124,752! 146,732 166,704!")),
    ]
    sheet.paper(jaws, INK, lift=1)
    head = closed(*knots("278,566 250,508 190,500 130,540 86,610 78,668 110,706 176,712 250,664"))
    sheet.paper(head, OCHRE, lift=2)
    with sheet.inside(head):
        mask = closed(*knots("290,480! 240,560 196,600 130,640 60,650! 60,560! 150,470!"))
        sheet.paper(mask, BARK)
        freckles = [
            ellipse(at, 6, 4, 40)
            for at in knots("250,600 232,636 250,660 206,676 176,690 150,676 226,668")
        ]
        sheet.paper(freckles, BARK)
    sheet.paper(ellipse((176, 642), 19), PAPER)
    sheet.paper(ellipse((173, 643), 13), INK)


NEAR = [
    [(300, 640), (262, 752), (150, 760), (76, 850)],
    [(372, 630), (376, 780), (262, 850), (196, 930)],
    [(440, 630), (556, 740), (574, 850), (510, 940)],
]
FAR = [
    [(280, 630), (170, 690), (60, 770), (24, 850)],
    [(350, 640), (310, 740), (226, 770), (160, 850)],
    [(450, 630), (420, 760), (390, 830), (330, 890)],
]


def far_legs(sheet: Sheet) -> None:
    for joints in FAR[1:]:
        limb(sheet, joints, BARK, 1)


def near_legs(sheet: Sheet) -> None:
    for joints in NEAR:
        limb(sheet, joints, RUST, 2)


def limb(sheet: Sheet, joints: Sequence[Knot], colour: str, lift: float) -> None:
    """Thigh, shin and foot, each its own paper, with a claw and a comb of bristles."""
    for (a, b), half in zip(itertools.pairwise(joints), (30, 25, 17), strict=True):
        sheet.paper(ribbon([a, b], [half * 0.7, half, half * 0.55]), colour, lift)
    end, before = joints[-1], joints[-2]
    angle = heading(before, end)
    sheet.paper(leaf(end, 34, angle - 14, 0.34), INK)
    if colour == RUST:
        knee = along(line(*joints[1:3]), 6)[1:5]
        sheet.paper([slit(at, 15, a + 70, 0.4) for at, a in knee], BARK)


def bed(sheet: Sheet, rng: Random) -> None:
    """Pebbles in front, and bubbles."""
    for x, y, rx, ry, colour in (
        (760, 960, 110, 66, STONE),
        (900, 985, 90, 58, SLATE),
        (1060, 960, 120, 80, STONE),
        (1180, 990, 80, 70, MOSS),
        (640, 1000, 60, 40, SLATE),
    ):
        sheet.paper(stone((x, y), rx, ry, rng), colour, lift=2)
    for left, top, radius in knots("250,330,22 300,250,14 206,220,30 960,640,16 1010,580,24"):
        sheet.paper(bubble((left, top), radius), PAPER)
