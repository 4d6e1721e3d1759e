"""One solution, for trees however large.

Caterpillars have a closed form. For all others the searches run in random order, each try with a
few steps only, and start afresh: a search that is lucky needs hardly more steps than there are
spots, and one that is not lucky early seldom becomes so late. Where numbers are given, and a few
tries were not lucky, ``propagation`` looks in between, longer each time. Every tree of at most 35
vertices is known to have a solution (Fang 2010, arXiv:1003.3045).
"""

from __future__ import annotations

from contextlib import suppress
from random import Random

from bookmaker.puzzle.descending import OutOfSteps, descending
from bookmaker.puzzle.instance import Arrangement, Instance
from bookmaker.puzzle.propagation import OutOfFailures, propagating
from bookmaker.puzzle.solutions import distinct_solutions, is_countable
from bookmaker.puzzle.spotwise import spotwise
from bookmaker.puzzle.tree import Tree

STEPS_A_TRY = 400

TRIES = 2000

PROPAGATED = {25: 1000, 75: 2000, 175: 4000, 375: 8000}
"""Tries before which a page with given numbers is propagated, and the dead ends allowed to it."""


class Unsolvable(Exception):
    """No solution: ``proved`` where all were ruled out, else not found in ``steps`` steps.

    Where it is proved, ``steps`` is the number of free spots.
    """

    def __init__(self, proved: bool, steps: int) -> None:
        self.proved = proved
        self.steps = steps
        super().__init__("there is no solution" if proved else f"not found in {steps} steps")


def find(instance: Instance, seed: int, tries: int = TRIES) -> Arrangement:
    """A solution: the first in canonical order where they can be counted, else any.

    Raises Unsolvable.
    """
    if is_countable(instance):
        first = next(distinct_solutions(instance), None)
        if first is None:
            raise Unsolvable(proved=True, steps=len(instance.free))
        return first
    if not instance.given and instance.tree.is_caterpillar:
        return caterpillar(instance.tree)
    return _search(instance, seed, tries)


def caterpillar(tree: Tree) -> Arrangement:
    """Rosa's closed form (Rosa 1967, in Theory of Graphs, Rome 1966, 349-355).

    Lay the caterpillar out between two shelves, so that no links cross: along its spine, the leaves
    of each vertex and the next vertex of the spine go to the shelf across. Number the upper
    shelf 0, 1, ... from the left, then the lower shelf on from the right. From each link to the
    next, from left to right, one end stays and the other comes nearer, so that the differences
    fall, one by one in a progression, somehow with any other numbers: all of them are solved.
    """
    spine = tree.longest_path[1:-1] or tree.longest_path[:1]
    shelves: tuple[list[int], list[int]] = ([spine[0]], [])
    for i, v in enumerate(spine):
        onward = spine[i + 1 : i + 2]
        leaves = [w for w in tree.neighbours[v] if w not in spine]
        shelves[(i + 1) % 2].extend([*leaves, *onward])
    upper, lower = shelves
    places = [0] * tree.n
    for place, v in enumerate([*upper, *reversed(lower)]):
        places[v] = place
    return tuple(places)


def _search(instance: Instance, seed: int, tries: int) -> Arrangement:
    """Try the searches in turn, afresh each time."""
    random = Random(seed)
    searches = (descending,) if instance.is_progression else (spotwise, descending)
    dead_ends = 0
    for attempt in range(tries):
        if instance.given and attempt in PROPAGATED:
            dead_ends += PROPAGATED[attempt]
            with suppress(OutOfFailures):
                return _proved(instance, propagating(instance, random, PROPAGATED[attempt]))
        search = searches[attempt % len(searches)]
        try:
            first = next(search(instance, random, STEPS_A_TRY), None)
        except OutOfSteps:
            continue
        return _proved(instance, first)
    raise Unsolvable(proved=False, steps=tries * STEPS_A_TRY + dead_ends)


def _proved(instance: Instance, found: Arrangement | None) -> Arrangement:
    """What a search found that could try everything; raises Unsolvable where that is nothing."""
    if found is None:
        raise Unsolvable(proved=True, steps=len(instance.free))
    return found
