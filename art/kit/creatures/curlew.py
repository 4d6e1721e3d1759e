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
    "A curlew, a tall brown streaked wading bird, strides over the mud of the salt marsh. A worm "
    "hangs from the tip of its very long bill, which curves downwards like a sickle."
)
SPOTS = {
    "neck": (34, 25.5),
    "wing": (64, 36.5),
    "tail": (92.5, 50),
    "thigh": (58, 62.5),
    "foot": (48, 88),
}
LINKS = ["wing-neck", "wing-tail", "wing-thigh", "thigh-foot"]

BODY = closed(
    *knots(
        "300,150 350,90 404,120 420,200 466,284 560,312 700,372 820,450 900,540! 830,640 "
        "730,720 610,764 490,748 400,690 336,610 294,510 296,430 322,340 304,240"
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
    shank = ribbon([(640, 700), (700, 880, 0), (800, 1030)], [36, 20, 18, 15, 14], 13)
    sheet.paper([shank, *toes((800, 1030), (130, 158, 184), 96, 12, 0.3)], SLATE, lift=1.5)


def leg_near(sheet: Sheet) -> None:
    shank = ribbon([(560, 720), (566, 890, 0), (450, 1090)], [42, 22, 20, 16, 16], 13)
    claws = toes((450, 1090), (184, 160, 132, 20), 108, 13, 0.3)
    sheet.paper([shank, *claws], SLATE, lift=2)


def tail(sheet: Sheet) -> None:
    """Barred, with a white rump above it."""
    for angle in (44, 36, 28, 20):
        quill = feather((760, 480), 236, angle, 0.3, 0.9)
        sheet.paper(quill, STRAW, lift=1)
        bars = [slit(step((760, 480), angle, r), 56, angle + 78, 0.26) for r in range(110, 230, 26)]
        with sheet.inside(quill):
            sheet.paper(bars, BARK)


def body(sheet: Sheet) -> None:
    """Streaks on the neck and breast, arrowheads on the flank, a pale belly."""
    sheet.paper(BODY, STRAW, lift=3)
    with sheet.inside(BODY):
        belly = closed(*knots("380,690! 480,660 620,680 760,640 860,560! 860,800! 400,800!"))
        sheet.paper(belly, SAND)
    streaks = rows(
        BODY,
        line(*knots("360,200 372,300 420,420 500,560 620,690")),
        (-60, -20, 20, 56, 92, 128),
        46,
        lambda p, a, n, i: slit(p, 32, a, 0.3),
    )
    sheet.paper(streaks, BARK)


def wing(sheet: Sheet) -> None:
    """Long black quills at the end; before them rows of brown feathers with pale hems."""
    quills = [
        feather((640 - 8 * i, 540 - 12 * i), 300 - 8 * i, 22 - 2 * i, 0.2, 0.86) for i in range(4)
    ]
    sheet.papers(quills, [INK, BARK], lift=1)
    cloak = closed(
        *knots(
            "404,420 450,356 540,336 680,376 800,450 880,540 850,590 740,620 620,640 500,606 "
            "430,530"
        )
    )
    sheet.paper(cloak, BARK, lift=2)
    hems = rows(
        cloak,
        line(*knots("420,380 560,380 700,440 860,560")),
        (-30, 6, 42, 78, 114, 150, 186),
        52,
        lambda p, a, n, i: crescent(p, 21, a + 8, 0.32),
    )
    sheet.paper(hems, STRAW)


def head(sheet: Sheet) -> None:
    """Small, pale round the eye; the bill three times as long as the head."""
    bill = ribbon(knots("320,150 236,148 156,190 98,280 66,420"), [19, 16, 13, 10, 7], 17)
    sheet.paper(bill, INK, lift=2)
    sheet.paper(ribbon(knots("316,163 240,162 184,186 146,226"), [9, 8, 6, 0], 11), SHELL)
    skull = closed(*knots("292,160 296,112 340,72 398,84 430,134 418,190 384,226 326,210"))
    sheet.paper(skull, STRAW)
    with sheet.inside(skull):
        cap = closed(*knots("286,128! 320,108 366,104 410,124 440,160! 440,60! 290,60!"))
        sheet.paper(cap, BARK)
        sheet.paper([slit((x, 92), 34, a, 0.3) for x, a in ((336, -20), (372, 6))], STRAW)
        cheek = knots("400,170,70 380,196,40 352,200,10 412,196,80")
        sheet.paper([slit((x, y), 24, a, 0.34) for x, y, a in cheek], BARK)
    sheet.paper(slit((330, 136), 60, -8, 0.4), SAND)
    sheet.paper(ellipse((350, 146), 21), SAND)
    sheet.paper(ellipse((350, 146), 16), INK)
    sheet.paper(crescent((350, 146), 10, -50, 0.55), PAPER)


def worm(sheet: Sheet) -> None:
    sheet.paper(
        ribbon(
            knots("20,360 52,396 70,430 54,474 86,524 54,574 84,634"), [6, 10, 11, 11, 10, 8, 0], 21
        ),
        RUST,
        lift=1,
    )
