"""A water vole sits on the bank and gnaws a stem."""

from __future__ import annotations

from random import Random

from art.kit.curves import Knot, along, closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import crescent, leaf, reed, ripple, slit
from art.kit.limbs import toes
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
    SHELL,
    STONE,
    STRAW,
)
from art.kit.rows import clear_of, rows
from art.kit.sheet import Sheet

NAME = "Water vole"
CHAPTER = "mill pond"
DESCRIPTION = (
    "A water vole, round and brown with a blunt nose and hardly any ears, sits up on the bank "
    "of the mill pond. It holds a green stem in both hands and gnaws it, one eye on you."
)
SPOTS = {
    "hand": (17, 57.5),
    "shoulder": (53, 48.5),
    "back": (79, 26.5),
    "hip": (61, 74),
    "foot": (29, 86),
    "tail": (90, 89.5),
}
LINKS = ["shoulder-hand", "shoulder-back", "shoulder-hip", "hip-foot", "hip-tail"]

BODY = closed(
    *knots(
        "330,420 430,250 560,176 700,176 820,260 890,420 920,640 890,830 800,970 620,1040 400,1030 "
        "300,920 284,760 316,580"
    )
)


def draw() -> Sheet:
    sheet = Sheet("water-vole")
    rng = Random(53)
    sheet.ground(MIST, PAPER, seed=19)
    habitat(sheet, rng)
    sheet.layer("creature")
    tail(sheet)
    body(sheet)
    legs(sheet)
    head(sheet)
    hands(sheet)
    sheet.layer("front")
    front(sheet, rng)
    return sheet


def habitat(sheet: Sheet, rng: Random) -> None:
    """The pond, and reed blades behind the bank."""
    pond = closed(*knots("-10,660! 260,640 560,664 800,646 1010,660! 1010,1210! -10,1210!"))
    sheet.paper(pond, POOL, lift=1)
    waves = [
        ripple([(x, y), (x + w / 3, y - 9), (x + w * 0.66, y + 8), (x + w, y)], 6)
        for x, y, w in knots("20,720,150 30,860,120 900,740,120 10,940,170 930,840,90")
    ]
    sheet.paper(waves, MIST)
    for x, tip, sway in knots("40,150,30 90,330,-24 130,60,24 960,60,-30 920,240,20 990,330,-10"):
        sheet.paper(reed((x, 1200), (x + sway, tip), 15, -sway), SAGE)
    kingcup(sheet, (86, 250), 92, -20)
    kingcup(sheet, (930, 150), 76, 10)
    bank = closed(*knots("-10,1060! 160,1040 420,1080 700,1070 1010,1020! 1010,1210! -10,1210!"))
    sheet.paper(bank, SAGE, lift=2)


def kingcup(sheet: Sheet, at: Knot, size: float, turn: float) -> None:
    """A marsh marigold: it tells how small a vole is."""
    stalk = ribbon([at, (at[0] + 20, at[1] + 220), (at[0] - 10, 1200)], [8, 9, 10])
    sheet.paper(stalk, MOSS)
    petals = [
        ellipse(step(at, turn + a, size * 0.56), size * 0.46, size * 0.4, turn + a)
        for a in range(0, 360, 72)
    ]
    sheet.papers(petals, [OCHRE], lift=1)
    sheet.paper(ellipse(at, size * 0.26), STRAW, lift=0.6)
    stamens = [slit(step(at, a, size * 0.15), size * 0.2, a, 0.3) for a in range(0, 360, 45)]
    sheet.paper(stamens, OCHRE)


def tail(sheet: Sheet) -> None:
    course = knots("720,960 800,1064 900,1080 944,980 906,850")
    shape = ribbon(course, [54, 42, 34, 24, 0])
    sheet.paper(shape, BARK, lift=3)
    hairs = rows(shape, line(*course), (-12, 12), 34, lambda p, a, n, i: slit(p, 24, a + 12, 0.22))
    sheet.paper(hairs, RUST)


def body(sheet: Sheet) -> None:
    """A barrel of brown fur, paler on the belly."""
    sheet.paper(BODY, BARK, lift=4)
    with sheet.inside(BODY):
        belly = closed(*knots("250,480! 380,560 430,680 430,800 470,900 560,1060! 200,1060!"))
        sheet.paper(belly, STONE)
    hairs = rows(
        BODY,
        line(*knots("470,250 660,250 800,420 830,660 760,900")),
        (-40, 0, 40, 80, 120, 160, 200, 240),
        58,
        lambda p, a, n, i: slit(p, 32, a + 8, 0.22),
    )
    sheet.paper(clear_of(hairs, belly), RUST)


