"""Links for spots that have none: the spanning tree that a page wants, as short as can be.

Among the trees whose straight links do not cross, those come first that do what is wished, and of
those the shortest; links that are too short for their tags, pass too near a spot, or leave a spot
side by side count as longer than they are, and so do those of which the caller says so.
"""

from __future__ import annotations

import math
from bisect import insort
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate, combinations
from operator import le
from types import MappingProxyType

from bookmaker.layout.tree.sizes import Sizes
from bookmaker.model import Point

Edge = tuple[int, int]
Edges = tuple[Edge, ...]
Miss = Callable[[Edges], float]
"""How far a tree is from what is wished: 0 does it. Depends on the tree's shape alone."""

EXACT = 8
"""Up to this many spots every tree is looked at."""
KEPT = 12
"""How many of the best trees are handed on, best first."""
TOO_SHORT, TOO_NEAR, TOO_SHARP = 60.0, 80.0, 60.0
"""What a link without room for its tag, near a spot, or beside another adds to the length, mm."""
ROUNDS = 40
"""Improvements that are looked for among larger trees."""
FINE = 1e-9
NOTHING: Mapping[Edge, float] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Joined:
    """A tree that could be chosen: ``cost`` in millimetres of link, what is in the way added."""

    edges: Edges
    miss: float
    cost: float

    @property
    def rank(self) -> tuple[float, float, Edges]:
        return (self.miss, round(self.cost, 6), self.edges)


def join(
    spots: Sequence[Point],
    sizes: Sizes,
    miss: Miss,
    wanted: Sequence[Edges] = (),
    extra: Mapping[Edge, float] = NOTHING,
) -> tuple[Joined, ...]:
    """The best trees on ``spots`` (mm), best first; at most ``KEPT``.

    ``wanted`` may name all shapes that miss least, by one tree each: trees that are of none of them
    may then be passed over, since each shape can be laid on any spots without a crossing. ``extra``
    says by how many millimetres a link (its lower end first) counts as longer than it is. Up to
    ``EXACT`` spots there is no better tree; above, the best that exchanging one link at a time
    leads to. The same spots always give the same trees. Raises ValueError for fewer than two.
    """
    if len(spots) < 2:
        raise ValueError("there is nothing to join")
    ground = _Ground(spots, sizes, extra)
    shelf = _Shelf(miss(wanted[0]) if wanted else 0.0, {_degrees(tree) for tree in wanted})
    found = ground.every_tree(shelf) if len(spots) <= EXACT else ground.improved(miss)
    for edges, cost in found:
        if cost <= shelf.limit:
            shelf.put(Joined(edges, miss(edges), cost))
    return tuple(shelf.best)


class _Shelf:
    """The best trees so far, and what a tree must be to become one of them.

    ``limit`` is the cost beyond which none can, ``least`` the smallest miss, ``wanted`` the numbers
    of links at the spots (most first) of the shapes that have it; none: of any.
    """

    def __init__(self, least: float, wanted: set[tuple[int, ...]]) -> None:
        self.least, self.wanted = least, sorted(wanted)
        self.best: list[Joined] = []
        self.limit = math.inf

    def put(self, tree: Joined) -> None:
        if len(self.best) == KEPT and tree.rank >= self.best[-1].rank:
            return
        insort(self.best, tree, key=lambda each: each.rank)
        del self.best[KEPT:]
        if len(self.best) == KEPT and self.best[-1].miss <= self.least:
            self.limit = self.best[-1].cost + 1e-6

    def takes(self, edges: Edges) -> bool:
        """Whether these links could be part of a tree of a wanted shape, by their numbers."""
        degrees = _degrees(edges)
        return not self.wanted or any(all(map(le, degrees, wanted)) for wanted in self.wanted)


def _degrees(edges: Edges) -> tuple[int, ...]:
    ends = Counter(end for edge in edges for end in edge)
    return tuple(sorted(ends.values(), reverse=True))


