"""What to tell a child who is stuck: a fact first, then numbers, one at a time."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from operator import itemgetter

from bookmaker.model import FactKind
from bookmaker.puzzle.instance import Arrangement, Instance
from bookmaker.puzzle.survey import Survey, survey


@dataclass(frozen=True)
class Step:
    """Give the number at ``place`` to ``vertex``: ``left`` solutions stay alive (None: unknown)."""

    vertex: int
    place: int
    left: int | None


def climb(instance: Instance, known: Survey) -> tuple[tuple[Step, ...], Arrangement]:
    """The steps until one solution is left, and that solution; ``known`` is the instance's survey.

    Each step leaves as many solutions alive as it can; of equal steps it takes the one nearest
    the centre, with the smallest number. There must be a solution.
    """
    steps: list[Step] = []
    while known.solutions > 1:
        left, v, place = _widest(instance, known)
        steps.append(Step(v, place, left))
        instance = instance.giving(v, place)
        known = survey(instance)
    return tuple(steps), tuple(row.index(1) for row in known.standing)


def _widest(instance: Instance, known: Survey) -> tuple[int, int, int]:
    """The most solutions that a step can leave, and its vertex and place: the first such step."""
    steps = (
        (known.standing[v][place], v, place)
        for v in instance.free
        for place in range(instance.tree.n)
    )
    return max(steps, key=itemgetter(0))


def walk(instance: Instance, solution: Arrangement) -> tuple[Step, ...]:
    """Steps to one solution where there are too many to count: the busiest vertices first."""
    busiest = sorted(instance.free, key=lambda v: (-instance.tree.degrees[v], v))
    return tuple(Step(v, solution[v], None) for v in busiest)


def free_hint(instance: Instance, known: Survey | None) -> tuple[FactKind, tuple[int, ...]]:
    """A fact that gives no number away, and the places of the numbers that it is about.

    Two numbers that are linked in every solution, or else in none: those furthest from each other,
    and not both given. In a progression the largest difference can come from the smallest
    and the largest number only, so that these two are always linked.
    """
    given = set(instance.given_at.values())
    ends = (0, instance.tree.n - 1)
    if instance.is_progression and len(ends) > len(given.intersection(ends)):
        return "linked", ends
    if known is None:
        return "different", ()
    open_pairs = [
        (instance.differences[x][y], x, y)
        for x, y in combinations(range(instance.tree.n), 2)
        if not given.issuperset((x, y))
    ]
    facts: tuple[tuple[FactKind, int], ...] = (("linked", known.solutions), ("apart", 0))
    for kind, times in facts:
        true = [(gap, x, y) for gap, x, y in open_pairs if known.linked[x][y] == times]
        if true:
            return kind, max(true)[1:]
    return "different", ()