def legs(sheet: Sheet) -> None:
    """A furry thigh and the long bare hind foot with five toes."""
    sole = ribbon(knots("640,1010 470,1050 330,1046"), [60, 44, 36])
    claws = toes((340, 1046), (156, 170, 184, 198, 212), 96, 14, 0.3)
    sheet.paper([sole, *claws], SHELL, lift=2)
    thigh = closed(
        *knots("440,900 480,770 580,690 700,680 800,760 816,880 750,990 610,1040 480,1010")
    )
    sheet.paper(thigh, BARK, lift=2)
    hairs = rows(
        thigh,
        line(*knots("500,840 620,760 740,800 760,920")),
        (0, 44, 88),
        54,
        lambda p, a, n, i: slit(p, 30, a + 8, 0.22),
    )
    sheet.paper(hairs, RUST)


def hands(sheet: Sheet) -> None:
    """Both hands round a green stem that goes to the mouth."""
    far = ribbon(knots("330,640 250,640 206,610"), [50, 38, 30])
    sheet.paper(far, BARK, lift=1)
    stem = ribbon(knots("60,960 110,800 180,640 236,520"), [20, 21, 20, 19])
    sheet.paper(stem, FERN, lift=2)
    sheet.paper(
        [slit(p, 44, a, 0.16) for p, a in along(line(*knots("70,940 120,780 186,630")), 6)], MOSS
    )
    leafy = [leaf((84, 890), 170, -120, 0.2, 0.1), leaf((110, 800), 150, -20, 0.2, -0.14)]
    sheet.paper(leafy, MOSS, lift=1.5)
    near = ribbon(knots("470,640 400,770,0 300,740 224,680"), [84, 66, 44, 38, 32], 13)
    fingers = toes((214, 668), (160, 192, 224, 256), 74, 13, 0.5)
    sheet.paper(fingers, SHELL, lift=1)
    sheet.paper(near, BARK, lift=3)
    hairs = rows(
        near,
        line(*knots("470,640 400,760 300,740")),
        (-30, 0, 30),
        44,
        lambda p, a, n, i: slit(p, 28, a, 0.22),
    )
    sheet.paper(hairs, RUST)


SKULL = closed(
    *knots(
        "130,476 128,414 162,332 248,254 370,200 480,212 560,290 580,400 540,500 450,580 320,600 "
        "220,584 166,556 136,520"
    )
)


def head(sheet: Sheet) -> None:
    """Blunt, broad-cheeked, the round ear almost lost in the fur."""
    sheet.paper(SKULL, BARK, lift=3)
    with sheet.inside(SKULL):
        cheek = closed(*knots("90,508! 180,508 260,544 320,640! 90,640!"))
        sheet.paper(cheek, STONE)
    ear = closed(*knots("440,330 440,270 484,236 530,256 540,310 510,350"))
    hairs = rows(
        SKULL,
        line(*knots("210,350 340,290 470,330 520,440")),
        (-40, 0, 40, 80, 120, 160),
        50,
        lambda p, a, n, i: slit(p, 26, a + 8, 0.24),
    )
    sheet.paper(
        clear_of(hairs, ellipse((284, 366), 66), cheek, ear.scaled(1.3, about=(490, 300))), RUST
    )
    sheet.paper(ear, BARK, lift=2)
    sheet.paper(crescent((490, 300), 38, -70, 0.5), SHELL)
    sheet.paper(closed(*knots("134,480! 130,450 156,442 174,460! 164,484 144,490")), INK)
    sheet.paper(closed(*knots("196,548! 226,556 232,600 216,606! 200,596")), OCHRE, lift=1)
    sheet.paper(ellipse((290, 366), 27), INK)
    sheet.paper(ellipse((281, 356), 8), PAPER)
    sheet.paper(crescent((290, 366), 34, -80, 0.18), STONE)
    whiskers = [
        ribbon([(176, 478 + 8 * i), (130 + 20 * i, 500 + 26 * i), tip], [3.2, 2.6, 0])
        for i, tip in enumerate(((20, 440), (14, 520), (40, 610)))
    ]
    sheet.paper(whiskers, STONE)


def front(sheet: Sheet, rng: Random) -> None:
    """Grass on the edge of the bank."""
    blades = [
        leaf(
            (x, 1210),
            rng.uniform(90, 150),
            -90 + rng.uniform(-26, 26),
            0.16,
            rng.uniform(-0.1, 0.1),
        )
        for x in range(8, 1000, 36)
    ]
    sheet.papers(blades, [MOSS, FERN, MOSS], lift=1)
