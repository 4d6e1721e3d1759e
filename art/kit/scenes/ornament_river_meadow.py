"""Meadow grass with flowers and seed heads."""

from __future__ import annotations

from random import Random

from art.kit.curves import Knot, closed, ellipse, ribbon, step
from art.kit.cutouts import drop, leaf, slit
from art.kit.palette import BARK, FERN, MOSS, OCHRE, RUST, SAGE, SHELL, STRAW
from art.kit.sheet import Sheet

NAME = "Meadow grass"
DESCRIPTION = "Meadow grass with seed heads, buttercups and clover; a small brown butterfly."


def draw() -> Sheet:
    sheet = Sheet("ornament-river-meadow", 1200, 300)
    rng = Random(34)
    back = [
        leaf(
            (x, 292), rng.uniform(90, 170), -90 + rng.uniform(-20, 20), 0.1, rng.uniform(-0.1, 0.1)
        )
        for x in range(30, 1190, 26)
    ]
    sheet.papers(back, [SAGE, SAGE, STRAW], lift=1)
    for x, top, lean in (
        (90, 84, 12),
        (250, 66, -16),
        (510, 78, 16),
        (700, 62, -10),
        (930, 62, 18),
        (1120, 70, -16),
    ):
        seed_head(sheet, x, top, lean)
    for x, top in ((170, 120), (430, 96), (820, 104), (1030, 128)):
        buttercup(sheet, x, top)
    for x, top in ((340, 150), (610, 140), (740, 168), (1000, 190)):
        clover(sheet, x, top)
    front = [
        leaf(
            (x, 294), rng.uniform(60, 120), -90 + rng.uniform(-28, 28), 0.13, rng.uniform(-0.1, 0.1)
        )
        for x in range(24, 1190, 22)
    ]
    sheet.papers(front, [MOSS, FERN, MOSS], lift=1)
    butterfly(sheet, (610, 66))
    return sheet


def seed_head(sheet: Sheet, x: float, top: float, lean: float) -> None:
    sheet.paper(ribbon([(x, 290), (x + lean / 3, 200), (x + lean, top + 60)], [3.4, 3, 2.4]), OCHRE)
    grains = [
        slit((x + lean + side * 11, top + 74 - 17 * i), 32, -90 + side * 26, 0.42)
        for i in range(5)
        for side in (-1, 1)
    ]
    sheet.papers([*grains, slit((x + lean, top - 14), 36, -90, 0.42)], [STRAW, OCHRE], lift=1)


def buttercup(sheet: Sheet, x: float, top: float) -> None:
    sheet.paper(ribbon([(x + 8, 290), (x - 4, 220), (x, top + 10)], [4, 3.4, 3]), MOSS, lift=1)
    petals = [drop(step((x, top), a, 20), 24, a + 180, 1.5) for a in (-170, -130, -90, -50, -10)]
    sheet.papers(petals, [OCHRE], lift=1)
    sheet.paper(ellipse((x, top), 10), RUST)


def clover(sheet: Sheet, x: float, top: float) -> None:
    sheet.paper(ribbon([(x, 290), (x + 6, 240), (x, top + 20)], [4, 3.4, 3]), FERN, lift=1)
    for reach, angles in (
        (46, range(-180, 1, 30)),
        (34, range(-165, -14, 30)),
        (22, range(-150, -29, 40)),
    ):
        sheet.papers([leaf((x, top + 20), reach, a, 0.42) for a in angles], [SHELL], lift=0.6)


def butterfly(sheet: Sheet, at: Knot) -> None:
    """A meadow brown, wings half open."""
    x, y = at
    wings = [
        closed(
            (x, y, 0),
            (x + side * 18, y - 40),
            (x + side * 58, y - 46),
            (x + side * 54, y - 12),
            (x + side * 22, y + 2),
        )
        for side in (-1, 1)
    ]
    hind = [
        closed((x, y, 0), (x + side * 40, y - 10), (x + side * 48, y + 18), (x + side * 18, y + 30))
        for side in (-1, 1)
    ]
    sheet.papers(hind, [RUST], lift=1)
    sheet.papers(wings, [BARK], lift=1)
    sheet.paper([ellipse((x + side * 42, y - 30), 9) for side in (-1, 1)], OCHRE)
    sheet.paper(ribbon([(x, y - 22), (x, y + 26)], [4, 5, 3]), BARK, lift=0.6)
