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
from itertools import pairwise
from random import Random
from typing import TypeVar

from bookmaker.puzzle.board import Board
from bookmaker.puzzle.instance import Arrangement, Instance

T = TypeVar("T")


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
    used = search.give(instance.given)
    if used is None:
        return iter(())
    return search.down(search.kinds, used, search.kinds - (instance.tree.n - 1))


class _Descent(Board):
    """The state of the search: a board on which alike branches wait for each other."""

    def __init__(self, instance: Instance, random: Random | None, steps: int | None) -> None:
        super().__init__(instance)
        self.random = random
        self.steps = steps
        if instance.is_progression and not instance.given and instance.tree.n > 2:
            self.pairs[-2].pop()  # the mirror exchanges the two pairs that have it
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
        for moves in (self.beside(d, used), self.on_empty_links(d, used)):
            for placements, after in moves:
                self.put(placements)
                yield from self.down(d - 1, after, spare)
                self.take(placements)
        if spare:
            yield from self.down(d - 1, used, spare - 1)

    def in_turn(self, options: list[T]) -> list[T]:
        if self.random is not None:
            self.random.shuffle(options)
        return options


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
