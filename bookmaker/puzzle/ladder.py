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


def steps_to_one(instance: Instance, known: Survey) -> tuple[tuple[Step, ...], Arrangement]:
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


@dataclass(frozen=True)
class FreeHint:
    """A fact that gives no number away: its kind, and the places and the vertex that it is about.

    "linked": two numbers are linked in every solution; "apart": in none; "either": the first two
    are, or the last two; "barred": a number stands at ``vertex`` in none; "try": two numbers are
    linked in some, that to which the ladder leads among them; "different": all numbers are given.
    """

    kind: FactKind
    places: tuple[int, ...] = ()
    vertex: int | None = None


def free_hint(instance: Instance, known: Survey | None, solution: Arrangement) -> FreeHint:
    """The first that is true: two numbers always linked, never linked, linked or two others are;
    a number that never stands at one spot; two numbers worth trying, since as many solutions as can
    be have them linked, the ladder's ``solution`` being one.

    Of several, the numbers furthest from each other, and at the spot with the most links the
    number nearest the middle. Numbers are not both given. In a progression the largest
    difference can come from the smallest and the largest number only, so that these two are
    always linked, and the next from two pairs.
    """
    given = set(instance.given_at.values())
    last = instance.tree.n - 1
    if instance.is_progression and not given.issuperset((0, last)) and last:
        return FreeHint("linked", (0, last))
    hint = _about_a_pair(instance, known, given) if known else None
    if hint:
        return hint
    if instance.is_progression and last > 1 and not given.intersection((1, last - 1)):
        return FreeHint("either", (0, last - 1, 1, last))
    hint = _about_a_spot(instance, known, given) if known else None
    return hint or _worth_trying(instance, known, solution) or FreeHint("different")


def _about_a_pair(instance: Instance, known: Survey, given: set[int]) -> FreeHint | None:
    open_pairs = [
        (instance.differences[x][y], x, y)
        for x, y in combinations(range(instance.tree.n), 2)
        if not given.issuperset((x, y))
    ]
    facts: tuple[tuple[FactKind, int], ...] = (("linked", known.solutions), ("apart", 0))
    for kind, times in facts:
        true = [(gap, x, y) for gap, x, y in open_pairs if known.linked[x][y] == times]
        if true:
            return FreeHint(kind, max(true)[1:])
    return None


def _about_a_spot(instance: Instance, known: Survey, given: set[int]) -> FreeHint | None:
    degrees, middle = instance.tree.degrees, (instance.tree.n - 1) / 2
    barred = [
        (-degrees[v], abs(place - middle), v, place)
        for v in instance.free
        for place in range(instance.tree.n)
        if place not in given and not known.standing[v][place] and _is_open(known, v)
    ]
    if not barred:
        return None
    *_, v, place = min(barred)
    return FreeHint("barred", (place,), v)


def _worth_trying(
    instance: Instance, known: Survey | None, solution: Arrangement
) -> FreeHint | None:
    linked = [sorted((solution[a], solution[b])) for a, b in instance.tree.edges]
    given = set(instance.given_at.values())
    open_pairs = [
        (known.linked[x][y] if known else 0, instance.differences[x][y], x, y)
        for x, y in linked
        if not given.issuperset((x, y))
    ]
    return FreeHint("try", max(open_pairs)[2:]) if open_pairs else None


def _is_open(known: Survey, v: int) -> bool:
    """Whether more than one number can stand at ``v``, so that barring one tells none."""
    return sum(map(bool, known.standing[v])) > 2
