"""Four eggs in a hollow of the salt marsh, and nobody near."""

from __future__ import annotations

from random import Random

from art.kit.curves import Curve, Knot, closed, ellipse, knots, step
from art.kit.cutouts import leaf, slit, stone
from art.kit.palette import BARK, INK, MOSS, RUST, SAGE, SAND, SLATE, STONE, STRAW
from art.kit.sheet import Sheet

NAME = "Four eggs"
DESCRIPTION = (
    "Four speckled eggs lie in a hollow of dry stalks, their points to the middle. Glasswort grows "
    "on both sides."
)


def draw() -> Sheet:
    sheet = Sheet("ornament-salt-marsh", 1200, 440)
    rng = Random(36)
    flat = closed(
        *knots("10,390! 200,350 420,366 800,358 1010,352 1190,392! 1000,432 600,438 180,430")
    )
    sheet.paper(flat, STONE, lift=1)
    for x, y, size in ((150, 386, 250), (330, 370, 150), (880, 372, 160), (1050, 388, 260)):
        glasswort(sheet, (x, y), size)
    hollow = closed(*knots("300,290! 390,190 600,146 810,190 900,290! 830,390 600,428 370,390"))
    sheet.paper(hollow, SAND, lift=2)
    stalks = []
    for angle in range(0, 360, 9):
        at, lean = around(angle, rng.uniform(0.86, 1.06)), angle + rng.uniform(62, 94)
        stalks.append(slit(at, rng.uniform(90, 150), lean, 0.12))
    sheet.papers(stalks, [STRAW, STONE, STRAW, BARK], lift=0.6)
    sheet.paper(ellipse((600, 288), 196, 112), SLATE)
    for at, turn in (((600, 228), 90), ((505, 288), 2), ((695, 288), 178), ((600, 350), -90)):
        egg(sheet, at, turn, rng)
    for x, y, r in ((236, 412, 34), (960, 414, 30), (1110, 404, 22)):
        sheet.paper(stone((x, y), r, r * 0.5, rng), SAND, lift=1)
    return sheet


def around(angle: float, part: float) -> Knot:
    x, y = step((0, 0), angle, 240 * part)
    return (600 + x, 288 + y * 0.52)


def egg(sheet: Sheet, at: Knot, turn: float, rng: Random) -> None:
    """Pointed towards ``turn``; dark specks, closest at the blunt end."""

    def laid(shape: Curve) -> Curve:
        return shape.scaled(0.84).turned(turn).moved(at[0], at[1])

    shape = closed(*knots("82,0 60,-34 10,-56 -40,-50 -66,0 -40,50 10,56 60,34"))
    sheet.paper(laid(shape), STRAW, lift=2.5)
    specks = [
        ellipse((58 - 120 * rng.random() ** 0.7, rng.uniform(-46, 46)), rng.uniform(3, 9), 5)
        for _ in range(30)
    ]
    inside = [speck for speck in specks if shape.holds(speck)]
    sheet.paper([laid(speck) for speck in inside[::2]], BARK)
    sheet.paper([laid(speck) for speck in inside[1::2]], INK)


def glasswort(sheet: Sheet, root: Knot, size: float) -> None:
    """Jointed fleshy stems."""
    for k, angle in enumerate((-124, -104, -88, -70, -52)):
        reach = size * (0.8 + 0.2 * (k % 2))
        joints = [
            leaf(step(root, angle, reach * i / 4), reach * 0.3, angle + 8 * (-1) ** i, 0.5)
            for i in range(4)
        ]
        sheet.paper(joints, (MOSS, RUST, SAGE)[k % 3], lift=1)
