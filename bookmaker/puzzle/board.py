"""A page half filled: which numbers stand where, and where a difference can still be made."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import TypeVar

from bookmaker.puzzle.instance import Instance

Placement = tuple[int, int]
"""A vertex and the place of the number put there."""

Move = tuple[tuple[Placement, ...], int]
"""Numbers put down to make one difference, and the differences in use after it, as a bit mask."""

T = TypeVar("T")

EMPTY = -1


class Board:
    """The place of the number at each vertex (``at``) and the vertex of each place (``where``).

    Differences are known by their rank, from 1 for the smallest to ``kinds``; ``pairs`` holds the
    pairs of places that have each. ``used`` is a bit mask of the differences of links whose ends
    both have numbers. ``waits_for`` holds, for each vertex, branches that must have a number
    before it gets one, as bit masks; there are none but in a search that asks for it.
    """

    def __init__(self, instance: Instance) -> None:
        tree = instance.tree
        self.neighbours = tree.neighbours
        self.directed = (*tree.edges, *((b, a) for a, b in tree.edges))
        self.difference = _ranked(instance.differences)
        self.kinds = self.difference[0][-1]
        self.pairs: list[list[tuple[int, int]]] = [[] for _ in range(self.kinds + 1)]
        for x, y in combinations(range(tree.n), 2):
            self.pairs[self.difference[x][y]].append((x, y))
        self.at = [EMPTY] * tree.n
        self.where = [EMPTY] * tree.n
        self.placed = 0  # a bit mask of the vertices that have numbers
        self.waits_for: list[tuple[int, ...]] = [()] * tree.n

    def give(self, given: Sequence[Placement]) -> int | None:
        """Put the ``given`` numbers down: the differences between them, None where two clash."""
        used = 0
        for v, place in given:
            after = self.after(v, place, self.kinds, used)
            if after is None:
                return None
            used = after
            self.put(((v, place),))
        return used

    def beside(self, d: int, used: int) -> Iterator[Move]:
        """Ways to make difference ``d`` with one number, beside one that stands.

        No difference may come about that is larger than ``d`` or in use.
        """
        for v, place in self.in_turn(self._beside_placed(d)):
            after = self.after(v, place, d, used)
            if after is not None:
                yield ((v, place),), after

    def on_empty_links(self, d: int, used: int) -> Iterator[Move]:
        """Ways to make difference ``d`` with two numbers, at the ends of a link without numbers.

        No difference may come about that is larger than ``d`` or in use.
        """
        for low, high in self.in_turn(self._unplaced_pairs(d)):
            for a, b in self.in_turn(self._unplaced_links()):
                between = self.after(a, low, d - 1, used)
                if between is None:
                    continue
                self.put(((a, low),))
                after = self.after(b, high, d, between)
                self.take(((a, low),))
                if after is not None:
                    yield ((a, low), (b, high)), after

    def in_turn(self, options: list[T]) -> list[T]:
        """The order in which options are looked at: as they come."""
        return options

    def after(self, v: int, place: int, most: int, used: int) -> int | None:
        """Differences in use once ``place`` stands at ``v``; None where it may not stand there.

        Differences above ``most`` are all in use or left out: none of them may come about now.
        """
        at = self.at
        for branch in self.waits_for[v]:
            if not branch & self.placed:
                return None
        ranks = self.difference[place]
        for w in self.neighbours[v]:
            other = at[w]
            if other != EMPTY:
                difference = ranks[other]
                if difference > most or used >> difference & 1:
                    return None
                used |= 1 << difference
        return used

    def put(self, placements: Sequence[Placement]) -> None:
        for v, place in placements:
            self.at[v], self.where[place] = place, v
            self.placed |= 1 << v

    def take(self, placements: Sequence[Placement]) -> None:
        for v, place in placements:
            self.at[v] = self.where[place] = EMPTY
            self.placed ^= 1 << v

    def _beside_placed(self, d: int) -> list[Placement]:
        at, where = self.at, self.where
        beside = []
        for low, high in self.pairs[d]:
            u, v = where[low], where[high]
            if u == EMPTY != v:
                beside += [(w, low) for w in self.neighbours[v] if at[w] == EMPTY]
            elif v == EMPTY != u:
                beside += [(w, high) for w in self.neighbours[u] if at[w] == EMPTY]
        return beside

    def _unplaced_pairs(self, d: int) -> list[tuple[int, int]]:
        where = self.where
        return [(x, y) for x, y in self.pairs[d] if where[x] == EMPTY == where[y]]

    def _unplaced_links(self) -> list[tuple[int, int]]:
        at = self.at
        return [(a, b) for a, b in self.directed if at[a] == EMPTY == at[b]]


def _ranked(differences: tuple[tuple[int, ...], ...]) -> list[list[int]]:
    """The differences of the numbers at two places, by their rank: 0 for none, 1, 2, ..."""
    rank = {value: i for i, value in enumerate(sorted({x for row in differences for x in row}))}
    return [[rank[value] for value in row] for row in differences]
