"""The map behind "Solved!": the river from its spring to the sea, over two pages of a spread.

Both halves are cut from one picture of 2000 x 1200, so that they meet at the fold. ``map.toml``
says where each creature lives; nothing but ground and water lies there, room for a ring.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from math import hypot
from pathlib import Path
from random import Random

from art.kit.again import plain
from art.kit.curves import Curve, Knot, along, closed, ellipse, knots, line, polygon, ribbon, step
from art.kit.cutouts import frond, leaf, slit, stone, wave
from art.kit.palette import (
    BARK,
    DEEP,
    FERN,
    MIST,
    MOSS,
    OCHRE,
    PAPER,
    POOL,
    RUST,
    SAGE,
    SAND,
    SHELL,
    SLATE,
    STONE,
    STRAW,
    TEAL,
)
from art.kit.sheet import Sheet

WIDTH, HEIGHT = 1000, 1200
HALVES = {"left": 0, "right": WIDTH}
ROOM = 75
"""Radius kept free around each place, in units."""
TABLE = Path(__file__).resolve().parents[1] / "map.toml"

COURSE = knots(
    "150,168 300,216 470,268 640,292 800,300 890,370 850,462 700,520 560,566 420,640 250,660 "
    "150,730 190,836 360,900 560,920 760,880 940,890 1120,936 1280,900 1350,800 1290,690 1230,590 "
    "1270,500 1400,480 1530,510 1620,580"
)
GIRTH = [7, 10, 13, 16, 18, 20, 22, 24, 28, 32, 34, 36, 38, 40, 42, 44, 46, 48, 50, 54, 62, 90]
RIVER = ribbon(COURSE, GIRTH, 81)
POND = closed(
    *knots("690,630 620,690 460,720 300,712 224,690 200,650 260,584 400,556 560,548 660,580")
)
SEA = closed(
    *knots(
        "2010,420! 1930,440 1860,500 1790,486 1700,492 1600,520 1520,600 1500,700 1530,800 "
        "1490,900 1450,960 1470,1060 1430,1130 1440,1210! 2010,1210!"
    )
)


def places() -> dict[str, Knot]:
    """Where each creature lives, in units of the whole."""
    table = tomllib.loads(TABLE.read_text(encoding="utf-8"))
    return {
        name: (HALVES[half] + x / 100 * WIDTH, y / 100 * HEIGHT)
        for half, rows in table.items()
        for name, (x, y) in rows.items()
    }


class Half(Sheet):
    """One page of the spread: shapes are given in units of the whole; what is off is left out."""

    def __init__(self, name: str, left: float) -> None:
        super().__init__(name, WIDTH, HEIGHT)
        self._left = left

    def paper(self, shapes: Curve | Iterable[Curve], colour: str, lift: float = 0) -> None:
        pieces = [shapes] if isinstance(shapes, Curve) else list(shapes)
        moved = [piece.moved(-self._left, 0) for piece in pieces]
        near = [piece for piece in moved if piece.box[2] > -20 and piece.box[0] < WIDTH + 20]
        if near:
            super().paper(near, colour, lift)


def half(side: str) -> Sheet:
    """The left or the right page."""
    sheet = Half(f"map-{side}", HALVES[side])
    rng = Random(17)
    far(sheet)
    spring_hill(sheet, rng)
    meadow(sheet, rng)
    marsh(sheet, rng)
    sea(sheet)
    river(sheet)
    waves(sheet)
    wood(sheet)
    mill(sheet)
    reed_bed(sheet, rng)
    cliff(sheet, rng)
    boat(sheet, (850, 858))
    return sheet


def free(shape: Curve, gap: float = 8) -> bool:
    """Whether a shape leaves the rings and the water alone."""
    left, top, right, bottom = shape.box
    corners = [(x, y) for x in (left - gap, right + gap) for y in (top - gap, bottom + gap)]
    middle = ((left + right) / 2, (top + bottom) / 2)
    spots = [*corners, middle]
    wet = any(water.contains(spot) for spot in spots for water in (RIVER, POND, SEA))
    ringed = any(
        hypot(min(max(x, left), right) - x, min(max(y, top), bottom) - y) < ROOM
        for x, y in places().values()
    )
    return not wet and not ringed


def far(sheet: Sheet) -> None:
    """Sky, sun and hills beyond the land."""
    sheet.paper(polygon((-10, -10), (2010, -10), (2010, 1210), (-10, 1210)), MIST)
    sheet.paper(ellipse((1260, 66), 46), STRAW)
    hills = closed(
        *knots(
            "-10,60! 120,20 300,60 520,30 760,70 960,40 1180,84 1420,60 1640,110 1860,90 2010,120! "
            "2010,300! -10,300!"
        )
    )
    sheet.paper(hills, POOL, lift=1)
    land = closed(
        *knots(
            "-10,120! 200,76 420,88 700,84 960,110 1240,126 1500,140 1760,150 2010,170! "
            "2010,1210! -10,1210!"
        )
    )
    sheet.paper(land, SAGE, lift=2)


def spring_hill(sheet: Sheet, rng: Random) -> None:
    hill = closed(
        *knots("-10,110! 120,84 260,110 420,180 520,280 500,380 380,450 200,480 -10,500!")
    )
    sheet.paper(hill, MOSS, lift=2)
    cuts = [
        leaf((x + rng.uniform(-8, 8), y + rng.uniform(-6, 6)), 22, rng.uniform(20, 60), 0.36)
        for y in range(130, 470, 36)
        for x in range(14 + y % 5 * 6, 500, 46)
    ]
    sheet.paper([plain(cut) for cut in cuts if hill.holds(cut) and free(cut)], SAGE)
    for x, y, r, colour in knots_of("118,158,34 184,142,30 150,128,26", (SLATE, STONE, STONE)):
        sheet.paper(stone((x, y), r, r * 0.66, rng), colour, lift=1)
    for spine in (knots("96,150 66,120 30,112"), knots("210,136 236,100 268,90")):
        sheet.paper(map(plain, frond(spine, 28, 6)), FERN)


def knots_of(text: str, colours: tuple[str, ...]) -> list[tuple[float, float, float, str]]:
    return [(x, y, r, c) for (x, y, r), c in zip(knots(text), colours, strict=True)]


def meadow(sheet: Sheet, rng: Random) -> None:
    field = closed(
        *knots(
            "-10,640! 100,690 300,760 520,740 720,640 880,560 1010,600 1090,720 1060,860 1000,980 "
            "1020,1100 1000,1210! -10,1210!"
        )
    )
    sheet.paper(field, STRAW, lift=2)
    grass = [
        slit((x + rng.uniform(-12, 12), y), 32, -90 + rng.uniform(-24, 24), 0.18)
        for y in range(620, 1200, 44)
        for x in range(10 + y % 3 * 16, 1060, 52)
    ]
    sheet.paper([plain(blade) for blade in grass if field.holds(blade) and free(blade)], MOSS)
    for i in range(44):
        at = (rng.uniform(10, 1040), rng.uniform(680, 1190))
        petals = ellipse(at, 11)
        if field.holds(petals) and free(petals):
            sheet.paper(petals, (PAPER, RUST, SHELL)[i % 3], lift=0.4)
            sheet.paper(ellipse(at, 4), OCHRE)


def marsh(sheet: Sheet, rng: Random) -> None:
    sand = closed(
        *knots(
            "1010,300! 1080,220 1240,180 1460,190 1640,240 1760,330 1880,400 2010,400! 2010,700! "
            "1560,900 1500,1000 1480,1210! 1400,1210! 1390,1080 "
            "1430,960 1460,860 1430,760 1400,640 "
            "1180,540 1040,480"
        )
    )
    sheet.paper(sand, SAND, lift=2)
    creeks = [
        ribbon(knots("1460,470 1430,380 1480,310 1440,240"), [22, 14, 9, 0]),
        ribbon(knots("1330,490 1290,400 1230,360 1200,270"), [20, 13, 9, 0]),
        ribbon(knots("1620,540 1640,440 1590,360"), [24, 13, 0]),
    ]
    sheet.paper(creeks, POOL)
    marks = [
        wave((x + rng.uniform(-14, 14), y), 30, 0, 0.09)
        for y in range(220, 500, 40)
        for x in range(1060 + y % 3 * 20, 1900, 90)
    ]
    sheet.paper([plain(mark) for mark in marks if sand.holds(mark) and free(mark)], STONE)
    for x, y in knots("1040,460 1260,230 1400,200 1250,440 1640,250 1600,300 1390,300 1660,330"):
        sprig = [leaf((x, y), 46 - abs(a) / 5, -90 + a, 0.28) for a in (-46, -20, 6, 32, 54)]
        if all(free(blade, 2) for blade in sprig):
            sheet.papers(map(plain, sprig), [MOSS, RUST, MOSS], lift=0.5)


def sea(sheet: Sheet) -> None:
    """Shallow at the shore, deep beyond."""
    foam = SEA.moved(-12, -14)
    sheet.paper(foam, PAPER)
    sheet.paper(SEA, TEAL)
    deep = closed(
        *knots(
            "2010,600! 1900,640 1820,720 1720,780 1640,860 1620,980 1560,1080 1550,1210! 2010,1210!"
        )
    )
    sheet.paper(deep, DEEP, lift=1)


def waves(sheet: Sheet) -> None:
    """Everywhere on the sea but in the rings."""
    crests = [
        wave((x, y), 38, 0, 0.1)
        for i, y in enumerate(range(470, 1200, 52))
        for x in range(1500 + i % 2 * 60, 2000, 122)
    ]
    clear = [crest for crest in crests if SEA.holds(crest) and unringed(crest)]
    sheet.paper([plain(crest) for crest in clear], POOL)


def unringed(shape: Curve) -> bool:
    left, top, right, bottom = shape.box
    return not any(
        hypot(min(max(x, left), right) - x, min(max(y, top), bottom) - y) < ROOM
        for x, y in places().values()
    )


def river(sheet: Sheet) -> None:
    """Its bank throws a shadow on it; it runs out into the sea without an edge."""
    upper = [RIVER, POND]
    sheet.paper(upper, DEEP)
    sheet.paper([shape.moved(3, 6) for shape in upper], TEAL)
    mouth = closed(
        *knots("1500,444! 1600,470 1720,500 1800,560 1740,700 1620,720 1540,640 1490,566!")
    )
    sheet.paper(mouth, TEAL)
    head = ribbon(COURSE[:6], [5, 8, 11, 13, 15, 0], 31)
    sheet.paper(head.moved(2, 3), POOL)
    ripples = []
    for i, (at, angle) in enumerate(along(line(*COURSE), 84)[3:-6]):
        reach = 9 + i * 0.26
        side = (-0.4, 0.4, 0)[i % 3]
        ripples.append(wave(step(at, angle + 90, side * reach * 1.4), reach, angle))
    ripples += [wave((x, y), 30) for x, y in knots("300,620 520,690 620,640 290,690 470,584")]
    sheet.paper([plain(ripple) for ripple in ripples if unringed(ripple)], MIST)


def wood(sheet: Sheet) -> None:
    trees = knots(
        "560,70,34 700,60,36 770,110,44 840,80,40 930,120,48 985,80,40 740,190,40 820,200,48 "
        "960,230,46 900,180,38 540,190,34 540,370,40 620,420,36 720,420,44 780,400,34 960,470,44 "
        "1000,380,36 1060,150,44 1120,200,38 480,440,34 930,560,36 60,560,44 50,640,34 110,590,30"
    )
    for i, (x, y, size) in enumerate(trees):
        rim = [step((x, y), a, size * (0.92 + 0.1 * (a // 40 % 2))) for a in range(0, 360, 40)]
        crown = closed(*rim)
        if not free(crown, 0):
            continue
        foot, thick = y + size * 1.34, size * 0.1
        trunk = polygon((x - thick, y), (x + thick, y), (x + thick, foot), (x - thick, foot))
        sheet.paper(trunk, BARK)
        colour = (MOSS, FERN, FERN)[i % 3]
        sheet.paper(plain(crown, 0.2), colour, lift=1)
        cuts = [leaf(step((x, y), a, size * 0.3), size * 0.34, a, 0.4) for a in range(30, 390, 72)]
        sheet.paper(map(plain, cuts), SAGE if colour == MOSS else MOSS)


def mill(sheet: Sheet) -> None:
    """A house with a red roof, its wheel in the outflow of the pond."""
    sheet.paper(polygon((716, 596), (836, 596), (836, 682), (716, 682)), PAPER, lift=2)
    sheet.paper(polygon((700, 600), (742, 540), (812, 540), (852, 600)), RUST, lift=2)
    panes = [polygon((x, 618), (x + 22, 618), (x + 22, 644), (x, 644)) for x in (762, 802)]
    sheet.paper(panes, SLATE)
    hub = (712, 650)
    rim = ellipse(hub, 42)
    sheet.paper([rim, ellipse(hub, 33).flipped(hub[0])], BARK, lift=1)
    spokes = [slit(hub, 80, a, 0.12) for a in range(0, 180, 30)]
    sheet.paper(spokes, BARK)


def reed_bed(sheet: Sheet, rng: Random) -> None:
    """Reeds and bulrushes on both sides of the last bends, those in front over those behind."""
    for foot in range(590, 1230, 52):
        for i, x in enumerate(range(1012, 1450, 17)):
            at = (x + rng.uniform(-5, 5), foot + rng.uniform(-12, 12))
            tall = rng.uniform(66, 104)
            if (i + foot // 17) % 7 == 3:
                stalk = leaf(at, tall + 26, -90, 0.05)
                club = ellipse((at[0], at[1] - tall), 7, 21)
                if free(stalk, 0) and free(club, 0):
                    sheet.paper(plain(stalk), FERN)
                    sheet.paper(club, BARK, lift=0.5)
                continue
            blade = leaf(at, tall, -90 + rng.uniform(-12, 12), 0.13, rng.uniform(-0.06, 0.06))
            if free(blade, 0):
                sheet.paper(plain(blade), (MOSS, FERN, STRAW)[i % 3], lift=0.4)


def cliff(sheet: Sheet, rng: Random) -> None:
    """Grey rock above the sea with turf on its top: where the puffin nests."""
    rock = closed(
        *knots(
            "1730,310! 1750,230 1780,160 1820,110 1900,90 2010,96! 2010,470! 1960,440 1920,470 "
            "1880,420 1830,440 1800,380 1760,370!"
        )
    )
    sheet.paper(rock, STONE, lift=3)
    cracks = [
        slit((x, y), 60, a, 0.14)
        for x, y, a in knots(
            "1770,300,80 1800,350,70 1840,390,84 1900,380,76 1950,400,88 1980,350,80 1930,350,80"
        )
    ]
    sheet.paper([crack for crack in cracks if unringed(crack)], SLATE)
    turf = closed(
        *knots("1780,166! 1816,104 1900,76 2010,84! 2010,140! 1950,128 1900,146 1840,132")
    )
    sheet.paper(turf, MOSS, lift=1)
    cushions = [ellipse((x, y), 11, 8) for x, y in knots("1830,118 1866,96 1984,104 1950,96")]
    sheet.paper([c for c in cushions if unringed(c)], SHELL, lift=0.6)


def boat(sheet: Sheet, at: Knot) -> None:
    """A boat folded from paper, on its way to the sea."""
    x, y = at
    sheet.paper(polygon((x, y - 62), (x + 34, y), (x - 34, y)), PAPER, lift=1)
    sheet.paper(polygon((x, y - 62), (x + 34, y), (x, y)), STRAW)
    rim = [(-66, -20), (-34, 0), (34, 0), (66, -20), (42, 26), (-42, 26)]
    hull = polygon(*((x + dx, y + dy) for dx, dy in rim))
    sheet.paper(hull, PAPER, lift=1)
    sheet.paper(polygon((x + 34, y), (x + 66, y - 20), (x + 42, y + 26)), STRAW)
