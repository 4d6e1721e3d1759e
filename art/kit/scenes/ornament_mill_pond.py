"""Lily pads, a water lily and a dragonfly."""

from __future__ import annotations

from art.kit.curves import Curve, Knot, closed, knots, ribbon, step
from art.kit.cutouts import leaf, slit, wave
from art.kit.palette import DEEP, FERN, INK, MIST, MOSS, OCHRE, PAPER, POOL, SAGE, SHELL, TEAL
from art.kit.sheet import Sheet

NAME = "Lily pads"
DESCRIPTION = (
    "Lily pads float on still water around one open water lily; a damselfly rests on a bud."
)


def draw() -> Sheet:
    sheet = Sheet("ornament-mill-pond", 1200, 300)
    water = closed(
        *knots(
            "10,214! 200,172 420,190 640,166 860,188 1040,170 1190,210! 1080,278 620,292 120,276"
        )
    )
    sheet.paper(water, POOL, lift=1)
    ripples = [
        wave((x, y), r, 0, 0.08)
        for x, y, r in knots(
            "80,216,44 260,200,40 470,204,44 760,196,46 1060,200,44 400,274,50 "
            "860,272,48 1120,238,36"
        )
    ]
    sheet.paper(ripples, MIST)
    for x, y, r, turn, colour in (
        (180, 232, 104, 30, MOSS),
        (348, 244, 78, 200, SAGE),
        (500, 246, 92, 300, FERN),
        (700, 244, 96, 160, MOSS),
        (880, 226, 84, 20, SAGE),
        (1030, 244, 92, 250, FERN),
    ):
        pad(sheet, (x, y), r, turn, colour)
    lily(sheet, (604, 216))
    bud(sheet)
    return sheet


def pad(sheet: Sheet, at: Knot, radius: float, turn: float, colour: str) -> None:
    """A round leaf with a notch, seen aslant, its veins cut out."""

    def lying(shape: Curve) -> Curve:
        return shape.scaled(1, 0.4).moved(at[0], at[1])

    rim = [step((0, 0), turn + a, radius) for a in range(16, 345, 41)]
    shape = closed((0, 0, 0), (*rim[0], 0), *rim[1:-1], (*rim[-1], 0))
    sheet.paper(lying(shape), colour, lift=1.5)
    veins = [
        slit(step((0, 0), turn + a, radius * 0.56), radius * 0.6, turn + a, 0.07)
        for a in range(46, 330, 38)
    ]
    sheet.paper(map(lying, veins), SAGE if colour != SAGE else MOSS)


def lily(sheet: Sheet, at: Knot) -> None:
    """Outer petals first, then the inner ones, each with its shadow."""
    for angles, size, fat, colour in (
        ((-172, -8, -154, -26, -132, -48), 122, 0.4, SHELL),
        ((-144, -36, -118, -62, -90), 112, 0.42, PAPER),
        ((-128, -52, -104, -76), 76, 0.46, SHELL),
    ):
        sheet.papers([leaf(at, size, a, fat) for a in angles], [colour], lift=1)
    stamens = [leaf(step(at, 90, 2), 44, a, 0.3) for a in (-136, -44, -114, -66, -90)]
    sheet.paper(stamens, OCHRE, lift=1)


def bud(sheet: Sheet) -> None:
    """A bud on its stalk, and a damselfly with folded wings."""
    sheet.paper(ribbon(knots("800,236 812,160 796,96"), [6, 6, 6]), FERN, lift=1)
    sheet.paper(leaf((797, 112), 76, -94, 0.5), SHELL, lift=1)
    sheet.papers([leaf((796, 108), 70, a, 0.34) for a in (-118, -70)], [MOSS], lift=1)
    sheet.papers([leaf((828, 48), 96, a, 0.24) for a in (-16, 2)], [MIST, POOL], lift=1)
    sheet.paper(ribbon(knots("806,34 830,48 880,72 944,88"), [9, 9, 5, 5, 4]), TEAL, lift=1)
    sheet.paper([slit((x, y), 12, 112, 0.4) for x, y in knots("868,68 892,77 916,83")], DEEP)
    sheet.paper(leaf((814, 38), 22, 200, 0.8), INK)
