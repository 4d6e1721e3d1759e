"""Work, estimated with the solutions known: pupils who are told when they come near one.

A page of ten spots may have one solution in ten thousand arrangements, and pupils who try until
they meet it tell little in all that time. So here no pupil ever solves the page. Wherever he
stands, the chance that his next swap would have solved it is looked up; he carries it along as the
weight of the pupils who would not be there any more, and swaps so that he does not solve it. He
comes near solutions some twenty times before he would have met one, and tells as much each time.

After some swaps he has forgotten where he started. From then on the subtractions still to come are
those of a swap divided by the chance that it solves the page, each averaged over pupils by their
weights (Darroch and Seneta 1965, J. Appl. Probab. 2, on quasi-stationary distributions).
"""

from __future__ import annotations

from itertools import islice
from math import factorial, inf

import numpy as np

from bookmaker.puzzle.instance import Instance
from bookmaker.puzzle.pupils import Floats, Ints, Pupils, pairs, swapped
from bookmaker.puzzle.solutions import all_solutions, is_countable, up_to_symmetry

PUPILS = 2000

FORGOTTEN = 60
"""Swaps after which it no longer matters where a pupil started."""

ENOUGH = 0.027
"""The standard error, as a part of the estimate, at which pupils may stop."""

MOST_SWAPS = 8_000
"""Swaps of each pupil after which the estimate is what it is, with the error it has."""

TRAPPED = 0.99
"""A chance to solve the page at which a pupil hardly finds another swap: none goes so far."""

MOST_NEAR = 2_000_000
"""Arrangements next to a solution that are kept."""


def quasi_stationary_trying(instance: Instance, seed: int) -> tuple[float, float] | None:
    """Expected subtractions and their standard error, for more than 8 free vertices.

    None where the solutions can't be listed, are so many that plain pupils soon meet one, or are
    so few that nobody comes near.
    """
    pupils = Pupils(instance)
    solutions = _solutions(instance)
    if solutions is None:
        return None
    near = _Near(pupils, solutions)
    if near.highest > TRAPPED:
        return None
    walk = _Walk(pupils, near, np.random.default_rng(seed))
    for _ in range(FORGOTTEN):
        walk.swap()
    early, weight = walk.cost, walk.weight
    walk.forget()
    mean, error = 0.0, inf
    for swaps in range(1, MOST_SWAPS + 1):
        walk.swap()
        if swaps % 100 == 0 and walk.solved.any():
            mean, error = _estimate(early, weight, walk)
        if error <= ENOUGH * mean:
            break
    if error == inf:  # nobody came near
        return None
    unsolved = 1 - solutions.shape[1] / factorial(len(instance.free))
    return instance.tree.n - 1 + unsolved * mean, unsolved * error


def _estimate(early: Floats, weight: Floats, walk: _Walk) -> tuple[float, float]:
    """Mean and error of the subtractions after the first look, of pupils who must swap at all.

    ``early`` were spent before the start was forgotten, by pupils who then had ``weight`` left.
    """
    solved = walk.solved.mean()
    to_come = walk.cost.mean() / solved
    each = early + weight * to_come
    # How far each pupil moves the ratio to_come, to first order.
    moves = weight.mean() * (walk.cost - to_come * walk.solved) / solved
    return float(each.mean()), float((each + moves).std() / np.sqrt(len(each)))


class _Walk:
    """Pupils who swap and never solve the page.

    ``weight`` is the part of each that would still be there, ``cost`` the subtractions and
    ``solved`` the solutions that the part which was there came to.
    """

    def __init__(self, pupils: Pupils, near: _Near, random: np.random.Generator) -> None:
        self._pupils = pupils
        self._near = near
        self._random = random
        places = pupils.at_random(random, PUPILS)
        clashes = pupils.clashes(places)
        unsolved = clashes.any(axis=0)
        self._places, self._clashes = places[:, unsolved], clashes[:, unsolved]
        self.weight = np.ones(self._places.shape[1])
        self.forget()

    def forget(self) -> None:
        self.cost = np.zeros_like(self.weight)
        self.solved = np.zeros_like(self.weight)

    def swap(self) -> None:
        """One swap of every pupil, drawn again where it would solve the page."""
        chance = self._near.chances(self._places)
        one, other = self._pupils.draw(self._clashes, self._random)
        self.cost = self.cost + self.weight * self._pupils.costs[one, other]
        self.solved = self.solved + self.weight * chance
        self.weight = self.weight * (1 - chance)
        after = swapped(self._places, one, other)
        clashes = self._pupils.clashes(after)
        again = np.flatnonzero(~clashes.any(axis=0))
        while len(again):
            one, other = self._pupils.draw(self._clashes[:, again], self._random)
            after[:, again] = swapped(self._places[:, again], one, other)
            clashes[:, again] = self._pupils.clashes(after[:, again])
            again = again[~clashes[:, again].any(axis=0)]
        self._places, self._clashes = after, clashes


class _Near:
    """The chance that a pupil's next swap solves the page: 0 but for arrangements next to one."""

    def __init__(self, pupils: Pupils, solutions: Ints) -> None:
        n = len(solutions)
        self._digits = n ** np.arange(n, dtype=np.int64)
        codes, chances = [], []
        for i, j in pairs(range(len(pupils.free))):
            a, b = pupils.free[[i, j]]
            beside = solutions.copy()
            beside[[a, b]] = solutions[[b, a]]
            chosen = pupils.chances(pupils.clashes(beside))
            codes.append(self._digits @ beside)
            chances.append((chosen[i] + chosen[j]) / (len(chosen) - 1))
        self._codes, which = np.unique(np.concatenate(codes), return_inverse=True)
        self._chances = np.bincount(which, np.concatenate(chances))
        self.highest = float(self._chances.max())

    def chances(self, places: Ints) -> Floats:
        codes = self._digits @ places
        index = np.minimum(np.searchsorted(self._codes, codes), len(self._codes) - 1)
        found: Floats = np.where(self._codes[index] == codes, self._chances[index], 0.0)
        return found


def _solutions(instance: Instance) -> Ints | None:
    """Every solution, a column each; None where there are too many, or too many to count."""
    most = MOST_NEAR // len(pairs(instance.free))
    most_orbits = most // instance.symmetry.count
    if not is_countable(instance) or not most_orbits:
        return None
    if len(list(islice(up_to_symmetry(instance), most_orbits + 1))) > most_orbits:
        return None
    return np.array(list(all_solutions(instance)), dtype=np.int64).T
