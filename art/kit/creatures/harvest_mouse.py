"""A harvest mouse climbs a stem, its tail wound round it."""

from __future__ import annotations

from random import Random

from art.kit.curves import along, closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import crescent, leaf, reed, slit
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
    SHELL,
    STRAW,
)
from art.kit.rows import clear_of, rows
from art.kit.sheet import Sheet

NAME = "Harvest mouse"
CHAPTER = "reed bed"
DESCRIPTION = (
    "A harvest mouse, orange with a white belly, climbs up a reed stem. It holds on with hands and "
    "feet, its long tail is wound round the stem while its dark eye looks out for owls."
)
SPOTS = {
    "shoulder": (56.5, 42),
    "hip": (69, 63),
    "foot": (35, 74.5),
    "tail": (80, 89),
    "bend": (48, 91.5),
    "tail_tip": (22, 81),
}
LINKS = ("shoulder-hip", "hip-foot", "hip-tail", "tail-bend", "bend-tail_tip")

BODY = closed(
    *knots(
        "330,430 420,330 560,300 690,370 790,500 840,660 820,800 730,900 600,930 470,890 400,790 "
        "350,640 320,520"
    )
)


def draw() -> Sheet:
    sheet = Sheet("harvest-mouse")
    rng = Random(73)
    sheet.ground(SAND, PAPER, seed=28)
    habitat(sheet, rng)
    sheet.layer("creature")
    far_limbs(sheet)
    tail(sheet)
    body(sheet)
    limbs(sheet)
    head(sheet)
    sheet.layer("front")
    front(sheet, rng)
    return sheet


STEM = knots("330,1210 290,800 250,400 236,-10")
TAIL = knots(
    "740,850 830,950 830,1050 720,1096 560,1096 420,1110 330,1090 236,1040 250,990 330,980"
)


def habitat(sheet: Sheet, rng: Random) -> None:
    """The round nest woven of blades, reeds behind, and the stem it climbs."""
    for x, tip in knots("40,60 110,300 700,120 800,500 880,60 960,240"):
        sheet.paper(
            reed((x, 1210), (x + rng.uniform(-30, 30), tip), 12, rng.uniform(-14, 14)), SAGE
        )
    nest = ellipse((850, 190), 150, 140)
    sheet.paper(ribbon(knots("880,1210 860,700 850,-10"), [12, 12, 9]), SAGE, lift=1)
    sheet.paper(nest, STRAW, lift=2)
    for i in range(22):
        start = 137.5 * i
        course = [
            step((850, 190), start, 150),
            step((850, 190), start + 60 + 3 * i, 84 - 3 * i),
            step((850, 190), start + 140, 150),
        ]
        with sheet.inside(nest):
            sheet.paper(ribbon(course, [4, 6, 4]), (SAND, OCHRE, SAGE)[i % 3])
    stray = [leaf(step((850, 190), a, 132), 60, a + 50, 0.14) for a in (100, 150, 190, 236, 270)]
    sheet.paper(stray, STRAW)
    sheet.paper(ellipse((800, 222), 36, 32), BARK)
    for x, y, a in knots("290,800,-150 268,560,-40 244,250,-30 240,140,-150"):
        sheet.paper(leaf((x, y), 230, a, 0.12, 0.1 if a > -90 else -0.1), MOSS, lift=1)
    sheet.paper(ribbon(STEM, [26, 24, 20, 16]), FERN, lift=2)


def far_limbs(sheet: Sheet) -> None:
    arm = ribbon(knots("420,640 350,690 300,730"), [60, 44, 26])
    sheet.paper(toes((298, 732), (120, 154, 188, 222), 70, 12, 0.5), SHELL, lift=1)
    sheet.paper(arm, RUST, lift=1)


def tail(sheet: Sheet) -> None:
    """Nearly as long as the mouse, and its fifth hand."""
    shape = ribbon(TAIL, [46, 30, 27, 25, 23, 22, 20, 18, 15, 10], 50)
    sheet.paper(shape, SHELL, lift=2)
    rings = [slit(p, 22, a + 90, 0.26) for p, a in along(line(*TAIL), 50)]
    with sheet.inside(shape):
        sheet.paper(rings[2:], RUST)
    sheet.paper(ribbon(knots("312,1060 304,960 300,920"), [25, 25, 24]), FERN)
    sheet.paper(ribbon(knots("250,990 290,976 340,976"), [15, 15, 9]), SHELL, lift=2)


