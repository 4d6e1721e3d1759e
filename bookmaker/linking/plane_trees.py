"""Links for spots that have none: the spanning tree that a page wants, as short as can be.

Among the trees whose straight links do not cross, those come first that do what is wished, and of
those the shortest; links that are too short for their tags, pass too near a spot, or leave a spot
side by side count as longer than they are, and so do those of which the caller says so.
"""

from __future__ import annotations

import math
from bisect import insort
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from operator import le

from bookmaker.linking.exchange import improved
from bookmaker.linking.ground import NOTHING, Edge, Edges, Ground, Miss
from bookmaker.model import Point
from bookmaker.placement import Sizes

EXACT = 8
"""Up to this many spots every tree is looked at."""
KEPT = 12
"""How many of the best trees are handed on, best first."""


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
    leads to from several. The same spots always give the same trees. Raises ValueError for fewer
    than two.
    """
    if len(spots) < 2:
        raise ValueError("there is nothing to join")
    ground = Ground(spots, sizes, extra)
    shelf = _Shelf(miss(wanted[0]) if wanted else 0.0, {_degrees(tree) for tree in wanted})
    found = _EveryTree(ground, shelf) if len(spots) <= EXACT else improved(ground, miss)
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


class _EveryTree:
    """Every spanning tree without crossings, grown link by link from the cheapest on.

    Those that are dearer than the shelf's limit may be left out.
    """

    def __init__(self, ground: Ground, shelf: _Shelf) -> None:
        self.ground, self.shelf = ground, shelf

    def __iter__(self) -> Iterator[tuple[Edges, float]]:
        """The trees' edges, sorted, and their costs, each once."""
        yield from self._grown(0, tuple(range(len(self.ground.spots))), 0, (), 0.0)

    def _grown(
        self,
        start: int,
        piece_of: tuple[int, ...],
        crossed: int,
        taken: tuple[int, ...],
        cost: float,
    ) -> Iterator[tuple[Edges, float]]:
        edges, sums = self.ground.edges, self.ground.sums
        missing = len(piece_of) - 1 - len(taken)
        if not missing:
            yield tuple(sorted(edges[i] for i in taken)), cost
            return
        for i in range(start, len(edges) - missing + 1):
            # The links to come are at least as long as those that follow in the list.
            if cost + sums[i + missing] - sums[i] > self.shelf.limit:
                return
            a, b = edges[i]
            if piece_of[a] == piece_of[b] or crossed >> i & 1:
                continue
            if not self.shelf.takes(tuple(edges[j] for j in (*taken, i))):
                continue
            merged = tuple(piece_of[a] if p == piece_of[b] else p for p in piece_of)
            sharp = self.ground.sharp[i]
            dearer = cost + self.ground.lengths[i] + sum(sharp[j] for j in taken)
            together = crossed | self.ground.crossed[i]
            yield from self._grown(i + 1, merged, together, (*taken, i), dearer)
