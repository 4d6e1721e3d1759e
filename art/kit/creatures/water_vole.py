"""A water vole sits on the bank and gnaws a stem."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from art.kit.curves import (
    Curve,
    Knot,
    along,
    closed,
    ellipse,
    knots,
    length,
    line,
    ribbon,
    step,
)
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
    SAND,
    SHELL,
    STONE,
    STRAW,
)
from art.kit.rows import clear_of, rows
from art.kit.sheet import Sheet

NAME = "Water vole"
CHAPTER = "mill pond"
DESCRIPTION = (
    "A water vole sits on its haunches among tall leaves by the mill pond: round and brown, with a "
    "blunt nose, ears hidden in its fur and a thin round tail. It holds a green stem and gnaws it."
)
SPOTS = {
    "hand": (19, 58.5),
    "shoulder": (52, 58.5),
    "back": (79, 39),
    "hip": (60.5, 83.5),
    "foot": (27.5, 90.5),
    "tail": (92.5, 88.5),
}
LINKS = ["shoulder-hand", "shoulder-back", "shoulder-hip", "hip-foot", "hip-tail"]

BODY = closed(
    *knots(
        "330,600 380,440 480,350 610,316 730,350 820,450 868,600 880,760 850,910 770,1020 640,1076 "
        "470,1080 370,1030 316,920 300,760"
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
    for x, tip, sway in knots(
        "20,120,40 70,-30,-30 140,40,60 210,-60,-20 300,90,50 640,-40,40 720,60,-40 800,-60,50 "
        "870,120,-30 930,20,40 985,-40,-30"
    ):
        sheet.paper(reed((x, 1200), (x + sway, tip), 19, -sway), SAGE)
    for x, tip, sway in knots("50,260,30 120,150,-50 900,190,60 960,330,-20"):
        sheet.paper(reed((x, 1200), (x + sway, tip), 17, -sway), MOSS, lift=1)
    kingcup(sheet, (250, 150), 96, -20)
    kingcup(sheet, (900, 130), 80, 10)
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


def tufts(course: Curve, size: float, spacing: float, lean: float) -> list[Curve]:
    """Fur that stands out over the edge it grows along."""
    count = round(length(course) / spacing)
    return [
        leaf(step(p, a + lean, -0.4 * size), size * (1 + 0.2 * (i % 3 - 1)), a + lean, 0.3)
        for i, (p, a) in enumerate(along(course, count))
    ]


def fur(sheet: Sheet, shape: Curve, course: Curve, offsets: Sequence[float], *bare: Curve) -> None:
    """Hairs in rows along a course, every third one paler."""
    hairs = rows(shape, course, offsets, 48, lambda p, a, n, i: slit(p, 34, a + 8, 0.2))
    hairs = clear_of(hairs, *bare)
    sheet.paper(hairs, RUST)
    sheet.paper(hairs[::3], OCHRE)


def tail(sheet: Sheet) -> None:
    """Thin and round, half as long as the body."""
    course = knots("740,1010 830,1084 920,1082 962,1000 940,900 904,850")
    shape = ribbon(course, [34, 26, 22, 18, 14, 8], 21)
    sheet.paper(shape, BARK, lift=3)
    hairs = rows(shape, line(*course), (-8, 8), 30, lambda p, a, n, i: slit(p, 20, a + 12, 0.22))
    sheet.paper(hairs, RUST)


def body(sheet: Sheet) -> None:
    """A barrel of brown fur that stands out along the back, paler on the belly."""
    back = line(*knots("560,322 730,350 820,450 868,600 880,760 850,910 770,1020"))
    sheet.paper([BODY, *tufts(back, 64, 30, -18)], BARK, lift=4)
    edge = line(*knots("390,600 440,700 456,820 480,920 560,1020"))
    with sheet.inside(BODY):
        belly = closed(
            *knots("250,560! 390,600 440,700 456,820 480,920 560,1020 600,1100! 200,1100!")
        )
        sheet.paper(belly, SAND)
        sheet.paper(tufts(edge, 60, 26, 62), BARK)
    course = line(*knots("500,400 640,370 750,450 808,600 818,760 770,930"))
    fur(sheet, BODY, course, (-36, 0, 36, 72, 108, 144, 180), belly)


def legs(sheet: Sheet) -> None:
    """A furry haunch and the long bare hind foot with five toes."""
    sole = ribbon(knots("600,1060 440,1084 306,1082"), [46, 34, 28])
    claws = toes((312, 1080), (150, 168, 186, 204, 222), 84, 11, 0.3)
    sheet.paper([sole, *claws], SHELL, lift=2)
    haunch = closed(
        *knots("436,980 466,860 550,790 660,790 744,860 764,960 710,1050 590,1084 480,1066")
    )
    ruff = line(*knots("450,900 550,792 660,790 744,860 764,960"))
    sheet.paper([haunch, *tufts(ruff, 46, 30, -24)], BARK, lift=2)
    course = line(*knots("480,930 570,840 680,850 730,950"))
    fur(sheet, haunch, course, (-24, 14, 52, 90))


def hands(sheet: Sheet) -> None:
    """Both hands round a green stem that goes to the mouth."""
    far = ribbon(knots("380,690 290,670 214,640"), [40, 34, 26])
    sheet.paper([far, *toes((222, 640), (150, 186, 222, 256), 60, 11, 0.5)], BARK, lift=1)
    stem = ribbon(knots("96,980 140,840 190,710 236,590"), [18, 19, 18, 17])
    sheet.paper(stem, FERN, lift=2)
    veins = [slit(p, 44, a, 0.16) for p, a in along(line(*knots("104,960 150,820 196,700")), 6)]
    sheet.paper(veins, MOSS)
    leafy = [leaf((110, 930), 150, -126, 0.2, 0.1), leaf((138, 850), 140, -10, 0.2, -0.14)]
    sheet.paper(leafy, FERN, lift=1.5)
    fingers = toes((226, 706), (160, 190, 222, 254), 72, 12, 0.5)
    sheet.paper(fingers, SHELL, lift=1)
    near = ribbon(knots("470,710 410,796,0 306,766 232,714"), [74, 60, 42, 34, 28], 13)
    sheet.paper(near, BARK, lift=3)
    fur(sheet, near, line(*knots("490,720 410,790 310,766")), (-28, 0, 28))


SKULL = closed(
    *knots(
        "184,520 176,470 190,420 232,366 300,314 390,284 480,304 548,370 566,470 540,570 470,640 "
        "370,664 280,652 214,616 190,570"
    )
)


def head(sheet: Sheet) -> None:
    """Blunt, broad-cheeked, the round ear almost lost in the fur."""
    nape = line(*knots("480,304 548,370 566,470 540,570 470,640"))
    sheet.paper([SKULL, *tufts(nape, 54, 30, -20)], BARK, lift=3)
    with sheet.inside(SKULL):
        cheek = closed(*knots("90,570! 196,566 240,590 280,630 320,680! 90,700!"))
        sheet.paper(cheek, SAND)
    ear = ellipse((486, 376), 40, 44)
    course = line(*knots("230,400 330,340 440,350 520,450"))
    eye_room = ellipse((318, 440), 60)
    fur(sheet, SKULL, course, (-34, 0, 36, 72, 108), eye_room, cheek, ear)
    sheet.paper(ear, BARK, lift=1.5)
    sheet.paper(crescent((490, 378), 30, -60, 0.5), SHELL)
    sheet.paper(tufts(line(*knots("430,372 460,416 520,426")), 50, 20, -60), BARK)
    sheet.paper(closed(*knots("178,506! 174,474 196,462 216,478! 208,502 190,514")), INK)
    sheet.paper(closed(*knots("214,594! 240,598 248,640! 222,640!")), OCHRE, lift=1)
    sheet.paper(ellipse((318, 440), 25), INK)
    sheet.paper(ellipse((310, 431), 7.5), PAPER)
    sheet.paper(crescent((318, 440), 31, -80, 0.18), STONE)
    whiskers = [
        ribbon([(224, 506 + 8 * i), (170 + 20 * i, 528 + 26 * i), tip], [3.2, 2.6, 0])
        for i, tip in enumerate(((60, 486), (56, 560), (84, 640)))
    ]
    sheet.paper(whiskers, INK)


def front(sheet: Sheet, rng: Random) -> None:
    """Grass on the edge of the bank."""
    blades = [
        leaf(
            (x, 1210),
            rng.uniform(70, 110),
            -90 + rng.uniform(-26, 26),
            0.16,
            rng.uniform(-0.1, 0.1),
        )
        for x in range(8, 1000, 36)
    ]
    sheet.papers(blades, [MOSS, FERN, MOSS], lift=1)
