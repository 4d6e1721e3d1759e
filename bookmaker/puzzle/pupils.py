"""Pupils who try and swap, as the definition of work has them: a column of a table for each."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from bookmaker.puzzle.instance import Instance

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Marks = NDArray[np.bool_]


class Pupils:
    """How pupils see and change arrangements of one instance.

    Arrangements are tables: a row for each vertex, a column for each pupil, holding places.
    Clashes are tables too: a row for each link, True where a pupil may pick it.
    """

    def __init__(self, instance: Instance) -> None:
        self.instance = instance
        self.free = np.array(instance.free)
        self.costs = _swap_costs(instance)
        self._links = np.array(instance.tree.edges).T
        given = instance.given_at
        ends = [tuple(v for v in edge if v not in given) for edge in instance.tree.edges]
        self._may_be_picked = np.array([bool(free_ends) for free_ends in ends])
        self._ends = np.array([(*free_ends, *free_ends)[:2] or (0, 0) for free_ends in ends])
        self._column = np.full(instance.tree.n, -1)
        self._column[self.free] = np.arange(len(self.free))
        kinds, rank = np.unique(instance.differences, return_inverse=True)
        self._kinds = len(kinds)
        self._difference = rank.reshape(instance.tree.n, instance.tree.n)

    def arranged(self, orders: Ints) -> Ints:
        """Arrangements that give the free vertices the free places in each of ``orders`` (rows)."""
        taken = set(self.instance.given_at.values())
        left = np.array([x for x in range(self.instance.tree.n) if x not in taken])
        places = np.empty((self.instance.tree.n, len(orders)), dtype=np.int64)
        places[self.free] = left[orders].T
        for v, place in self.instance.given:
            places[v] = place
        return places

    def at_random(self, random: np.random.Generator, count: int) -> Ints:
        """Random arrangements for ``count`` pupils."""
        return self.arranged(
            random.permuted(np.tile(np.arange(len(self.free)), (count, 1)), axis=1)
        )

    def clashes(self, places: Ints) -> Marks:
        """The links that a pupil may pick: those that clash and have a free end."""
        a, b = self._links
        pupils = np.arange(places.shape[1])
        cells = self._difference[places[a], places[b]] + self._kinds * pupils
        how_often = np.bincount(cells.ravel(), minlength=self._kinds * len(pupils))
        marks: Marks = (how_often[cells] > 1) & self._may_be_picked[:, None]
        return marks

    def draw(self, clashes: Marks, random: np.random.Generator) -> tuple[Ints, Ints]:
        """The two vertices that each pupil swaps: any clashing link, any free end, any other."""
        so_far = clashes.cumsum(axis=0)
        link = (so_far > random.integers(so_far[-1])).argmax(axis=0)
        one = self._ends[link, random.integers(2, size=len(link))]
        other = random.integers(len(self.free) - 1, size=len(link))
        other += other >= self._column[one]
        return one, self.free[other]

    def chances(self, clashes: Marks) -> Floats:
        """The chance of each free vertex (a row each) to be the first of the two that are drawn."""
        chosen = np.zeros((len(self.free), clashes.shape[1]))
        picked = clashes / np.maximum(clashes.sum(axis=0), 1)
        for ends, chance in zip(self._ends, picked, strict=True):
            for end in ends:
                chosen[self._column[end]] += chance / 2
        return chosen


def swapped(places: Ints, one: Ints, other: Ints) -> Ints:
    """The arrangements after each pupil's swap."""
    after = places.copy()
    pupils = np.arange(places.shape[1])
    after[one, pupils], after[other, pupils] = places[other, pupils], places[one, pupils]
    return after


def pairs(things: Sequence[int]) -> list[tuple[int, int]]:
    """All pairs of two things, in the order in which tables of swaps have their rows."""
    return list(combinations(things, 2))


def _swap_costs(instance: Instance) -> Ints:
    """Subtractions to do again when the numbers at two vertices are swapped, an n x n table.

    A link that joins the two keeps its difference.
    """
    degrees = np.array(instance.tree.degrees)
    costs: Ints = np.add.outer(degrees, degrees)
    for a, b in instance.tree.edges:
        costs[a, b] -= 2
        costs[b, a] -= 2
    return costs
