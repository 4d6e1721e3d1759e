"""Work: how many subtractions a pupil needs who only tries and swaps.

The pupil starts from a random arrangement and works out every difference: n - 1 subtractions. Until
there is no clash he picks one of the clashing links at random, one of its two ends at random, a
different spot at random, swaps the two numbers, and does again the subtractions of the links that
touch exactly one of the two spots.

Given numbers are never moved: he picks among the clashing links that have a free end, among its
free ends, and among the other free spots. (The given numbers of a page that has a solution do not
clash among themselves, so that every clash has a link with a free end.)

A pupil with insight needs far less: work is a measure for putting pages in order and for how
much practice is in them, not a forecast.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bookmaker.puzzle.question import Question

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]

EXACT = 8
"""Up to this many free spots work is exact: the pupil walks on at most 8! arrangements."""


@dataclass(frozen=True)
class Work:
    """Expected subtractions, and one standard error of them (0: exact)."""

    mean: float
    error: float


def expected_work(question: Question, seed: int) -> Work:
    """The work of a question that has a solution; simulated from ``seed`` where it must be."""
    if len(question.free) < 2:  # no choice is left
        return Work(float(question.tree.n - 1), 0.0)
    if is_exact(question):
        from bookmaker.puzzle.chain import exact_work  # loads numpy

        return Work(exact_work(question), 0.0)
    from bookmaker.puzzle.simulation import simulated_work

    return Work(*simulated_work(question, seed))


def is_exact(question: Question) -> bool:
    return len(question.free) <= EXACT


def swap_costs(question: Question) -> Ints:
    """Subtractions to do again when the numbers at two vertices are swapped, an n x n table.

    A link that joins the two keeps its difference.
    """
    import numpy as np

    degrees = np.array(question.tree.degrees)
    costs: Ints = np.add.outer(degrees, degrees)
    for a, b in question.tree.edges:
        costs[a, b] -= 2
        costs[b, a] -= 2
    return costs
