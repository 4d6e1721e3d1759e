"""Work, estimated: a class of pupils who try and swap, all at once.

The last pupils are not waited for. Who has tried for long has forgotten where he started, and from
then on the chance that the next swap solves the page no longer changes. So those still at it are
taken to need as much longer as was needed, in the later half of the run, for each page solved.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bookmaker.puzzle.question import Question
from bookmaker.puzzle.work import swap_costs

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Marks = NDArray[np.bool_]

PUPILS = 1400
"""Work is spread about as widely as its mean, so that the error is 1 / sqrt(1400), or 2.7%."""

WAITED_FOR = 0.95

FIRST_LOOK = 1_000_000
"""Swaps of the whole class after which hopeless pages are given up."""

HOPELESS = 0.05
"""The part of the class that must be done by then; the page would take twenty times as long."""


def simulated_work(
    question: Question, seed: int, first_look: int = FIRST_LOOK
) -> tuple[float, float]:
    """Expected subtractions and their standard error; 2 free vertices or more.

    The error is 3% or less, but where hardly a pupil was done at the first look: then it is what it
    is, and as large as the estimate where nobody was done.
    """
    group = _Class(question, np.random.default_rng(seed), PUPILS)
    history = [(0.0, group.solved)]
    swaps = 0
    while group.solved < WAITED_FOR * PUPILS:
        if swaps >= first_look and group.solved < HOPELESS * PUPILS:
            break
        swaps += len(group.busy)
        spent = history[-1][0] + group.swap()
        history.append((spent, group.solved))
    return _estimate(group, history)


def _estimate(group: _Class, history: list[tuple[float, int]]) -> tuple[float, float]:
    """Mean and error; ``history`` holds all subtractions and pupils done, after each swap."""
    spent, solved = history[-1]
    spent_before, solved_before = next(then for then in history if then[1] >= solved / 2)
    solved_late = max(solved - solved_before, 1)
    rest = (spent - spent_before) / solved_late
    needed = group.spent.copy()
    needed[group.busy] += rest
    unknown = len(group.busy) / len(needed) * rest
    error = np.sqrt(needed.var() / max(solved, 1) + unknown**2 / solved_late)
    return float(needed.mean()), float(error)


class _Class:
    """Pupils at work: a column for each in the tables of places and of clashing links.

    ``spent`` holds the subtractions of all pupils, ``busy`` who has not solved the page yet.
    """

    def __init__(self, question: Question, random: np.random.Generator, pupils: int) -> None:
        self._random = random
        self._costs = swap_costs(question)
        self._links = np.array(question.tree.edges).T
        self._free = np.array(question.free)
        self._free_index = np.full(question.tree.n, -1)
        self._free_index[self._free] = np.arange(len(self._free))
        self._movable = np.array([bool(ends) for ends in _free_ends(question)])
        self._ends = np.array([(*ends, *ends)[:2] or (0, 0) for ends in _free_ends(question)])
        kinds, rank = np.unique(question.differences, return_inverse=True)
        self._kinds = len(kinds)
        self._difference = rank.reshape(question.tree.n, question.tree.n)
        self._places = _shuffled_places(question, random, pupils)
        self.spent = np.full(pupils, question.tree.n - 1.0)
        self.busy: Ints = np.arange(pupils)
        self._look()

    @property
    def solved(self) -> int:
        return len(self.spent) - len(self.busy)

    def swap(self) -> float:
        """Let every busy pupil make one swap; the subtractions that it cost them together."""
        pupils = np.arange(len(self.busy))
        one = self._clashing_end(pupils)
        other = self._other(one)
        mine, yours = self._places[one, pupils], self._places[other, pupils]
        self._places[one, pupils], self._places[other, pupils] = yours, mine
        costs = self._costs[one, other]
        self.spent[self.busy] += costs
        self._look()
        return float(costs.sum())

    def _look(self) -> None:
        """Find the clashing links that may be picked, and let go who has none."""
        a, b = self._links
        differences = self._difference[self._places[a], self._places[b]]
        cells = differences + self._kinds * np.arange(len(self.busy))
        how_often = np.bincount(cells.ravel(), minlength=self._kinds * len(self.busy))
        clash = (how_often[cells] > 1) & self._movable[:, None]
        still = clash.any(axis=0)
        self._clash = clash
        if not still.all():
            self.busy, self._places, self._clash = (
                self.busy[still],
                self._places[:, still],
                clash[:, still],
            )

    def _clashing_end(self, pupils: Ints) -> Ints:
        """For each pupil, a free end of a clashing link: any link, then any end."""
        so_far = self._clash.cumsum(axis=0)
        wanted = self._random.integers(so_far[-1]) + 1
        link = (so_far >= wanted).argmax(axis=0)
        ends: Ints = self._ends[link, self._random.integers(2, size=len(pupils))]
        return ends

    def _other(self, vertices: Ints) -> Ints:
        """For each pupil, any free vertex but the one he has."""
        index = self._random.integers(len(self._free) - 1, size=len(vertices))
        others: Ints = self._free[index + (index >= self._free_index[vertices])]
        return others


def _free_ends(question: Question) -> list[tuple[int, ...]]:
    """The ends of each link that have no given number."""
    given = question.given_at
    return [tuple(v for v in edge if v not in given) for edge in question.tree.edges]


def _shuffled_places(question: Question, random: np.random.Generator, pupils: int) -> Ints:
    """A random arrangement for each pupil, a column each."""
    taken = set(question.given_at.values())
    left = np.array([place for place in range(question.tree.n) if place not in taken])
    places = np.empty((question.tree.n, pupils), dtype=np.int64)
    places[list(question.free)] = random.permuted(np.tile(left, (pupils, 1)), axis=1).T
    for v, place in question.given:
        places[v] = place
    return places
