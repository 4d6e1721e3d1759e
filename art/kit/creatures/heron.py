"""A grey heron wades and aims at a minnow."""

from __future__ import annotations

from random import Random

from art.kit.curves import closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import crescent, feather, leaf, reed, ripple, slit
from art.kit.limbs import toes
from art.kit.palette import (
    BARK,
    INK,
    MIST,
    MOSS,
    OCHRE,
    PAPER,
    POOL,
    SAGE,
    SAND,
    SLATE,
    STONE,
    STRAW,
)
from art.kit.rows import rows
from art.kit.sheet import Sheet

NAME = "Heron"
CHAPTER = "river meadow"
DESCRIPTION = (
    "A grey heron wades at the edge of the meadow, one foot lifted, its neck drawn into an S. "
    "It aims its yellow dagger of a bill at a small fish in the shallows."
)
SPOTS = {
    "neck": (46.5, 21.5),
    "breast": (33.5, 46.5),
    "wing": (66, 49.5),
    "tail": (90.5, 69.5),
    "liftedfoot": (36, 80),
    "foot": (67, 87),
}
LINKS = ["neck-breast", "breast-wing", "wing-tail", "wing-liftedfoot", "wing-foot"]

BODY = closed(
    *knots(
        "262,560 290,470 380,420 520,410 680,460 830,570 916,690 930,780! 870,770 760,770 640,790 "
        "500,780 370,730 290,650"
    )
)


def draw() -> Sheet:
    sheet = Sheet("heron")
    rng = Random(62)
    sheet.ground(SAND, PAPER, seed=23)
    habitat(sheet, rng)
    sheet.layer("creature")
    legs(sheet)
    body(sheet)
    neck(sheet)
    wing(sheet)
    head(sheet)
    sheet.layer("front")
    front(sheet, rng)
    return sheet


