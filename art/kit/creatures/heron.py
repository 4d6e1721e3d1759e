"""A grey heron wades and aims at a minnow."""

from __future__ import annotations

from random import Random

from art.kit.curves import along, closed, ellipse, knots, line, ribbon, step
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
    "neck": (41, 23),
    "breast": (31, 48.5),
    "wing": (63.5, 47.5),
    "tail": (92, 64.5),
    "lifted_foot": (33.5, 80.5),
    "foot": (65.5, 90),
}
LINKS = ["neck-breast", "breast-wing", "wing-tail", "wing-lifted_foot", "wing-foot"]

BODY = closed(
    *knots(
        "266,580 284,500 360,446 480,436 620,468 750,540 860,640 930,720 976,790! 890,790 790,760 "
        "680,742 560,736 440,712 340,670 284,630"
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
        sprays = [
            leaf((x + sway + 2 * i, top + 6 - 13 * i), 62 - 5 * i, 64 - 19 * i, 0.17, -0.14)
            for i in range(8)
        ]
        sheet.paper(sprays, STONE)
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
    for joints, toes_at in (
        (knots("600,700 690,936,0 654,1134"), (176, 158, 20, 140)),
        (knots("500,690 556,900,0 338,960"), (110, 132, 152, 60)),
    ):
        claws = toes(joints[-1], toes_at, 100, 10, 0.3)
        sheet.paper([ribbon(joints, [52, 26, 13, 11, 12], 13), *claws], BARK, lift=2)


def body(sheet: Sheet) -> None:
    sheet.paper(BODY, STONE, lift=3)
    plumes = [
        leaf((316 + 34 * i, 610 + 18 * i), 176 - 8 * i, 108 - 5 * i, 0.16, 0.06) for i in range(5)
    ]
    sheet.papers(plumes, [PAPER, STONE], lift=1)


NECK = knots("276,172 348,150 412,190 432,270 400,360 344,440 310,520 336,610")


def neck(sheet: Sheet) -> None:
    """A long S, white and streaked down its front."""
    shape = ribbon(NECK, [34, 36, 38, 40, 44, 58, 72, 66], 25)
    sheet.paper(shape, STONE, lift=3)
    course = knots("296,206 350,190 388,220 398,270 370,340 308,420 264,510 292,640")
    with sheet.inside(shape):
        sheet.paper(ribbon(course, [24, 24, 24, 26, 30, 34, 40, 34], 25), PAPER)
    streaks = [
        slit(step(p, a + 90, side), 34, a + 4, 0.28)
        for side, skip in ((-17, 0), (5, 1))
        for p, a in along(line(*course), 29)[10 + skip : 28 : 2]
    ]
    sheet.paper([streak for streak in streaks if shape.holds(streak)], INK)


def wing(sheet: Sheet) -> None:
    """Black flight feathers below, grey coverts in rows, a dark shoulder."""
    flight = [
        feather((570 - 8 * i, 586 + 6 * i), 412 - 26 * i, 25 + 3.2 * i, 0.16, 0.86)
        for i in range(6)
    ]
    sheet.papers(reversed(flight), [INK], lift=1)
    second = [feather((500, 550), 392 - 22 * i, 19 + 5.4 * i, 0.19, 0.86) for i in range(6)]
    sheet.papers(reversed(second), [SLATE], lift=1)
    cap = closed(
        *knots("380,560 400,490 490,446 610,470 730,550 780,616 740,670 620,690 500,676 410,630")
    )
    sheet.paper(cap, SLATE, lift=2)
    hems = rows(
        cap,
        line(*knots("420,500 560,510 680,570 770,640")),
        (-50, -12, 26, 64, 102, 140),
        52,
        lambda p, a, n, i: crescent(p, 21, a, 0.3),
    )
    sheet.paper(hems, STONE)
    shoulder = closed(*knots("362,590! 372,520 414,470 470,450! 446,506 430,556 400,594"))
    sheet.paper(shoulder, INK, lift=1)
    plumes = [leaf((500 + 50 * i, 446 + 18 * i), 236, 32 + 2 * i, 0.12, -0.04) for i in range(4)]
    sheet.papers(plumes, [STONE], lift=1)


def head(sheet: Sheet) -> None:
    """Dagger bill, white face, black stripe running out into two plumes."""
    plumes = [
        ribbon(knots("330,122 410,122 500,166 566,246"), [12, 11, 7, 0]),
        ribbon(knots("330,130 396,142 470,200 508,286"), [11, 9, 6, 0]),
    ]
    sheet.paper(plumes, INK, lift=1.5)
    lower = closed(*knots("20,300! 120,254 196,216 250,200! 236,166! 140,216"))
    upper = closed(*knots("20,300! 100,214 176,156 220,140! 232,178! 180,206 104,254"))
    sheet.paper(lower, STRAW, lift=2)
    sheet.paper(upper, OCHRE, lift=1)
    skull = closed(
        *knots("196,186! 200,150 240,112 296,98 346,120 364,166 340,206 292,218 240,208")
    )
    sheet.paper(skull, PAPER, lift=2)
    cap = closed(*knots("238,126! 270,102 312,94 352,112 376,152! 340,148 304,138 266,138"))
    sheet.paper(cap, INK, lift=1)
    sheet.paper(closed(*knots("180,178! 206,152 232,146 250,160! 226,176")), SLATE)
    sheet.paper(ellipse((268, 160), 21), OCHRE)
    sheet.paper(ellipse((267, 160), 13), INK)
    sheet.paper(ellipse((263, 155), 4.5), PAPER)


def front(sheet: Sheet, rng: Random) -> None:
    """The minnow, rings round the leg, grass and seed heads in the corners."""
    rings = [
        ribbon(
            [
                (654 - w, 1120),
                (654 - w / 2, 1120 + w * 0.2),
                (654 + w / 2, 1120 + w * 0.2),
                (654 + w, 1120),
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
