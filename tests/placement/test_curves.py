"""Ways for links: how they leave, what they cost, which are sound."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Point

from bookmaker.model import Box
from bookmaker.placement.curves import BENT, LIKE, gentle, hopeful, sound, straight, ways, wild
from bookmaker.placement.sizes import Sizes

SIZES = Sizes.of("a4", 2)
BOUNDS = Box(0.0, 0.0, 200.0, 200.0)
turns = st.floats(-100, 100)


def one(bend: tuple[float, float, float], places=((60, 60), (120, 90))):  # type: ignore[no-untyped-def]
    return ways(places, [(0, 1)], [np.array([bend])], SIZES)


@given(turns, turns, st.floats(0.8, 2.0))
def test_a_way_leaves_both_rings_squarely_at_its_angles(a: float, b: float, s: float) -> None:
    way = one((a, b, s))
    chord = math.atan2(30, 60)
    for k, (spot, turned) in enumerate((((60, 60), a), ((120, 90), 180 - b))):
        start = way.controls[0, (0, 3)[k]]
        assert math.dist(start, spot) == pytest.approx(10.0)
        out = math.atan2(start[1] - spot[1], start[0] - spot[0])
        off = (out - chord - math.radians(turned) + math.pi) % (2 * math.pi) - math.pi
        assert off == pytest.approx(0.0, abs=1e-9)
        assert way.leaving[0, k] == pytest.approx([math.cos(out), math.sin(out)])


def test_equal_angles_make_an_arc_of_a_circle() -> None:
    points = one((40.0, 40.0, 1.0)).points[0]
    # The circle through the two ends and the middle of the curve.
    (ax, ay), (bx, by), (cx, cy) = points[0], points[16], points[32]
    d = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    squares = [x * x + y * y for x, y in ((ax, ay), (bx, by), (cx, cy))]
    x = (squares[0] * (by - cy) + squares[1] * (cy - ay) + squares[2] * (ay - by)) / d
    y = (squares[0] * (cx - bx) + squares[1] * (ax - cx) + squares[2] * (bx - ax)) / d
    radii = [math.dist(point, (x, y)) for point in points]
    assert max(radii) - min(radii) < 0.02 * max(radii)


def test_bending_costs_the_square_of_the_angle_and_more_where_it_wiggles() -> None:
    def cost(a: float, b: float) -> float:
        return float(one((a, b, 1.0)).cost[0])

    assert cost(0, 0) == 0
    assert cost(30, 30) == pytest.approx(BENT + math.radians(60) ** 2, rel=0.05)
    assert cost(30, -30) > 2.5 * (cost(30, 30) - BENT)
    assert BENT < cost(10, 10) < cost(20, 20) < cost(40, 40) < cost(80, 80)
    assert cost(30, 30) == pytest.approx(cost(-30, -30))


def test_families_grow_and_hold_their_own_mirror_images() -> None:
    families = [straight(), gentle(), wild(110), wild(300)]
    for smaller, larger in pairwise(families):
        held = {tuple(bend) for bend in larger}
        assert {tuple(bend) for bend in smaller} < held
        assert {(-a, -b, s) for a, b, s in held} == {(a + 0, b + 0, s) for a, b, s in held}
    assert not gentle().flags.writeable


SCATTERED = ((50.0, 100.0), (150.0, 100.0), (100.0, 112.0), (97.0, 60.0), (60.0, 160.0))


def test_a_first_look_passes_over_no_sound_way() -> None:
    bends = wild(100)
    looked = hopeful(SCATTERED, (0, 1), bends, BOUNDS, SIZES)
    kept, every = (
        sound(ways(SCATTERED, [(0, 1)], [some], SIZES), SCATTERED, BOUNDS, SIZES)
        for some in (looked, bends)
    )
    assert 10 < len(every.link) < len(looked) < len(bends)
    assert np.array_equal(kept.bends, every.bends)


def test_of_very_many_ways_one_stands_for_those_through_the_same_places() -> None:
    bends = wild(900)
    kept = hopeful(SCATTERED, (0, 1), bends, BOUNDS, SIZES)
    every = sound(ways(SCATTERED, [(0, 1)], [bends], SIZES), SCATTERED, BOUNDS, SIZES)
    assert len(kept) < len(every.link) / 2
    assert {tuple(bend) for bend in kept} <= {tuple(bend) for bend in bends}
    quarters = ways(SCATTERED, [(0, 1)], [kept], SIZES).points[:, [8, 16, 24]]
    for points in every.points[:, [8, 16, 24]]:
        # In the same squares, that is within one square's side of it in either direction.
        off = np.abs(quarters - points).max(axis=(1, 2))
        assert off.min() <= LIKE * SIZES.spot


def test_sound_ways_are_those_that_shapely_finds_clear() -> None:
    places = ((50.0, 100.0), (150.0, 100.0), (100.0, 112.0), (97.0, 60.0))
    found = ways(places, [(0, 1)], [wild(300)], SIZES)
    kept = sound(found, places, BOUNDS, SIZES)
    assert 0 < len(kept.link) < len(found.link)
    held = {bend.tobytes() for bend in kept.bends}
    lost = 0
    for bend, points in zip(found.bends, found.points, strict=True):
        line = LineString(points)
        near = min(line.distance(Point(place)) for place in places[2:])
        inside = all(0 <= value <= 200 for value in line.bounds)
        if bend.tobytes() in held:
            assert near >= 13.0 and inside
            assert line.distance(Point(places[0])) >= 10 - 1e-3
        else:
            lost += near > 14.5 and LineString(points[3:-3]).distance(Point(places[1])) > 13
    # What is refused is near something, or hangs over the edge.
    assert lost <= sum(1 for p in found.points if p.min() < 1.3 or p.max() > 198.7)
    assert kept.cost.tolist() == sorted(kept.cost)
