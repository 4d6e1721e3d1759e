"""One of the reeds is none: a shadow stands between them, and it has an eye."""

from __future__ import annotations

from random import Random

from art.kit.curves import Knot, closed, ellipse, knots, ribbon
from art.kit.cutouts import leaf, reed, wave
from art.kit.palette import BARK, FERN, INK, MIST, MOSS, OCHRE, POOL, SAGE, STRAW
from art.kit.sheet import Sheet

NAME = "A shadow in the reeds"
DESCRIPTION = (
    "Reeds stand close together in the water. Between them stands a slim shadow as straight as "
    "they are, with one yellow eye."
)


def draw() -> Sheet:
    sheet = Sheet("ornament-reed-bed", 1200, 440)
    rng = Random(35)
    stems(sheet, rng, (SAGE, STRAW), 26, 15)
    shadow(sheet)
    stems(sheet, rng, (MOSS, STRAW, FERN), 47, 17)
    for x, top in ((120, 70), (346, 30), (486, 90), (924, 44), (1080, 84)):
        club(sheet, (x, top))
    water = closed(*knots("10,408! 300,392 620,404 900,390 1190,406! 1080,432 620,438 160,434"))
    sheet.paper(water, POOL, lift=1)
    light = [wave((x, y), 46) for x, y in knots("160,414 420,420 700,416 980,414")]
    sheet.paper(light, MIST)
    return sheet


def stems(sheet: Sheet, rng: Random, colours: tuple[str, ...], gap: int, width: float) -> None:
    """Reeds from edge to edge, but for the place where the shadow looks out."""
    blades = []
    for x in range(40, 1170, gap):
        top = rng.uniform(16, 150)
        lean = rng.uniform(-22, 22)
        if gap < 40 or not 640 < x < 830:
            blades.append(reed((x, 412), (x + lean, top), width, -lean))
    sheet.papers(blades, colours, lift=0.8)
    leaves = [
        leaf((x, rng.uniform(180, 300)), 120, -90 + side * rng.uniform(24, 48), 0.11, side * 0.1)
        for x in range(70, 1150, 3 * gap)
        for side in (-1, 1)
        if not 560 < x < 900
    ]
    sheet.papers(leaves, colours, lift=0.8)


def shadow(sheet: Sheet) -> None:
    """Nothing but an outline: a bill like a leaf, a long neck, a belly; reeds stand before it."""
    shape = closed(
        *knots(
            "736,4! 738,58 752,84 760,110 752,136 748,180 762,230 800,290 814,350 806,412! "
            "690,412! 668,350 676,290 700,230 712,180 706,136 702,106 714,80 722,58"
        )
    )
    sheet.paper(shape, BARK, lift=1.5)
    sheet.paper(ellipse((728, 104), 17), OCHRE)
    sheet.paper(ellipse((728, 104), 9), INK)
    before = [
        reed((690, 412), (664, 150), 15, 12),
        reed((800, 412), (824, 120), 17, -12),
        reed((748, 412), (742, 262), 13, 8),
    ]
    sheet.papers(before, [MOSS, FERN, STRAW], lift=0.8)


def club(sheet: Sheet, at: Knot) -> None:
    """A bulrush."""
    x, top = at
    sheet.paper(ribbon([(x, 412), (x + 4, 260), (x, top - 40)], [6, 5, 2]), FERN)
    sheet.paper(ellipse((x + 1, top + 30), 17, 56), BARK, lift=1)
