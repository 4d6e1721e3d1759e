"""The cover: the river from its spring to the sea, with some of the creatures along it."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from art.kit import gallery
from art.kit.again import Fit, glue_again, plain
from art.kit.curves import Curve, Knot, along, closed, ellipse, knots, line, polygon, ribbon, step
from art.kit.cutouts import frond, leaf, slit, stone, wave
from art.kit.hero import hero
from art.kit.palette import (
    BARK,
    DEEP,
    FERN,
    MIST,
    MOSS,
    PAPER,
    POOL,
    RUST,
    SAGE,
    SAND,
    SLATE,
    STONE,
    STRAW,
    TEAL,
)
from art.kit.sheet import Sheet

NAME = "The river"
DESCRIPTION = (
    "An otter stands in the river up to its belly, looks straight at you and lifts a paw. On it "
    "lie four white spots, joined by links. Behind it the river winds down from its spring; a "
    "swallow, a dipper, a kingfisher, a frog, a heron and a curlew live along it."
)

COURSE = knots(
    "634,322 596,352 470,392 352,432 330,490 450,545 640,580 742,640 690,724 500,780 "
    "330,840 290,930 400,1020 560,1110 620,1230"
)
GIRTH = [6, 10, 14, 18, 24, 30, 34, 40, 46, 54, 62, 70, 96, 200, 330]
RIVER = ribbon(COURSE, GIRTH, 37)
WET = plain(RIVER)


def draw() -> Sheet:
    sheet = Sheet("cover")
    rng = Random(7)
    sheet.ground(MIST, PAPER, seed=3, count=36)
    sky(sheet)
    hills(sheet, rng)
    wood(sheet, rng)
    meadow(sheet, rng)
    reed_bed(sheet)
    marsh(sheet, rng)
    river(sheet)
    spring(sheet, rng)
    stones(sheet, rng)
    pads(sheet)
    sheet.layer("creature")
    for name, at, size, turn, is_flipped in HIDDEN:
        hide(sheet, name, at, size, turn, is_flipped)
    reeds(sheet, rng)
    hero(sheet)
    sheet.layer("front")
    sea(sheet)
    return sheet


HIDDEN: Sequence[tuple[str, tuple[float, float], float, float, bool]] = (
    ("swallow", (176, 178), 112, 0, False),
    ("dipper", (676, 318), 62, 0, False),
    ("kingfisher", (590, 500), 92, 0, False),
    ("frog", (770, 640), 92, 8, True),
    ("heron", (880, 800), 210, 0, False),
    ("curlew", (90, 930), 150, 0, True),
)
"""Which creature, where, how large, how far turned, whether mirrored."""


def hide(
    sheet: Sheet, name: str, at: tuple[float, float], size: float, turn: float, is_flipped: bool
) -> None:
    """Glues a creature of the set, small."""
    drawn = gallery.glued(name)
    glue_again(sheet, drawn, Fit.of(drawn.creature, at, size, turn, is_flipped), 520000 / size)


def sky(sheet: Sheet) -> None:
    sheet.paper(ellipse((846, 236), 60), STRAW)
    clouds = [
        ribbon([(x, y), (x + w / 3, y - 10), (x + w * 0.7, y - 3), (x + w, y + 5)], [0, 13, 16, 0])
        for x, y, w in knots("690,196,300 250,120,230 -50,90,210 560,70,180")
    ]
    sheet.paper(clouds, PAPER)


def land(edge: str, foot: float) -> Curve:
    """Everything between an upper edge and the level ``foot``."""
    rim = knots(edge)
    return closed((*rim[0], 0), *rim[1:-1], (*rim[-1], 0), (1010, foot, 0), (-10, foot, 0))


def hills(sheet: Sheet, rng: Random) -> None:
    far = land("-10,286 120,236 270,262 420,214 560,250 700,206 860,252 1010,216", 500)
    sheet.paper(far, POOL, lift=1)
    middle = land("-10,336 160,286 330,322 500,270 640,262 800,304 1010,272", 600)
    sheet.paper(middle, SAGE, lift=2)
    sheet.paper([fir(x, y) for x, y in FIRS if middle.contains((x, y))], MOSS)
    moss = land("-10,424 180,354 360,360 520,308 640,294 760,316 880,354 1010,344", 620)
    sheet.paper(moss, MOSS, lift=2)
    cuts = [
        leaf((x + rng.uniform(-6, 6), y + rng.uniform(-4, 4)), 17, rng.uniform(20, 60), 0.36)
        for y in range(318, 480, 30)
        for x in range(10 + y % 4 * 9, 1000, 42)
    ]
    sheet.paper([plain(cut) for cut in cuts if moss.holds(cut) and is_dry(cut, 16)], SAGE)


FIRS = [(x, 318 + (x * 7) % 26) for x in (20, 44, 70, 98, 214, 240, 268, 800, 828, 860, 930, 960)]


def fir(x: float, y: float) -> Curve:
    return closed((x, y - 40, 0), (x + 12, y, 0), (x, y + 4), (x - 12, y, 0))


def is_dry(shape: Curve, gap: float) -> bool:
    """Whether a shape keeps ``gap`` units away from the river."""
    left, top, right, bottom = shape.box
    corners = [(x, y) for x in (left - gap, right + gap) for y in (top - gap / 2, bottom + gap / 2)]
    middle = ((left + right) / 2, (top + bottom) / 2)
    return not any(WET.contains(point) for point in (*corners, middle))


def wood(sheet: Sheet, rng: Random) -> None:
    sheet.paper(land("-10,474 200,446 420,466 620,452 820,424 1010,444", 800), SAGE, lift=2)
    trees = knots(
        "214,492,36 152,500,44 90,488,50 26,496,48 -6,560,50 136,566,50 60,572,58 "
        "700,476,34 954,482,50 886,474,54 824,466,48 760,470,40 800,530,42 866,540,56 946,556,62"
    )
    for i, (x, y, size) in enumerate(trees):
        tree(sheet, (x, y), size, (MOSS, FERN, FERN)[i % 3])


def tree(sheet: Sheet, at: Knot, size: float, colour: str) -> None:
    """A round crown of one paper with leaves cut into it."""
    x, y = at
    foot, half = y + size * 1.34, size * 0.1
    sheet.paper(polygon((x - half, y), (x + half, y), (x + half, foot), (x - half, foot)), BARK)
    rim = [step(at, a, size * (0.92 + 0.1 * (a // 40 % 2))) for a in range(0, 360, 40)]
    sheet.paper(plain(closed(*rim), 0.15), colour, lift=1)
    cuts = [leaf(step(at, a, size * 0.24), size * 0.24, a, 0.4) for a in (30, 150, 270)]
    cuts += [leaf(step(at, a, size * 0.58), size * 0.24, a, 0.4) for a in range(0, 360, 72)]
    sheet.paper(map(plain, cuts), SAGE if colour == MOSS else MOSS)


def meadow(sheet: Sheet, rng: Random) -> None:
    field = land("-10,626 160,600 360,626 560,640 780,574 1010,584", 900)
    sheet.paper(field, STRAW, lift=2)
    grass = [
        slit((x + rng.uniform(-8, 8), y), 26, -90 + rng.uniform(-24, 24), 0.2)
        for y in range(612, 780, 33)
        for x in range(6 + y % 2 * 21, 1000, 42)
    ]
    sheet.paper([plain(blade) for blade in grass if field.holds(blade) and is_dry(blade, 14)], MOSS)
    heads = [
        ellipse((rng.uniform(0, 1000), rng.uniform(620, 740)), rng.uniform(5, 8)) for _ in range(56)
    ]
    dry = [head for head in heads if field.holds(head) and is_dry(head, 16)]
    sheet.paper(dry[::2], PAPER)
    sheet.paper(dry[1::2], RUST)


def reed_bed(sheet: Sheet) -> None:
    sheet.paper(land("-10,750 180,738 420,778 640,796 840,738 1010,728", 1000), SAGE, lift=2)


def marsh(sheet: Sheet, rng: Random) -> None:
    sand = land("-10,890 160,862 400,904 640,886 860,860 1010,884", 1210)
    sheet.paper(sand, SAND, lift=2)
    ripples = [
        wave((x + w / 2, y), w / 2, 0, 0.09)
        for x, y, w in knots(
            "20,920,90 150,900,80 40,1010,110 190,1050,110 20,1070,90 520,930,120 690,910,110 "
            "640,980,120 830,930,110 800,1000,120 900,1040,90 540,900,70"
        )
    ]
    sheet.paper([plain(ripple) for ripple in ripples if is_dry(ripple, 6)], STONE)
    for x, y in knots("30,960 40,1060 240,900 620,940 740,966 900,980 960,930 820,900 700,1020"):
        jointed = [
            leaf((x, y), 42 - abs(a) / 5, -90 + a, 0.26, 0.12 if a < 0 else -0.12)
            for a in (-46, -20, 6, 32, 54)
        ]
        sheet.papers(map(plain, jointed), [MOSS, RUST, MOSS], lift=0.5)


def river(sheet: Sheet) -> None:
    """Pale at the spring, dark from the wood on; its bank throws a shadow on it."""
    sheet.paper(RIVER, DEEP)
    with sheet.inside(RIVER):
        sheet.paper(RIVER.moved(5, 8), TEAL)
        brook = knots("-10,540 260,520 306,484 330,500 352,474 400,478 560,440 1010,420")
        head = closed((-10, 200, 0), (1010, 200, 0), *reversed(brook))
        sheet.paper(head, TEAL)
        with sheet.inside(head):
            sheet.paper(RIVER.moved(2, 4), POOL)
    places = along(line(*COURSE), 46)
    strips = []
    for i, (at, angle) in enumerate(places[2:]):
        reach = 8 + i * 0.9
        for side in (-0.42, 0.42) if i % 2 else (0,):
            middle = step(at, angle + 90, side * reach * 1.5)
            strips.append(wave(middle, reach, angle))
    strips = [strip for strip in strips if strip.box[3] < 1000]
    strips += [wave((x, y), 44, 10) for x, y in knots("720,1020 690,1090 800,1100 760,1050")]
    sheet.paper(map(plain, strips), MIST)


def spring(sheet: Sheet, rng: Random) -> None:
    for x, y, rx, ry, colour in (
        (604, 322, 26, 17, SLATE),
        (664, 330, 30, 17, STONE),
        (636, 306, 30, 15, STONE),
    ):
        sheet.paper(stone((x, y), rx, ry, rng), colour, lift=1)
    for spine in (knots("588,318 566,292 540,286"), knots("700,330 724,304 752,302")):
        sheet.paper(map(plain, frond(spine, 22, 6)), FERN)


def stones(sheet: Sheet, rng: Random) -> None:
    for x, y, r, colour in (
        (520, 402, 13, STONE),
        (414, 388, 15, SLATE),
        (300, 462, 17, STONE),
        (296, 512, 20, SLATE),
        (388, 486, 14, STONE),
        (372, 560, 19, STONE),
        (560, 596, 20, SLATE),
        (690, 576, 17, STONE),
        (366, 914, 25, STONE),
        (398, 932, 18, SLATE),
    ):
        sheet.paper(stone((x, y), r, r * 0.66, rng), colour, lift=1)


RUSHES = (30, 82, 134, 186, 744, 918, 962)


def pads(sheet: Sheet) -> None:
    """Lily pads where the river is slow."""
    for x, y, r, turn in knots("716,706,20,20 676,742,24,150 744,664,15,80"):
        rim = [step((0, 0), turn + a, r) for a in range(20, 341, 40)]
        pad = closed((0, 0, 0), (*rim[0], 0), *rim[1:-1], (*rim[-1], 0))
        sheet.paper(pad.scaled(1, 0.55).moved(x, y), MOSS, lift=0.5)


def reeds(sheet: Sheet, rng: Random) -> None:
    """Reeds and bulrushes in front of the two lower bends."""
    for left, right, foot, height in ((10, 230, 880, 200), (730, 1000, 900, 170)):
        blades = [
            leaf(
                (x, foot + rng.uniform(-14, 14)),
                height * rng.uniform(0.6, 1.05),
                -90 + rng.uniform(-12, 14),
                0.07,
                rng.uniform(-0.06, 0.06),
            )
            for x in range(left, right, 21)
        ]
        sheet.papers(map(plain, blades), [MOSS, FERN, MOSS, STRAW], lift=0.6)
        for x in RUSHES:
            if not left < x < right:
                continue
            top = foot - height * rng.uniform(0.86, 1.1)
            sheet.paper(plain(leaf((x, foot), foot - top + 24, -88, 0.026)), FERN)
            sheet.paper(ellipse((x + 6, top + 6), 7.5, 24), BARK, lift=0.6)


def sea(sheet: Sheet) -> None:
    """Two waves, one before the other, in which the otter stands."""
    layers = (
        (DEEP, "-10,1160 120,1146 280,1160 440,1150 620,1166 820,1146 1010,1158"),
        (TEAL, "-10,1186 130,1176 300,1190 470,1176 640,1190 820,1174 1010,1186"),
    )
    for colour, edge in layers:
        sheet.paper(land(edge, 1210), colour, lift=2)
    crests = [
        wave((x + w / 2, y), w / 2, 0, 0.09)
        for x, y, w in knots(
            "60,1172,110 250,1176,80 700,1178,80 900,1170,80 420,1194,110 600,1202,100 100,1196,90"
        )
    ]
    sheet.paper(map(plain, crests), POOL)
