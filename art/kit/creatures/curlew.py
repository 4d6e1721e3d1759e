"""A curlew strides over the mud with a ragworm in its bill."""

from __future__ import annotations

from random import Random

from art.kit.curves import closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import crescent, feather, leaf, ripple, slit
from art.kit.limbs import toes
from art.kit.palette import (
    BARK,
    INK,
    MIST,
    MOSS,
    PAPER,
    POOL,
    RUST,
    SAGE,
    SAND,
    SHELL,
    SLATE,
    STONE,
    STRAW,
)
from art.kit.rows import rows
from art.kit.sheet import Sheet

NAME = "Curlew"
CHAPTER = "salt marsh"
DESCRIPTION = (
    "A curlew, a tall brown streaked wading bird on long legs, strides over the mud of the salt "
    "marsh. A worm hangs from the tip of its very long bill, which curves downwards like a sickle."
)
SPOTS = {
    "neck": (36, 37.5),
    "wing": (68, 43),
    "breast": (45, 56.5),
    "tail": (92.5, 58),
    "thigh": (59, 68),
    "foot": (46, 92.5),
    "other_foot": (76.5, 90),
}
LINKS = ("wing-neck", "wing-breast", "wing-tail", "wing-thigh", "thigh-foot", "thigh-other_foot")

BODY = closed(
    *knots(
        "352,150 398,110 444,130 452,196 432,266 434,330 470,380 560,396 680,424 800,490 "
        "880,560 930,628! 860,672 760,724 650,758 540,756 440,724 360,650 308,560 300,470 328,380 "
        "356,300 366,230 350,190"
    )
)


def draw() -> Sheet:
    sheet = Sheet("curlew")
    rng = Random(51)
    sheet.ground(MIST, PAPER, seed=15)
    habitat(sheet, rng)
    sheet.layer("creature")
    leg_far(sheet)
    tail(sheet)
    leg_near(sheet)
    body(sheet)
    wing(sheet)
    head(sheet)
    worm(sheet)
    return sheet


def habitat(sheet: Sheet, rng: Random) -> None:
    """Wet mud with a creek in it, glasswort, and a far bank."""
    clouds = [
        ripple([(x, y), (x + w / 3, y - 12), (x + w * 0.66, y + 12), (x + w, y)], 13)
        for x, y, w in knots("560,90,360 640,140,300 700,230,290 20,700,220 90,745,200")
    ]
    sheet.paper(clouds, PAPER)
    hills = closed(
        *knots("-10,770! 120,736 300,760 480,740 700,700 880,716 1010,690! 1010,900! -10,900!")
    )
    sheet.paper(hills, POOL)
    bank = closed(*knots("-10,800! 160,770 420,800 700,776 1010,806! 1010,900! -10,900!"))
    sheet.paper(bank, SAGE)
    creek = closed(*knots("-10,850! 300,836 700,856 1010,840! 1010,1100! -10,1100!"))
    sheet.paper(creek, POOL)
    mud = closed(*knots("-10,990! 130,1000 300,960 520,980 760,950 1010,985! 1010,1210! -10,1210!"))
    sheet.paper(mud, SAND, lift=2)
    puddles = [
        ripple([(x, y), (x + w / 3, y - 8), (x + w * 0.66, y + 8), (x + w, y)], 11)
        for x, y, w in knots("40,1060,150 700,1030,210 640,1150,180 120,1170,170 860,1110,120")
    ]
    sheet.paper(puddles, POOL)
    flecks = [
        slit((rng.uniform(10, 990), rng.uniform(1010, 1190)), rng.uniform(14, 34), 0, 0.4)
        for _ in range(60)
    ]
    sheet.paper(flecks, STONE)
    waves = [
        ripple([(x, y), (x + 36, y - 9), (x + 74, y + 8), (x + 112, y)], 5)
        for x, y in knots("60,900 240,930 690,900 830,930 860,880 30,950")
    ]
    sheet.paper(waves, PAPER)
    for x, y, size in knots("60,1010,120 130,1020,86 930,1010,130 860,990,80"):
        sprig = [leaf((x, y), size, a, 0.2) for a in (-120, -104, -90, -74, -58)]
        sheet.paper(sprig, MOSS, lift=1)


