"""The worked example: what its arrow and its frames point at can't be mistaken."""

from __future__ import annotations

import math

from bookmaker.layout import lay_out
from bookmaker.model import HowTo, Outline, PlacedPage, PlacedSpot, Point
from tests.layout.books import Shape, setting_of


def example() -> PlacedPage:
    setting = setting_of(Shape(1, 2), "a4")
    side = next(s for s in setting.bound.sides if isinstance(s.content, HowTo))
    return lay_out(side, setting)


def outline(page: PlacedPage, role: str) -> Outline:
    return next(i for i in page.items if isinstance(i, Outline) and i.role == role)


def within(point: Point, corners: tuple[Point, ...]) -> bool:
    """Whether a point lies in a triangle or on its edge: on the same side of all its sides."""
    turns = []
    for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True):
        turns.append((x1 - x0) * (point[1] - y0) - (y1 - y0) * (point[0] - x0))
    return all(turn >= -1e-6 for turn in turns) or all(turn <= 1e-6 for turn in turns)


def test_the_arrow_of_the_swap_is_of_one_piece_with_its_heads() -> None:
    page = example()
    (shaft,) = outline(page, "swap").runs
    one, other = outline(page, "swap-head").runs
    assert within(shaft[0], one)
    assert within(shaft[-1], other)


def test_the_arrow_of_the_swap_passes_no_spot_by_less_than_a_millimetre() -> None:
    """Behind a third spot it would look like two arrows."""
    page = example()
    (shaft,) = outline(page, "swap").runs
    spots = [item for item in page.items if isinstance(item, PlacedSpot)]
    for spot in spots:
        gap = min(math.dist(point, (spot.x, spot.y)) for point in shaft) - spot.radius
        assert gap >= 1.0, spot.name
