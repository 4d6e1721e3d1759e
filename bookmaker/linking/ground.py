"""What links between spots cost: their lengths, and what is in their way.

Links that are too short for their tags, pass too near a spot, or leave a spot side by side count
as longer than they are, and so do those of which the caller says so.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from itertools import accumulate, combinations
from types import MappingProxyType

from bookmaker.model import Point
from bookmaker.placement import Sizes

Edge = tuple[int, int]
Edges = tuple[Edge, ...]
Miss = Callable[[Edges], float]
"""How far a tree is from what is wished: 0 does it. Depends on the tree's shape alone."""

TOO_SHORT, TOO_NEAR, TOO_SHARP = 60.0, 80.0, 60.0
"""What a link without room for its tag, near a spot, or beside another adds to the length, mm."""
NOTHING: Mapping[Edge, float] = MappingProxyType({})


class Ground:
    """The spots, every link that could join two of them, the cheapest first, and which cross.

    By the links' numbers: ``lengths``, what is added to them included, and the ``sums`` of these up
    to each; ``crossed``, a bit for each link that one crosses; ``sharp``, what it adds beside each.
    """

    def __init__(
        self, spots: Sequence[Point], sizes: Sizes, extra: Mapping[Edge, float] = NOTHING
    ) -> None:
        self.spots, self.sizes = spots, sizes
        pairs = combinations(range(len(spots)), 2)
        lengths = {pair: self._length(pair) + extra.get(pair, 0.0) for pair in pairs}
        self.edges = sorted(lengths, key=lambda edge: (lengths[edge], edge))
        self.lengths = [lengths[edge] for edge in self.edges]
        self.sums = list(accumulate(self.lengths, initial=0.0))
        self.crossed = [
            sum(1 << j for j, other in enumerate(self.edges) if self._cross(edge, other))
            for edge in self.edges
        ]
        self.number = {edge: i for i, edge in enumerate(self.edges)}
        self.sharp = [
            [TOO_SHARP if self._is_sharp(edge, other) else 0.0 for other in self.edges]
            for edge in self.edges
        ]

    def cost(self, edges: Edges) -> float:
        taken = [self.number[edge] for edge in edges]
        sharp = sum(self.sharp[i][j] for i, j in combinations(taken, 2))
        return sum(self.lengths[i] for i in taken) + sharp

    def distance(self, edge: Edge) -> tuple[float, Edge]:
        """How long a link is, to be sorted by."""
        return math.dist(self.spots[edge[0]], self.spots[edge[1]]), edge

    def _length(self, edge: Edge) -> float:
        """How long a link is, and what it costs that it is too short or too near a spot."""
        length, sizes = self.distance(edge)[0], self.sizes
        room = length - sizes.spot - sizes.tag_width - 2 * sizes.visible
        near = sum(
            _apart(self.spots[k], self.spots[edge[0]], self.spots[edge[1]])
            < sizes.radius + sizes.link_gap
            for k in range(len(self.spots))
            if k not in edge
        )
        return length + (TOO_SHORT if room < 0 else 0.0) + TOO_NEAR * near

    def _is_sharp(self, one: Edge, other: Edge) -> bool:
        shared = set(one) & set(other)
        if len(shared) != 1:
            return False
        (middle,) = shared
        x, y = self.spots[middle]
        angles = []
        for edge in (one, other):
            (end,) = set(edge) - shared
            angles.append(math.atan2(self.spots[end][1] - y, self.spots[end][0] - x))
        between = abs((angles[0] - angles[1] + math.pi) % (2 * math.pi) - math.pi)
        return between < math.radians(self.sizes.angle)

    def _cross(self, one: Edge, other: Edge) -> bool:
        if set(one) & set(other):
            return False
        a, b, c, d = (self.spots[k] for k in (*one, *other))
        if any(_are_apart((a[k], b[k]), (c[k], d[k])) for k in (0, 1)):
            return False  # on one line, too, where they turn neither way
        return meet(a, b, c, d)


def _are_apart(one: Point, other: Point) -> bool:
    """Whether two stretches of an axis, each from one number to the other, have a gap between."""
    return max(one) < min(other) or max(other) < min(one)


def meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the lines a-b and c-d cross or touch; also where all four lie on one line."""
    return _turn(a, b, c) * _turn(a, b, d) <= 0 and _turn(c, d, a) * _turn(c, d, b) <= 0


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _apart(point: Point, start: Point, end: Point) -> float:
    """How far ``point`` is from the line between ``start`` and ``end``."""
    return math.hypot(*way_from(point, start, end))


def way_from(point: Point, start: Point, end: Point) -> Point:
    """The way to ``point`` from the nearest place of the line between ``start`` and ``end``."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    square = dx * dx + dy * dy or 1.0
    along = ((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / square
    along = min(1.0, max(0.0, along))
    return (point[0] - (start[0] + along * dx), point[1] - (start[1] + along * dy))
