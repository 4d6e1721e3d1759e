"""Curves as arrays: cubic Beziers, points along them, distances between them.

Every array's last axis is x, y in millimetres. A curve is four control points; a straight link is
a curve too, its handles on the line.
"""

from __future__ import annotations

from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from bookmaker.model import Point

Array = NDArray[np.floating[Any]]
"""Lengths in mm, in single precision where there are very many of them."""
Flags = NDArray[np.bool_]


@cache
def bernstein(count: int) -> Array:
    """The (count, 4) weights of a cubic's control points at even steps from 0 to 1."""
    t = np.linspace(0.0, 1.0, count)
    u = 1.0 - t
    weights: Array = np.stack([u**3, 3 * u**2 * t, 3 * u * t**2, t**3], axis=-1)
    return weights


def points_on(controls: Array, weights: Array) -> Array:
    """Points (..., count, 2) of curves (..., 4, 2)."""
    weights = weights.astype(controls.dtype, copy=False)
    points: Array = weights[:, 0, None] * controls[..., None, 0, :]
    for k in (1, 2, 3):
        points += weights[:, k, None] * controls[..., None, k, :]
    return points


def lengths_along(points: Array) -> Array:
    """Length from the start to each of the points (..., count, 2) of a chain."""
    steps = np.sqrt(((points[..., 1:, :] - points[..., :-1, :]) ** 2).sum(axis=-1))
    along = np.zeros(points.shape[:-1], dtype=points.dtype)
    np.cumsum(steps, axis=-1, out=along[..., 1:])
    return along


def box_distances(points: Array, centres: Array, half: Point) -> Array:
    """How far points are outside upright boxes around ``centres`` (0 inside); they broadcast."""
    dx = np.maximum(np.abs(points[..., 0] - centres[..., 0]) - half[0], 0.0)
    dy = np.maximum(np.abs(points[..., 1] - centres[..., 1]) - half[1], 0.0)
    far: Array = np.sqrt(dx * dx + dy * dy)
    return far


def segment_distances(a: Array, b: Array, c: Array, d: Array) -> Array:
    """Distances between the segments a-b and c-d (0 where they cross); shapes broadcast."""
    squares = np.minimum(
        np.minimum(_to_segment(a, c, d), _to_segment(b, c, d)),
        np.minimum(_to_segment(c, a, b), _to_segment(d, a, b)),
    )
    crossing = (_side(a, b, c) * _side(a, b, d) < 0) & (_side(c, d, a) * _side(c, d, b) < 0)
    return np.where(crossing, 0.0, np.sqrt(squares))


def _to_segment(p: Array, a: Array, b: Array) -> Array:
    """Squared distances of points from segments."""
    along_x, along_y = b[..., 0] - a[..., 0], b[..., 1] - a[..., 1]
    x, y = p[..., 0] - a[..., 0], p[..., 1] - a[..., 1]
    square = np.maximum(along_x * along_x + along_y * along_y, 1e-12)
    share = np.clip((x * along_x + y * along_y) / square, 0.0, 1.0)
    x, y = x - share * along_x, y - share * along_y
    far: Array = x * x + y * y
    return far


def _side(a: Array, b: Array, p: Array) -> Array:
    turn: Array = (b[..., 0] - a[..., 0]) * (p[..., 1] - a[..., 1]) - (b[..., 1] - a[..., 1]) * (
        p[..., 0] - a[..., 0]
    )
    return turn


def clip_to_box(start: Array, end: Array, centre: Array, half: Point) -> tuple[Array, Array]:
    """The shares (0 to 1) at which segments enter and leave an upright box (enter > leave: never).

    Liang and Barsky 1984, ACM Transactions on Graphics 3, 1-22.
    """
    enter, leave = np.zeros(1, dtype=start.dtype), np.ones(1, dtype=start.dtype)
    for k, reach in enumerate(half):
        from_start = centre[..., k] - start[..., k]
        way = end[..., k] - start[..., k]
        # What runs along a side of the box is inside.
        way = np.where(np.abs(way) < 1e-12, 1e-12, way)
        one, other = (from_start - reach - 1e-12) / way, (from_start + reach + 1e-12) / way
        enter = np.maximum(enter, np.minimum(one, other))
        leave = np.minimum(leave, np.maximum(one, other))
    return enter, leave
