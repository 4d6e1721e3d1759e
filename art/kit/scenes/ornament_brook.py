"""Stones in a brook, with water between them."""

from __future__ import annotations

from random import Random

from art.kit.curves import closed, knots
from art.kit.cutouts import ripple, slit, stone, wave
from art.kit.palette import MIST, PAPER, POOL, SAND, SLATE, STONE, TEAL
from art.kit.sheet import Sheet

NAME = "Brook stones"
DESCRIPTION = "Round wet stones lie in a row; the brook runs between them."


def draw() -> Sheet:
    sheet = Sheet("ornament-brook", 1200, 300)
    rng = Random(32)
    water = closed(
        *knots(
            "10,236! 160,186 330,214 520,178 700,208 900,176 1080,204 1190,240! "
            "1060,288 600,294 140,288"
        )
    )
    back = [(230, 176, 64, 46, STONE), (470, 168, 84, 60, SLATE), (840, 160, 78, 54, STONE)]
    back.append((1010, 184, 50, 34, SLATE))
    for x, y, rx, ry, colour in back:
        rock(sheet, (x, y), (rx, ry), colour, rng)
    sheet.paper(water, POOL, lift=1)
    deeper = [
        ripple([(x, y), (x + w / 3, y - 12), (x + w * 0.66, y + 10), (x + w, y)], 7)
        for x, y, w in knots("60,240,190 300,234,200 560,222,180 780,226,200 980,236,170")
    ]
    sheet.paper(deeper, TEAL)
    for x, y, rx, ry, colour in (
        (120, 216, 70, 48, SLATE),
        (330, 222, 86, 56, SAND),
        (610, 206, 104, 72, STONE),
        (764, 244, 60, 36, SLATE),
        (950, 226, 84, 54, SAND),
        (1090, 252, 52, 32, STONE),
        (470, 262, 52, 28, SLATE),
    ):
        rock(sheet, (x, y), (rx, ry), colour, rng)
    light = [
        wave((x, y), r, 0, 0.09)
        for x, y, r in knots(
            "220,266,60 420,226,40 560,284,50 700,288,44 850,272,56 1010,286,48 90,274,44"
        )
    ]
    sheet.paper(light, PAPER)
    return sheet


def rock(
    sheet: Sheet, at: tuple[float, float], radii: tuple[float, float], colour: str, rng: Random
) -> None:
    """A stone with grain cut into it."""
    x, y = at
    shape = stone(at, *radii, rng)
    sheet.paper(shape, colour, lift=2)
    flecks = [
        slit((x + rng.uniform(-1, 1) * radii[0], y + rng.uniform(-1, 1) * radii[1]), 22, -8, 0.3)
        for _ in range(round(radii[0] / 4))
    ]
    sheet.paper([f for f in flecks if shape.holds(f)], MIST if colour == SLATE else SLATE)
