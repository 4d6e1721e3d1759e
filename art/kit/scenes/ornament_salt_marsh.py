"""Samphire on the mud of the salt marsh."""

from __future__ import annotations

from random import Random

from art.kit.curves import Knot, closed, ellipse, knots, step
from art.kit.cutouts import slit, wave
from art.kit.palette import FERN, MIST, MOSS, OCHRE, POOL, RUST, SAND, SHELL, SLATE, STONE
from art.kit.sheet import Sheet

NAME = "Samphire"
DESCRIPTION = "Jointed samphire, green and red, grows on rippled mud; shells lie between."


def draw() -> Sheet:
    sheet = Sheet("ornament-salt-marsh", 1200, 300)
    rng = Random(36)
    mud = closed(
        *knots(
            "10,262! 180,226 400,240 620,218 860,240 1040,224 1190,260! 1040,292 620,296 140,292"
        )
    )
    sheet.paper(mud, STONE, lift=1)
    creek = closed(*knots("420,292! 500,262 620,252 700,236 720,242 660,262 620,294!"))
    sheet.paper(creek, POOL, lift=0)
    sheet.paper(
        [
            wave((x, y), r, -4)
            for x, y, r in knots(
                "110,264,40 330,268,40 800,268,44 950,280,40 1100,262,34 230,284,34"
            )
        ],
        SLATE,
    )
    sheet.paper([wave((x, y), r, -8) for x, y, r in knots("530,276,30 610,264,24")], MIST)
    plants = (
        (110, 262, 1.0, MOSS),
        (300, 256, 1.15, RUST),
        (236, 268, 0.8, MOSS),
        (420, 262, 0.9, FERN),
        (560, 250, 0.8, RUST),
        (760, 262, 1.2, MOSS),
        (866, 264, 0.85, RUST),
        (960, 262, 1.1, FERN),
        (1090, 262, 0.9, RUST),
    )
    for left, top, size, colour in plants:
        samphire(sheet, (left, top), size, colour, rng)
    for x, y, turn in knots("180,276,-20 690,280,15 1030,284,-12"):
        cockle(sheet, (x, y), turn)
    return sheet


def samphire(sheet: Sheet, root: Knot, size: float, colour: str, rng: Random) -> None:
    """A stem and its branches, each a chain of fat joints."""
    branches = [(i, 4 - i, side * rng.uniform(34, 46)) for i in (1, 2) for side in (-1, 1)]
    for start, count, lean in (*branches, (0, 5, 0.0)):
        at, angle = step(root, -90, 40 * size * start), lean - 90.0
        joints, light = [], []
        for i in range(count):
            reach = 40 * size * (1 - 0.08 * i)
            middle = step(at, angle, reach / 2)
            joints.append(ellipse(middle, reach * 0.6, 11 * size, angle))
            light.append(slit(step(middle, angle, reach * 0.1), 13 * size, angle, 0.4))
            at, angle = step(at, angle, reach), angle - lean * 0.2 + rng.uniform(-5, 5)
        sheet.papers(joints, [colour], lift=0.8)
        sheet.paper(light, OCHRE if colour == RUST else SAND)


def cockle(sheet: Sheet, at: Knot, turn: float) -> None:
    fan = [step(at, turn - 90 + a, 34) for a in (-80, -50, -20, 10, 40, 70)]
    sheet.paper(closed((*step(at, turn + 90, 8), 0), *fan), SHELL, lift=1.5)
    sheet.paper(
        [slit(step(at, turn - 90 + a, 20), 24, turn - 90 + a, 0.14) for a in (-50, -25, 0, 25, 50)],
        SAND,
    )
    sheet.paper(ellipse(step(at, turn + 90, 2), 5), SAND)