def body(sheet: Sheet) -> None:
    sheet.paper(BODY, RUST, lift=4)
    with sheet.inside(BODY):
        belly = closed(*knots("300,420! 400,520 430,640 470,760 540,860 640,960! 300,960!"))
        sheet.paper(belly, PAPER)
    hairs = rows(
        BODY,
        line(*knots("480,340 620,340 740,460 800,620 770,800")),
        (0, 40, 80, 120, 160, 200, 240),
        56,
        lambda p, a, n, i: slit(p, 30, a + 10, 0.22),
    )
    sheet.paper(clear_of(hairs, belly), OCHRE)


def limbs(sheet: Sheet) -> None:
    """Pink feet and hands, each clasped round the stem."""
    sole = ribbon(knots("620,900 460,906 330,880"), [46, 36, 26])
    sheet.paper([sole, *toes((330, 878), (150, 178, 206, 234, 300), 84, 13, 0.5)], SHELL, lift=2)
    thigh = closed(*knots("470,810 510,700 620,640 730,670 780,780 740,880 640,930 530,910"))
    sheet.paper(thigh, RUST, lift=2)
    curls = rows(
        thigh,
        line(*knots("520,820 570,730 670,700 730,790")),
        (0, 42, 84),
        50,
        lambda p, a, n, i: slit(p, 28, a + 10, 0.22),
    )
    sheet.paper(curls, OCHRE)
    sheet.paper(toes((296, 606), (140, 174, 208, 242), 74, 12, 0.5), SHELL, lift=2)
    arm = ribbon(knots("510,530 430,640,0 300,610"), [74, 56, 36, 26, 22], 13)
    sheet.paper(arm, RUST, lift=2)
    strands = rows(
        arm,
        line(*knots("500,540 430,634 330,616")),
        (-24, 0, 24),
        44,
        lambda p, a, n, i: slit(p, 26, a, 0.22),
    )
    sheet.paper(strands, OCHRE)


def head(sheet: Sheet) -> None:
    """Short nose, large dark eye, small round ears, long whiskers."""
    ear = closed(*knots("306,210 270,150 290,96 340,90 376,130 370,200"))
    sheet.paper(ear, RUST, lift=1)
    sheet.paper(ear.scaled(0.6, about=(326, 160)), BARK)
    skull = closed(
        *knots(
            "126,404 140,356 190,310 240,244 330,204 430,214 506,290 514,390 450,466 350,494 "
            "250,478 180,450 140,430"
        )
    )
    sheet.paper(skull, RUST, lift=3)
    with sheet.inside(skull):
        cheek = closed(*knots("100,420! 180,414 250,430 320,470 420,480 480,520! 100,520!"))
        sheet.paper(cheek, PAPER)
    near = closed(*knots("396,260 376,190 400,126 460,110 516,150 520,220 480,280 430,290"))
    fur = rows(
        skull,
        line(*knots("190,356 280,270 380,280 470,360")),
        (-30, 0, 40, 80, 116),
        46,
        lambda p, a, n, i: slit(p, 24, a + 10, 0.24),
    )
    sheet.paper(clear_of(fur, ellipse((300, 330), 70), cheek, near), OCHRE)
    sheet.paper(near, RUST, lift=2)
    sheet.paper(near.scaled(0.68, about=(450, 210)), SHELL)
    sheet.paper(ellipse((300, 330), 41), INK)
    sheet.paper(ellipse((286, 316), 12), PAPER)
    sheet.paper(crescent((300, 330), 50, 90, 0.14), OCHRE)
    sheet.paper(closed(*knots("116,406! 122,380 148,374 160,394! 148,412 130,416")), SHELL, lift=1)
    whiskers = [
        ribbon([(176 + 10 * i, 410 + 6 * i), middle, tip], [3, 2.6, 0])
        for i, (middle, tip) in enumerate(
            (((110, 440), (50, 440)), ((130, 480), (64, 520)), ((170, 510), (120, 590)))
        )
    ]
    sheet.paper(whiskers, BARK)


def front(sheet: Sheet, rng: Random) -> None:
    tufts = [
        leaf((x, 1215), rng.uniform(80, 150), -90 + rng.uniform(-24, 24), 0.14)
        for x in (6, 40, 80, 130, 180, 860, 900, 940, 980)
    ]
    sheet.papers(tufts, [MOSS, FERN], lift=1)
