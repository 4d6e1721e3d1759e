"""Two tracks in the mud of the bank: somebody with webbed feet, somebody with long toes."""

from __future__ import annotations

from random import Random

from art.kit.curves import Curve, Knot, along, closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import leaf, slit
from art.kit.palette import BARK, FERN, MOSS, OCHRE, SAGE, SAND, SHELL, STONE
from art.kit.sheet import Sheet

NAME = "Tracks on the bank"
DESCRIPTION = (
    "Two tracks cross on the muddy bank: round prints with five toes and the line of a tail, and "
    "prints with three long toes before and one behind."
)


def draw() -> Sheet:
    sheet = Sheet("ornament-river-meadow", 1200, 440)
    rng = Random(33)
    meadow = [
        leaf((x, 128 + rng.uniform(-6, 10)), rng.uniform(60, 120), -90 + rng.uniform(-24, 24), 0.16)
        for x in range(60, 1150, 17)
    ]
    sheet.papers(meadow, [SAGE, MOSS, FERN], lift=1)
    for x, y in ((210, 54), (520, 40), (860, 62), (1040, 48)):
        flower(sheet, (x, y))
    mud = closed(
        *knots(
            "10,250! 60,160 240,116 520,130 800,112 1050,130 1150,190 1190,290! 1120,390 860,420 "
            "560,410 260,428 60,370"
        )
    )
    sheet.paper(mud, SAND, lift=2)
    with sheet.inside(mud):
        places = [(rng.uniform(30, 1170), rng.uniform(140, 410)) for _ in range(60)]
        grains = [slit(at, 24, 0, 0.36) for at in places]
        sheet.paper(grains, STONE)
    webbed(sheet, line(*knots("60,340 260,360 460,300 660,206 900,180 1130,226")))
    long_toed(sheet, line(*knots("180,176 400,210 600,310 820,360 1080,350")))
    return sheet


def flower(sheet: Sheet, at: Knot) -> None:
    sheet.paper(ribbon([(at[0], 150), at], [4, 3]), FERN)
    petals = [leaf(at, 34, a, 0.5) for a in range(0, 360, 45)]
    sheet.paper(petals, SHELL, lift=1)
    sheet.paper(ellipse(at, 9), OCHRE)


def webbed(sheet: Sheet, course: Curve) -> None:
    """A broad pad and five toes in a bow, left and right in turn; the tail drags between them."""
    shapes: list[Curve] = []
    drag: list[Curve] = []
    for i, (place, angle) in enumerate(along(course, 12)[1:-1]):
        at = step(place, angle + 90, 34 if i % 2 else -34)
        shapes.append(ellipse(step(at, angle, -6), 17, 22, angle))
        bow = [angle + 27 * k for k in range(-2, 3)]
        shapes += [ellipse(step(at, a, 30), 10, 7, a) for a in bow]
        drag.append(slit(place, 60, angle + 4 * (-1) ** i, 0.1))
    sheet.paper(shapes, BARK)
    sheet.paper(drag, STONE)


def long_toed(sheet: Sheet, course: Curve) -> None:
    """Three long toes before, one behind, one foot straight before the other."""
    shapes: list[Curve] = []
    for i, (place, angle) in enumerate(along(course, 9)[1:-1]):
        at = step(place, angle + 90, 12 if i % 2 else -12)
        toes = ((-38, 56), (0, 66), (38, 56), (180, 42))
        shapes += [ribbon([at, step(at, angle + a, r)], [8, 6, 2]) for a, r in toes]
    sheet.paper(shapes, MOSS)