def habitat(sheet: Sheet, rng: Random) -> None:
    """Meadow grasses on the far bank, the river in front."""
    far = closed(*knots("-10,800! 300,776 620,800 1010,770! 1010,1000! -10,1000!"))
    sheet.paper(far, SAGE)
    for root in (30, 74, 130, 196, 800, 850, 905, 950, 986):
        tip = (root + rng.uniform(-30, 30), rng.uniform(380, 660))
        sheet.paper(reed((root, 830), tip, 9, rng.uniform(-16, 16)), SAGE)
    for x, top, sway in knots("960,420,-10 890,300,-30 600,180,20 700,120,16"):
        sheet.paper(
            ribbon([(x, 830), (x + sway / 2, top + 100), (x + sway, top)], [4, 3, 2]), STRAW
        )
        grains = [
            slit(step((x + sway + side * 10, top), -90, 18 * i), 30, -90 + side * 28, 0.4)
            for i in range(5)
            for side in (-1, 1)
        ]
        sheet.paper(grains, STRAW)
    bush = closed(
        *knots(
            "-10,420! 60,392 130,420 190,400 250,450 340,440 400,520 420,640 380,740 330,800 "
            "220,822 110,812 -10,830!"
        )
    )
    sheet.paper(bush, MOSS, lift=1)
    leaves = [
        slit((x + 14 * (y // 44 % 2), y), 28, rng.uniform(40, 80), 0.34)
        for x in range(20, 380, 48)
        for y in range(450, 820, 44)
    ]
    sheet.paper([f for f in leaves if bush.holds(f)], SAGE)
    river = closed(*knots("-10,910! 260,894 560,916 800,896 1010,910! 1010,1210! -10,1210!"))
    sheet.paper(river, POOL, lift=1)
    waves = [
        ripple([(x, y), (x + w / 3, y - 9), (x + w * 0.66, y + 8), (x + w, y)], 6)
        for x, y, w in knots(
            "20,960,150 800,950,150 430,960,110 860,1080,130 720,1160,150 30,1180,130"
        )
    ]
    sheet.paper(waves, MIST)


def legs(sheet: Sheet) -> None:
    """One carries, one is lifted out of the water with folded toes."""
    sheet.paper(
        [
            ribbon(knots("640,760 690,950,0 650,1130"), [54, 30, 15, 13, 14], 13),
            *toes((650, 1130), (176, 158, 20, 140), 96, 11, 0.3),
        ],
        BARK,
        lift=2,
    )
    sheet.paper(
        [
            ribbon(knots("510,760 560,900,0 360,1000"), [54, 30, 15, 13, 14], 13),
            *toes((360, 1000), (110, 132, 152, 60), 92, 11, 0.3),
        ],
        BARK,
        lift=2,
    )


def body(sheet: Sheet) -> None:
    sheet.paper(BODY, STONE, lift=3)
    plumes = [
        leaf((340 + 40 * i, 640 + 16 * i), 190 - 8 * i, 108 - 5 * i, 0.16, 0.06) for i in range(5)
    ]
    sheet.papers(plumes, [PAPER, STONE], lift=1)


NECK = knots("330,196 440,200 484,290 430,390 350,470 330,560 400,640")


def neck(sheet: Sheet) -> None:
    shape = ribbon(NECK, [50, 54, 58, 62, 84, 104, 96], 19)
    sheet.paper(shape, STONE, lift=3)
    with sheet.inside(shape):
        front_ = ribbon(
            knots("300,250 380,252 420,300 360,380 280,470 262,570 330,680"),
            [30, 30, 34, 34, 40, 44, 40],
            19,
        )
        sheet.paper(front_, PAPER)
        streaks = [
            slit(p, 44, a + d, 0.26)
            for d, p, a in (
                (0, (384, 290), 90),
                (0, (392, 330), 116),
                (0, (350, 376), 130),
                (0, (376, 372), 130),
                (0, (310, 420), 128),
                (0, (336, 420), 126),
                (0, (276, 470), 110),
                (0, (302, 474), 108),
                (0, (262, 520), 96),
                (0, (290, 530), 92),
                (0, (272, 574), 82),
                (0, (304, 590), 76),
                (0, (296, 634), 66),
            )
        ]
        sheet.paper(streaks, INK)


def wing(sheet: Sheet) -> None:
    """Black flight feathers below, grey coverts in rows, a dark shoulder."""
    flight = [
        feather((560 - 8 * i, 600 + 8 * i), 420 - 26 * i, 31 + 3.4 * i, 0.17, 0.86)
        for i in range(7)
    ]
    sheet.papers(reversed(flight), [INK], lift=1)
    second = [feather((500, 560), 400 - 22 * i, 24 + 6 * i, 0.2, 0.86) for i in range(7)]
    sheet.papers(reversed(second), [SLATE], lift=1)
    cap = closed(
        *knots("400,560 420,480 520,430 640,450 760,540 800,620 740,690 620,720 500,700 420,640")
    )
    sheet.paper(cap, SLATE, lift=2)
    hems = rows(
        cap,
        line(*knots("440,500 580,520 700,580 780,640")),
        (-50, -10, 30, 70, 110, 150),
        54,
        lambda p, a, n, i: crescent(p, 22, a, 0.3),
    )
    sheet.paper(hems, STONE)
    shoulder = closed(*knots("380,590! 392,510 440,460 500,440! 470,500 452,560 420,600"))
    sheet.paper(shoulder, INK, lift=1)
    plumes = [leaf((520 + 50 * i, 440 + 20 * i), 240, 38 + 2 * i, 0.13, -0.04) for i in range(4)]
    sheet.papers(plumes, [STONE], lift=1)


def head(sheet: Sheet) -> None:
    """Dagger bill, white face, black stripe running out into two plumes."""
    plumes = [
        ribbon(knots("380,130 470,140 560,200 620,290"), [16, 13, 8, 0]),
        ribbon(knots("380,140 450,164 520,240 550,340"), [14, 11, 7, 0]),
    ]
    sheet.paper(plumes, INK, lift=1.5)
    upper = closed(*knots("14,330! 110,232 200,164 250,150! 262,196! 200,230 110,280"))
    lower = closed(*knots("14,330! 130,286 220,250 280,236! 262,190! 160,246"))
    sheet.paper(lower, STRAW, lift=2)
    sheet.paper(upper, OCHRE, lift=1)
    skull = closed(
        *knots("214,206! 222,160 270,116 340,100 400,130 420,190 390,244 330,256 270,246")
    )
    sheet.paper(skull, PAPER, lift=2)
    cap = closed(*knots("268,132! 310,104 360,98 410,116 440,170! 400,164 350,150 306,146"))
    sheet.paper(cap, INK, lift=1)
    sheet.paper(closed(*knots("196,196! 230,168 262,160 284,178! 250,196")), SLATE)
    sheet.paper(ellipse((304, 176), 25), OCHRE)
    sheet.paper(ellipse((303, 176), 15), INK)
    sheet.paper(ellipse((298, 170), 5), PAPER)


def front(sheet: Sheet, rng: Random) -> None:
    """The minnow, rings round the leg, grass and seed heads in the corners."""
    rings = [
        ribbon(
            [
                (650 - w, 1120),
                (650 - w / 2, 1120 + w * 0.2),
                (650 + w / 2, 1120 + w * 0.2),
                (650 + w, 1120),
            ],
            [0, 6, 6, 0],
        )
        for w in (90, 150)
    ]
    sheet.paper(rings, MIST)
    fish = closed(
        *knots(
            "70,1090! 110,1066 170,1070 226,1092! 262,1068! 256,1096 266,1124! 226,1102! "
            "170,1118 112,1114"
        )
    )
    sheet.paper(fish, SAND, lift=2)
    sheet.paper(
        [ellipse((102, 1086), 6), *(slit((x, 1093), 22, 4, 0.3) for x in (140, 170, 200))], SLATE
    )
    for x in (8, 36, 930, 964, 996):
        sheet.paper(
            leaf((x, 1215), rng.uniform(110, 190), -90 + rng.uniform(-20, 20), 0.14), MOSS, lift=1
        )
