"""Solutions by placing differences from the largest down.

In an arithmetic progression a solution has each of the differences n - 1, n - 2, ..., 1 (in steps)
just once, and a large difference has few pairs of numbers to come from. So each difference in turn
is put on a link: beside a number that stands already, or as the start of a new piece. With other
numbers there are more differences than links, and some are left out.

Each solution is reached along one way only, number by number; so of alike branches the first may
be asked to get its first number first, and each solution comes up once up to symmetry. With
exhaustive search this counts and lists; with options in random order, a budget of steps and fresh
starts it finds a solution of trees far too large to count.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise
from random import Random
from typing import TypeVar

from bookmaker.puzzle.instance import Arrangement, Instance

Placement = tuple[int, int]
"""A vertex and the place of the number put there."""

T = TypeVar("T")

EMPTY = -1


class OutOfSteps(Exception):
    """Raised by a search that has spent its steps."""


def descending(
    instance: Instance, random: Random | None = None, steps: int | None = None
) -> Iterator[Arrangement]:
    """Yield each solution once up to the symmetries that keep the given numbers.

    In a progression of which nothing is given, also once up to the mirror. ``random`` shuffles
    the search. Raises OutOfSteps when more than ``steps`` differences have been tried.
    """
    if instance.tree.n == 1:
        return iter([(0,)])
    search = _Descent(instance, random, steps)
    largest = search.kinds
    used = 0
    for v, place in instance.given:
        after = search.after(v, place, largest, used)
        if after is None:  # two given numbers clash
            return iter(())
        used = after
        search.put(((v, place),))
    return search.down(largest, used, search.kinds - (instance.tree.n - 1))


class _Descent:
    """The state of the search: the number at each vertex, and the vertex of each number.

    Differences are known by their rank, from 1 for the smallest to ``kinds``; ``pairs`` holds the
    pairs of places that have each. Beside the state goes ``used``, a bit mask of the differences
    of links whose ends both have numbers.
    """

    def __init__(self, instance: Instance, random: Random | None, steps: int | None) -> None:
        tree = instance.tree
        self.neighbours = tree.neighbours
        self.directed = (*tree.edges, *((b, a) for a, b in tree.edges))
        self.random = random
        self.steps = steps
        self.difference = _ranked(instance.differences)
        self.kinds = self.difference[0][-1]
        self.pairs: list[list[tuple[int, int]]] = [[] for _ in range(self.kinds + 1)]
        for x, y in combinations(range(tree.n), 2):
            self.pairs[self.difference[x][y]].append((x, y))
        if instance.is_progression and not instance.given and tree.n > 2:
            self.pairs[-2].pop()  # the mirror exchanges the two pairs that have it
        self.at = [EMPTY] * tree.n
        self.where = [EMPTY] * tree.n
        self.placed = 0  # a bit mask of the vertices that have numbers
        self.waits_for = _elder_branches(instance)

    def down(self, d: int, used: int, spare: int) -> Iterator[Arrangement]:
        """Place difference ``d`` in every way that fits, then the smaller ones.

        ``spare`` differences may be left out.
        """
        while d and used >> d & 1:  # it came about between numbers placed before
            d -= 1
        if d == 0:
            yield tuple(self.at)
            return
        if self.steps is not None:
            self.steps -= 1
            if self.steps < 0:
                raise OutOfSteps
        for placements, after in self._options(d, used):
            self.put(placements)
            yield from self.down(d - 1, after, spare)
            self.take(placements)
        if spare:
            yield from self.down(d - 1, used, spare - 1)

    def _options(self, d: int, used: int) -> Iterator[tuple[tuple[Placement, ...], int]]:
        """Ways to make difference ``d``, each with the differences in use after it."""
        for v, place in self._shuffled(self._beside_placed(d)):
            after = self.after(v, place, d, used)
            if after is not None:
                yield ((v, place),), after
        for low, high in self._shuffled(self._unplaced_pairs(d)):
            for a, b in self._shuffled(self._unplaced_links()):
                between = self.after(a, low, d - 1, used)
                if between is None:
                    continue
                self.put(((a, low),))
                after = self.after(b, high, d, between)
                self.take(((a, low),))
                if after is not None:
                    yield ((a, low), (b, high)), after

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

    def put(self, placements: tuple[Placement, ...]) -> None:
        for v, place in placements:
            self.at[v], self.where[place] = place, v
            self.placed |= 1 << v

    def take(self, placements: tuple[Placement, ...]) -> None:
        for v, place in placements:
            self.at[v] = self.where[place] = EMPTY
            self.placed ^= 1 << v

    def _shuffled(self, options: list[T]) -> list[T]:
        if self.random is not None:
            self.random.shuffle(options)
        return options


def _ranked(differences: tuple[tuple[int, ...], ...]) -> list[list[int]]:
    """The differences of the numbers at two places, by their rank: 0 for none, 1, 2, ..."""
    rank = {value: i for i, value in enumerate(sorted({x for row in differences for x in row}))}
    return [[rank[value] for value in row] for row in differences]


def _elder_branches(instance: Instance) -> list[tuple[int, ...]]:
    """For each vertex, the branches that must have a number before it gets one, as bit masks.

    Around a vertex in a branch that has an alike one before it, that one.
    """
    waits_for: list[tuple[int, ...]] = [()] * instance.tree.n
    for group in instance.symmetry.alike:
        for elder, branch in pairwise(group):
            mask = sum(1 << v for v in elder)
            for v in branch:
                waits_for[v] += (mask,)
    return waits_for
