"""Work, estimated: a class of pupils who try and swap, all at once, until most are done.

The last pupils are not waited for. Who has tried for long has forgotten where he started, and from
then on the chance that the next swap solves the page no longer changes. So those still at it are
taken to need as much longer as was needed, in the later half of the run, for each page solved.
"""

from __future__ import annotations

import numpy as np

from bookmaker.puzzle.instance import Instance
from bookmaker.puzzle.pupils import Floats, Ints, Pupils, swapped

PUPILS = 1400
"""Work is spread about as widely as its mean, so that the error is 1 / sqrt(1400), or 2.7%."""

WAITED_FOR = 0.95

FIRST_LOOK = 1_000_000
"""Swaps of the whole class after which hopeless pages are given up."""

HOPELESS = 0.05
"""The part of the class that must be done by then; the page would take twenty times as long."""


def simulated_trying(
    instance: Instance, seed: int, first_look: int = FIRST_LOOK
) -> tuple[float, float]:
    """Expected subtractions and their standard error; 2 free vertices or more.

    The error is 3% or less, but where hardly a pupil was done at the first look: then it is what it
    is, and as large as the estimate where nobody was done.
    """
    random = np.random.default_rng(seed)
    pupils = Pupils(instance)
    places = pupils.at_random(random, PUPILS)
    clashes = pupils.clashes(places)
    spent = np.full(PUPILS, instance.tree.n - 1.0)
    busy = np.arange(PUPILS)
    history = []
    swaps = 0
    while True:
        still = clashes.any(axis=0)
        if not still.all():
            busy, places, clashes = busy[still], places[:, still], clashes[:, still]
        solved = PUPILS - len(busy)
        history.append((float(spent.sum()), solved))
        if solved >= WAITED_FOR * PUPILS or (swaps >= first_look and solved < HOPELESS * PUPILS):
            return _estimate(spent, busy, history)
        one, other = pupils.draw(clashes, random)
        places = swapped(places, one, other)
        clashes = pupils.clashes(places)
        spent[busy] += pupils.costs[one, other]
        swaps += len(busy)


def _estimate(spent: Floats, busy: Ints, history: list[tuple[float, int]]) -> tuple[float, float]:
    """Mean and error; ``history`` holds all subtractions and pupils done, swap by swap."""
    subtractions, solved = history[-1]
    before, solved_before = next(then for then in history if then[1] >= solved / 2)
    solved_late = max(solved - solved_before, 1)
    rest = (subtractions - before) / solved_late
    needed = spent.copy()
    needed[busy] += rest
    unknown = len(busy) / len(needed) * rest
    error = np.sqrt(needed.var() / max(solved, 1) + unknown**2 / solved_late)
    return float(needed.mean()), float(error)
