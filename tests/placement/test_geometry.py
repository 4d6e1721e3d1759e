"""Distances and curves, against shapely (a general-purpose geometry library)."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, box

from bookmaker.placement.geometry import (
    bernstein,
    box_distances,
    clip_to_box,
    lengths_along,
    points_on,
    segment_distances,
)

coordinates = st.integers(-50, 50).map(float)
points = st.tuples(coordinates, coordinates)


@given(points, points, points, points)
def test_distances_between_segments_are_shapelys(a, b, c, d) -> None:  # type: ignore[no-untyped-def]
    ours = float(segment_distances(*(np.array(p) for p in (a, b, c, d))))
    assert ours == pytest.approx(LineString([a, b]).distance(LineString([c, d])), abs=1e-6)


@given(points, points, st.integers(1, 20), st.integers(1, 20))
def test_distances_from_boxes_are_shapelys(p, centre, wide, high) -> None:  # type: ignore[no-untyped-def]
    x, y = centre
    ours = float(box_distances(np.array(p), np.array(centre), (wide, high)))
    theirs = Point(p).distance(box(x - wide, y - high, x + wide, y + high))
    assert ours == pytest.approx(theirs, abs=1e-9)


@given(points, points, points, st.integers(1, 20), st.integers(1, 20))
def test_segments_are_clipped_as_shapely_clips_them(a, b, centre, wide, high) -> None:  # type: ignore[no-untyped-def]
    x, y = centre
    enter, leave = clip_to_box(np.array(a), np.array(b), np.array(centre), (wide, high))
    ours = max(float(leave[0] - enter[0]), 0.0) * math.dist(a, b)
    # Whether what runs along a side is inside hangs on the last digit: a hair decides it.
    less, more = (
        LineString([a, b]).intersection(box(x - w, y - h, x + w, y + h)).length
        for w, h in ((wide - 1e-9, high - 1e-9), (wide + 1e-9, high + 1e-9))
    )
    assert less - 1e-6 <= ours <= more + 1e-6


def test_a_cubic_starts_and_ends_at_its_ends_and_has_its_length() -> None:
    controls = np.array([[0.0, 0.0], [10.0, 30.0], [40.0, 30.0], [50.0, 0.0]])
    fine = points_on(controls, bernstein(2001))
    assert fine[0].tolist() == [0.0, 0.0]
    assert fine[-1].tolist() == [50.0, 0.0]
    # Half of a cubic is the mean of its control points with weights 1, 3, 3, 1 over 8.
    assert fine[1000] == pytest.approx((controls * [[1], [3], [3], [1]]).sum(axis=0) / 8)
    assert lengths_along(fine)[-1] == pytest.approx(LineString(fine).length)
