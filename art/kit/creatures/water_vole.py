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
    "A water vole sits like a ball of fur on "
    "the bank of the mill pond: chestnut brown, blunt-nosed, "
    "round ears half hidden. It holds a blade of grass in both pink hands and nibbles at its end."
)
SPOTS = {
    "hand": (18, 60),
    "cheek": (46, 46),
    "belly": (56, 68),
    "back": (79.5, 44),
    "tail": (92.5, 87),
}
LINKS = ("belly-hand", "belly-cheek", "belly-back", "belly-tail")

BODY = closed(
    *knots(
        "330,560 420,440 540,400 660,420 770,510 846,650 868,800 840,940 760,1050 640,1096 "
        "470,1096 370,1060 306,960 286,820 296,680"
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
    """Thin, furry and round, half as long as the body: it lies on the grass in a loop."""
    course = knots("740,1060 830,1104 914,1080 948,1010 930,944")
    shape = ribbon(course, [22, 19, 16, 12, 6], 21)
    sheet.paper(shape, BARK, lift=2)
    hairs = rows(shape, line(*course), (0,), 30, lambda p, a, n, i: slit(p, 18, a + 12, 0.22))
    sheet.paper(hairs, RUST)


def body(sheet: Sheet) -> None:
    """A ball of chestnut fur that stands out along the back, grey-pale on the belly."""
    back = line(*knots("600,404 700,444 790,536 850,660 868,800 840,940 760,1050"))
    sheet.paper([BODY, *tufts(back, 30, 22, -12)], BARK, lift=4)
    edge = line(*knots("400,690 446,780 462,860 490,940 560,1040"))
    with sheet.inside(BODY):
        belly = closed(
            *knots("220,560! 400,690 446,780 462,860 490,940 560,1040 600,1120! 180,1120!")
        )
        sheet.paper(belly, SAND)
        sheet.paper(tufts(edge, 60, 26, 62), BARK)
    course = line(*knots("520,470 640,480 740,560 800,680 816,800 780,960"))
    fur(sheet, BODY, course, (-36, 0, 36, 72, 108, 144, 180), belly)


def legs(sheet: Sheet) -> None:
    """A round haunch and a small pink hind foot with five toes."""
    sole = ribbon(knots("560,1084 420,1102 318,1100"), [40, 30, 24])
    claws = toes((322, 1098), (152, 168, 184, 200, 216), 66, 9, 0.3)
    sheet.paper([sole, *claws], SHELL, lift=2)
    haunch = closed(
        *knots("446,1000 476,900 556,836 656,836 730,896 748,984 700,1064 590,1100 490,1084")
    )
    ruff = line(*knots("460,940 556,838 656,836 730,896 748,984"))
    sheet.paper([haunch, *tufts(ruff, 28, 22, -18)], BARK, lift=2)
    course = line(*knots("490,960 570,880 670,886 730,970"))
    fur(sheet, haunch, course, (-24, 14, 52, 90))


def hands(sheet: Sheet) -> None:
    """Both hands hold one blade of grass like a flute; its end is in the mouth."""
    far = ribbon(knots("380,740 300,730 236,708"), [36, 30, 22])
    sheet.paper(toes((240, 708), (158, 190, 222, 252), 56, 10, 0.5), SHELL, lift=1)
    sheet.paper(far, BARK, lift=1)
    blade = ribbon(knots("60,1010 110,880 176,760 262,664"), [0, 13, 15, 11])
    sheet.paper(blade, FERN, lift=2)
    sheet.paper(leaf((96, 910), 150, -118, 0.17, 0.12), FERN, lift=1.5)
    near = ribbon(knots("480,770 410,838,0 320,812 250,766"), [66, 52, 36, 28, 24], 13)
    sheet.paper(near, BARK, lift=3)
    sheet.paper(toes((252, 764), (166, 194, 222, 250), 66, 11, 0.5), SHELL, lift=1)
    fur(sheet, near, line(*knots("490,780 410,832 320,812")), (-28, 0, 24))


SKULL = closed(
    *knots(
        "196,600 184,556 190,506 222,440 290,384 384,356 480,372 552,430 584,510 570,610 510,690 "
        "400,722 300,712 232,672 204,634"
    )
)


def head(sheet: Sheet) -> None:
    """Short and round, hardly a neck: a blunt nose, fat cheeks, a round ear in the fur."""
    nape = line(*knots("500,380 552,430 584,510 570,610 510,690"))
    far_ear = ellipse((362, 366), 34, 32)
    sheet.paper(far_ear, BARK, lift=1)
    sheet.paper([SKULL, *tufts(nape, 32, 22, -16)], BARK, lift=3)
    ear = ellipse((488, 426), 46, 46)
    cheek = closed(*knots("180,640! 230,628 290,640 330,664 360,740! 180,760!"))
    with sheet.inside(SKULL):
        sheet.paper(cheek, SAND)
    course = line(*knots("230,480 330,410 430,410 540,500"))
    fur(sheet, SKULL, course, (-34, 0, 36, 72, 108, 144), ellipse((312, 520), 66), cheek, ear)
    sheet.paper(ear, BARK, lift=2)
    sheet.paper(ellipse((481, 430), 28, 30), SHELL)
    sheet.paper(tufts(line(*knots("420,440 456,476 524,476")), 56, 17, -62), BARK)
    nose = closed(*knots("186,566! 178,536 196,514 226,522 232,548 212,570"))
    sheet.paper(nose, SHELL, lift=1)
    sheet.paper(slit((208, 552), 22, 16, 0.3), INK)
    sheet.paper(ellipse((312, 520), 30), INK)
    sheet.paper(ellipse((303, 509), 9), PAPER)
    sheet.paper(crescent((312, 520), 37, -80, 0.18), STONE)
    whiskers = [
        ribbon([(232, 580 + 8 * i), (180 + 16 * i, 596 + 26 * i), tip], [3.2, 2.6, 0])
        for i, tip in enumerate(((70, 552), (62, 626), (92, 706)))
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
