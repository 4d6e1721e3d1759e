"""Places for the spots of a tree that has no picture yet: a fan around its middle, or a wave.

An affine picture of a radial drawing: each branch keeps to a wedge of its own, so no links cross.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from bookmaker.linking.spreading import HIGH, WIDE, spread
from bookmaker.model import Point

EDGE = 9.0
"""Per cent of the page that stay free at its edges."""
FEW = 8
"""Up to this many spots a fan or a wave has room for all of them."""
SWAY = 32.0
"""How far a path swings to each side of the middle, per cent."""


def place_tree(count: int, edges: Sequence[tuple[int, int]]) -> tuple[Point, ...]:
    """Per cent of width and height for each of ``count`` vertices of a tree.

    Straight links between them do not cross. Raises ValueError where ``edges`` make no tree.
    """
    near = _neighbours(count, edges)
    if count <= FEW:
        return _drawn(near)
    hub = max(range(count), key=lambda vertex: len(near[vertex]))
    return (
        _star(near[hub], hub) if len(near[hub]) == count - 1 else spread(_drawn(near), edges, EDGE)
    )


def _drawn(near: Sequence[Sequence[int]]) -> tuple[Point, ...]:
    if max(len(ends) for ends in near) <= 2:
        return _wave(near)
    angles, depths = _fan(near, _middle(near))
    points = [
        (depth * math.sin(angle), -depth * math.cos(angle))
        for angle, depth in zip(angles, depths, strict=True)
    ]
    return _filled(points)


def _neighbours(count: int, edges: Sequence[tuple[int, int]]) -> list[list[int]]:
    near: list[list[int]] = [[] for _ in range(count)]
    for a, b in edges:
        near[a].append(b)
        near[b].append(a)
    if len(edges) != count - 1 or len(_outward(near, 0)) != count:
        raise ValueError(f"{len(edges)} links make no tree of {count} spots")
    return [sorted(ends) for ends in near]


def _outward(near: Sequence[Sequence[int]], root: int) -> dict[int, int]:
    """Each vertex with the one before it on the way from ``root``, nearest first."""
    before = {root: -1}
    waiting = [root]
    for here in waiting:
        for there in near[here]:
            if there not in before:
                before[there] = here
                waiting.append(there)
    return before


def _wave(near: Sequence[Sequence[int]]) -> tuple[Point, ...]:
    """A path swings once from side to side on its way down the page."""
    start = min(v for v, ends in enumerate(near) if len(ends) < 2)
    order = list(_outward(near, start))
    places: dict[int, Point] = {}
    for step, vertex in enumerate(order):
        part = step / max(len(order) - 1, 1)
        x = 50 + SWAY * math.sin(2 * math.pi * part + math.pi / 8)
        places[vertex] = (x, EDGE + (100 - 2 * EDGE) * part)
    return tuple(places[vertex] for vertex in range(len(near)))


def _star(leaves: Sequence[int], hub: int) -> tuple[Point, ...]:
    """Leaves all round the hub, at one angle from each other on an upright page."""
    places = {hub: (50.0, 50.0)}
    wide, high = (50 - EDGE) * WIDE / 100, (50 - EDGE) * HIGH / 100
    for number, leaf in enumerate(leaves):
        angle = 2 * math.pi * number / len(leaves)
        x, y = math.sin(angle), -math.cos(angle)
        far = min(wide / max(abs(x), 1e-9), high / max(abs(y), 1e-9))
        places[leaf] = (50 + 100 * far * x / WIDE, 50 + 100 * far * y / HIGH)
    return tuple(places[vertex] for vertex in range(len(places)))


def _middle(near: Sequence[Sequence[int]]) -> int:
    """The vertex from which the farthest is nearest, the busiest of them."""

    def reach(root: int) -> int:
        depth = {root: 0}
        for vertex, before in _outward(near, root).items():
            depth[vertex] = depth.get(before, -1) + 1
        return max(depth.values())

    return min(range(len(near)), key=lambda v: (reach(v), -len(near[v]), v))


def _fan(near: Sequence[Sequence[int]], root: int) -> tuple[list[float], list[float]]:
    """Angle and depth of each vertex: a branch's wedge is as wide as it has ends."""
    before = _outward(near, root)
    ends = [0] * len(near)
    for vertex in reversed(before):
        ends[vertex] = max(ends[vertex], 1)
        if before[vertex] >= 0:
            ends[before[vertex]] += ends[vertex]
    angles, depths = [0.0] * len(near), [0.0] * len(near)
    wedges = {root: (0.0, 2 * math.pi)}
    for vertex in before:
        start, width = wedges[vertex]
        for child in (w for w in near[vertex] if before[w] == vertex):
            share = width * ends[child] / ends[vertex]
            wedges[child] = (start, min(share, math.pi * 0.9))
            angles[child] = start + wedges[child][1] / 2
            depths[child] = depths[vertex] + 1
            start += share
    return angles, depths


def _filled(points: Sequence[Point]) -> tuple[Point, ...]:
    """The points stretched so that they fill the page up to its edges."""
    columns = []
    for axis in (0, 1):
        values = [point[axis] for point in points]
        low, high = min(values), max(values)
        scale = (100 - 2 * EDGE) / (high - low) if high - low > 1e-9 else 0.0
        middle = (low + high) / 2
        columns.append([50 + (value - middle) * scale for value in values])
    return tuple(zip(*columns, strict=True))