def leg_far(sheet: Sheet) -> None:
    """Long and thin, the heel bent backwards; the foot is just lifting off."""
    shank = ribbon(knots("640,730 690,800 742,892,0 760,980 790,1060"), [40, 26, 17, 13, 12], 17)
    sheet.paper([shank, *toes((790, 1060), (128, 152, 176), 92, 10, 0.3)], SLATE, lift=1.5)


def leg_near(sheet: Sheet) -> None:
    """The thigh is feathered; below the heel there is nothing but bone."""
    shank = ribbon(knots("560,730 572,820 590,910,0 530,1010 462,1120"), [44, 28, 18, 14, 13], 17)
    claws = toes((462, 1120), (190, 168, 146, 18), 104, 11, 0.3)
    sheet.paper([shank, *claws], SLATE, lift=2)
    sheet.paper(ribbon(knots("556,700 566,770 578,840"), [74, 50, 20]), SAND, lift=1)


def tail(sheet: Sheet) -> None:
    """Barred, with a white rump above it."""
    for angle in (46, 38, 30, 22):
        quill = feather((780, 540), 210, angle, 0.3, 0.9)
        sheet.paper(quill, STRAW, lift=1)
        bars = [slit(step((780, 540), angle, r), 52, angle + 78, 0.26) for r in range(96, 206, 26)]
        with sheet.inside(quill):
            sheet.paper(bars, BARK)


def body(sheet: Sheet) -> None:
    """Streaks on the neck and breast, arrowheads on the flank, a pale belly."""
    sheet.paper(BODY, STRAW, lift=3)
    with sheet.inside(BODY):
        belly = closed(*knots("390,700! 480,670 620,690 760,660 880,590! 880,800! 400,800!"))
        sheet.paper(belly, SAND)
    streaks = rows(
        BODY,
        line(*knots("406,220 396,310 400,420 450,560 580,700")),
        (-60, -24, 12, 48, 84, 120),
        46,
        lambda p, a, n, i: slit(p, 32, a, 0.3),
    )
    sheet.paper(streaks, BARK)


def wing(sheet: Sheet) -> None:
    """Long black quills at the end; before them rows of brown feathers with pale hems."""
    quills = [
        feather((660 - 8 * i, 560 - 12 * i), 300 - 8 * i, 24 - 2 * i, 0.2, 0.86) for i in range(4)
    ]
    sheet.papers(quills, [INK, BARK], lift=1)
    cloak = closed(
        *knots(
            "450,474 484,420 560,400 690,440 800,500 "
            "890,584 870,622 770,650 650,664 540,636 472,570"
        )
    )
    sheet.paper(cloak, BARK, lift=2)
    hems = rows(
        cloak,
        line(*knots("450,430 570,420 720,480 880,600")),
        (-30, 6, 42, 78, 114, 150, 186),
        52,
        lambda p, a, n, i: crescent(p, 21, a + 8, 0.32),
    )
    sheet.paper(hems, STRAW)


def head(sheet: Sheet) -> None:
    """Small, pale round the eye; the bill three times as long as the head."""
    bill = ribbon(knots("366,168 280,164 190,204 116,300 80,440"), [18, 15, 12, 9, 6], 17)
    sheet.paper(bill, INK, lift=2)
    sheet.paper(ribbon(knots("360,180 284,177 216,206 168,250"), [9, 8, 6, 0], 11), SHELL)
    skull = closed(*knots("338,172 344,126 388,90 440,98 468,144 460,200 424,236 370,220"))
    sheet.paper(skull, STRAW)
    with sheet.inside(skull):
        cap = closed(*knots("330,142! 366,124 410,120 450,138 480,172! 480,70! 330,70!"))
        sheet.paper(cap, BARK)
        sheet.paper([slit((x, 106), 34, a, 0.3) for x, a in ((382, -20), (418, 6))], STRAW)
        cheek = knots("440,182,70 420,206,40 394,210,10 446,206,80")
        sheet.paper([slit((x, y), 24, a, 0.34) for x, y, a in cheek], BARK)
    sheet.paper(slit((376, 152), 56, -8, 0.4), SAND)
    sheet.paper(ellipse((394, 160), 20), SAND)
    sheet.paper(ellipse((394, 160), 15), INK)
    sheet.paper(crescent((394, 160), 9, -50, 0.55), PAPER)


def worm(sheet: Sheet) -> None:
    sheet.paper(
        ribbon(
            knots("34,380 66,416 84,450 68,494 100,544 68,594 98,654"),
            [6, 10, 11, 11, 10, 8, 0],
            21,
        ),
        RUST,
        lift=1,
    )