class _Ground:
    """The spots, every link that could join two of them, and which of these cross."""

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
        self._sharp = [
            [TOO_SHARP if self._is_sharp(edge, other) else 0.0 for other in self.edges]
            for edge in self.edges
        ]

    def cost(self, edges: Edges) -> float:
        taken = [self.number[edge] for edge in edges]
        sharp = sum(self._sharp[i][j] for i, j in combinations(taken, 2))
        return sum(self.lengths[i] for i in taken) + sharp

    def every_tree(self, shelf: _Shelf) -> Iterator[tuple[Edges, float]]:
        """Every spanning tree without crossings, its edges sorted, and its cost, each once.

        Those that are dearer than the shelf's limit may be left out.
        """
        everyone = tuple(range(len(self.spots)))
        yield from self._grown(0, everyone, 0, (), 0.0, shelf)

    def _grown(
        self,
        start: int,
        piece_of: tuple[int, ...],
        crossed: int,
        taken: tuple[int, ...],
        cost: float,
        shelf: _Shelf,
    ) -> Iterator[tuple[Edges, float]]:
        missing = len(self.spots) - 1 - len(taken)
        if not missing:
            yield tuple(sorted(self.edges[i] for i in taken)), cost
            return
        for i in range(start, len(self.edges) - missing + 1):
            # The links to come are at least as long as those that follow in the list.
            if cost + self.sums[i + missing] - self.sums[i] > shelf.limit:
                return
            a, b = self.edges[i]
            if piece_of[a] == piece_of[b] or crossed >> i & 1:
                continue
            if not shelf.takes(tuple(self.edges[j] for j in (*taken, i))):
                continue
            merged = tuple(piece_of[a] if p == piece_of[b] else p for p in piece_of)
            dearer = cost + self.lengths[i] + sum(self._sharp[i][j] for j in taken)
            together = crossed | self.crossed[i]
            yield from self._grown(i + 1, merged, together, (*taken, i), dearer, shelf)

    def improved(self, miss: Miss) -> Iterator[tuple[Edges, float]]:
        """Trees on the way from the shortest to one that no exchange of one link improves."""
        here = self._shortest()
        yield here, self.cost(here)
        for _ in range(ROUNDS):
            around = sorted(self._exchanged(here))
            best = min(around, key=lambda edges: (miss(edges), self.cost(edges), edges))
            if (miss(best), self.cost(best)) >= (miss(here), self.cost(here) - FINE):
                return
            here = best
            yield here, self.cost(here)

    def _shortest(self) -> Edges:
        """Kruskal's tree: the shortest has no crossings."""
        piece_of = list(range(len(self.spots)))
        taken = []
        for a, b in sorted(self.edges, key=self._distance):
            if piece_of[a] != piece_of[b]:
                old, new = piece_of[b], piece_of[a]
                piece_of = [new if piece == old else piece for piece in piece_of]
                taken.append((a, b))
        return tuple(sorted(taken))

    def _exchanged(self, tree: Edges) -> Iterator[Edges]:
        for out in tree:
            rest = [edge for edge in tree if edge != out]
            side = self._side(rest, out[0])
            crossed = 0
            for edge in rest:
                crossed |= self.crossed[self.number[edge]]
            for i, (a, b) in enumerate(self.edges):
                if (a in side) != (b in side) and (a, b) != out and not crossed >> i & 1:
                    yield tuple(sorted([*rest, (a, b)]))

    def _side(self, edges: Sequence[Edge], start: int) -> set[int]:
        side, waiting = {start}, [start]
        while waiting:
            here = waiting.pop()
            for a, b in edges:
                other = b if a == here else a if b == here else None
                if other is not None and other not in side:
                    side.add(other)
                    waiting.append(other)
        return side

    def _distance(self, edge: Edge) -> tuple[float, Edge]:
        return math.dist(self.spots[edge[0]], self.spots[edge[1]]), edge

    def _length(self, edge: Edge) -> float:
        """How long a link is, and what it costs that it is too short or too near a spot."""
        length, sizes = self._distance(edge)[0], self.sizes
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
        return _turn(a, b, c) * _turn(a, b, d) <= 0 and _turn(c, d, a) * _turn(c, d, b) <= 0


def _are_apart(one: Point, other: Point) -> bool:
    """Whether two stretches of an axis, each from one number to the other, have a gap between."""
    return max(one) < min(other) or max(other) < min(one)


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _apart(point: Point, start: Point, end: Point) -> float:
    """How far ``point`` is from the line between ``start`` and ``end``."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    square = dx * dx + dy * dy
    if not square:
        return math.dist(point, start)
    along = ((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / square
    along = min(1.0, max(0.0, along))
    return math.dist(point, (start[0] + along * dx, start[1] + along * dy))
