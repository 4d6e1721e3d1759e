"""Trying: how many subtractions a pupil needs who only tries and swaps.

The pupil starts from a random arrangement and works out every difference: n - 1 subtractions. Until
there is no clash he picks one of the clashing links at random, one of its two ends at random, a
different spot at random, swaps the two numbers, and does again the subtractions of the links that
touch exactly one of the two spots.

Given numbers are never moved: he picks among the clashing links that have a free end, among its
free ends, and among the other free spots. (The given numbers of a page that has a solution do not
clash among themselves, so that every clash has a link with a free end.)

A pupil with insight needs far less (see ``building``).
"""

from __future__ import annotations

from bookmaker.model import Estimate
from bookmaker.puzzle.instance import Instance

EXACT = 8
"""Up to this many free spots it is exact: the pupil walks on at most 8! arrangements."""


def expected_trying(instance: Instance, seed: int) -> Estimate:
    """The trying pupil's work on an instance that has a solution.

    Exact up to 8 free vertices. Above, it is simulated from ``seed``, with an error of 3% or less
    as far as solutions can be counted; beyond that, pages are so hard that no pupil of a class
    solves them by trying, and the error is as large as the estimate.
    """
    if len(instance.free) < 2:  # no choice is left
        return Estimate(float(instance.tree.n - 1), 0.0)
    # These load numpy, which takes longer than certifying pages whose work is kept.
    if is_exact(instance):
        from bookmaker.puzzle.chain import exact_trying

        return Estimate(exact_trying(instance), 0.0)
    from bookmaker.puzzle.quasi_stationary import quasi_stationary_trying
    from bookmaker.puzzle.simulation import simulated_trying

    return Estimate(*(quasi_stationary_trying(instance, seed) or simulated_trying(instance, seed)))


def is_exact(instance: Instance) -> bool:
    return len(instance.free) <= EXACT
