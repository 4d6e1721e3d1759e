"""Rings that a child draws on a free sheet."""

import math
import random

import numpy as np
import pytest
from PIL import Image, ImageDraw

from bookmaker.model import PlacedSpot
from bookmaker.scanning.rings import find_rings
from bookmaker.scanning.sheet_plan import sheet_plan
from tests.scanning.drawings import drawing, frame_size
from tests.scanning.prints import some_marks

DPI = 110.0
SCALE = DPI / 25.4
FRAME = sheet_plan("a4").frame


def creature(kind: str, seed: int) -> Image.Image:
    layer = drawing(kind, frame_size(FRAME, DPI), seed, DPI)
    return Image.fromarray((layer * 255).astype(np.uint8))


def ring(pen: ImageDraw.ImageDraw, spot: PlacedSpot, rng: random.Random, around: float = 1) -> None:
    """A ring as a hand draws it: wobbly, ``around`` the part of the way that it goes."""
    radius = rng.uniform(8, 12)
    waves = [(rng.uniform(0, 0.05), rng.uniform(0, 6.3)) for _ in range(3)]
    points = []
    for step in range(round(62 * around)):
        turn = step / 60 * 2 * math.pi
        far = radius * (1 + sum(a * math.sin((k + 2) * turn + p) for k, (a, p) in enumerate(waves)))
        points.append(
            ((spot.x + far * math.cos(turn)) * SCALE, (spot.y + far * math.sin(turn)) * SCALE)
        )
    pen.line(points, fill=(60, 60, 64), width=round(0.8 * SCALE), joint="curve")


@pytest.mark.parametrize("kind", ["crayon", "pencil", "yellow"])
@pytest.mark.parametrize("seed", [1, 3])
def test_six_rings_on_a_creature_are_found_in_their_places(kind: str, seed: int) -> None:
    picture, rng = creature(kind, seed), random.Random(seed)
    spots, pen = some_marks(FRAME, seed).spots, ImageDraw.Draw(picture)
    for spot in spots:
        ring(pen, spot, rng)
    found = find_rings(picture, SCALE, 6)
    assert len(found) == 6
    for spot in spots:
        assert min(math.hypot(r.x - spot.x, r.y - spot.y) for r in found) < 1.0


@pytest.mark.parametrize("kind", ["crayon", "pencil", "yellow"])
def test_a_creature_without_rings_has_none(kind: str) -> None:
    assert find_rings(creature(kind, 2), SCALE, 6) == ()


def test_a_ring_that_does_not_close_is_none() -> None:
    picture = Image.new("RGB", frame_size(FRAME, DPI), "white")
    pen, rng = ImageDraw.Draw(picture), random.Random(1)
    ring(pen, PlacedSpot("whole", 60, 60, 10), rng)
    ring(pen, PlacedSpot("half", 120, 120, 10), rng, around=0.6)
    (only,) = find_rings(picture, SCALE, 2)
    assert math.hypot(only.x - 60, only.y - 60) < 1.0


def test_no_more_rings_are_given_than_were_asked_for() -> None:
    picture = Image.new("RGB", frame_size(FRAME, DPI), "white")
    pen, rng = ImageDraw.Draw(picture), random.Random(1)
    for spot in some_marks(FRAME, 4).spots:
        ring(pen, spot, rng)
    assert len(find_rings(picture, SCALE, 4)) == 4
