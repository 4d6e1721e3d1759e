"""Solutions for any list of numbers, by filling one spot after another.

Without a progression it is not known beforehand which differences a solution has, only that all
are different. So the spots are filled from the centre outwards, and a number is refused as soon as
it repeats a difference.
"""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from bookmaker.puzzle.board import EMPTY
from bookmaker.puzzle.descending import OutOfSteps
from bookmaker.puzzle.instance import Arrangement, Instance


def spotwise(
    instance: Instance, random: Random | None = None, steps: int | None = None
) -> Iterator[Arrangement]:
    """Yield each solution once up to the symmetries that keep the given numbers, ascending.

    ``random`` shuffles the search. Raises OutOfSteps when more than ``steps`` spots were filled.
    """
    search = _Filling(instance, random, steps)
    used = 0
    for v, place in instance.given:
        after = search.after(v, place, used)
        if after is None:  # two given numbers clash
            return iter(())
        used = after
        search.at[v] = place
    taken = {place for _, place in instance.given}
    left = [place for place in range(instance.tree.n) if place not in taken]
    return search.fill(0, left, used)


class _Filling:
    """The state of the search: the place of the number at each vertex.

    Beside it go the places still left and ``used``, a bit mask of the differences in use, each
    difference numbered by its rank.
    """

    def __init__(self, instance: Instance, random: Random | None, steps: int | None) -> None:
        tree = instance.tree
        values = sorted({value for row in instance.differences for value in row})
        rank = {value: i for i, value in enumerate(values)}
        self.bits = [[1 << rank[value] for value in row] for row in instance.differences]
        self.neighbours = tree.neighbours
        self.free = instance.free
        self.below: list[int | None] = [None] * tree.n
        for low, high in instance.symmetry.ascents:
            self.below[high] = low
        self.random = random
        self.steps = steps
        self.at = [EMPTY] * tree.n

    def fill(self, i: int, left: list[int], used: int) -> Iterator[Arrangement]:
        """Fill the free vertices from the i-th on with the places that are ``left``."""
        if i == len(self.free):
            yield tuple(self.at)
            return
        v = self.free[i]
        low = self.below[v]
        least = EMPTY if low is None else self.at[low]
        for place in self._shuffled(left):
            after = self.after(v, place, used) if place > least else None
            if after is None:
                continue
            self._spend()
            self.at[v] = place
            yield from self.fill(i + 1, [other for other in left if other != place], after)
            self.at[v] = EMPTY

    def after(self, v: int, place: int, used: int) -> int | None:
        """Differences in use once ``place`` stands at ``v``; None where one comes twice."""
        bits = self.bits[place]
        for w in self.neighbours[v]:
            other = self.at[w]
            if other != EMPTY:
                if used & bits[other]:
                    return None
                used |= bits[other]
        return used

    def _shuffled(self, places: list[int]) -> list[int]:
        return places if self.random is None else self.random.sample(places, len(places))

    def _spend(self) -> None:
        if self.steps is not None:
            self.steps -= 1
            if self.steps < 0:
                raise OutOfSteps
