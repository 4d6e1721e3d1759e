"""Which numbers to give away first: those that leave most solutions alive.

What is counted here is unfolded: all solutions, not one of each orbit. A symmetry carries what
stands at a vertex to any vertex of its orbit equally often, so that one solution of each
orbit tells the counts of all.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import combinations
from typing import Literal

from bookmaker.puzzle.question import Arrangement, Question
from bookmaker.puzzle.solutions import is_countable, up_to_symmetry

Tally = tuple[tuple[int, ...], ...]
"""``tally[v][place]``: solutions in which the number at ``place`` stands at vertex v."""

FactKind = Literal["linked", "apart", "different"]
"""What a hint without a number can say: see ``hints.Fact``."""


@dataclass(frozen=True)
class Step:
    """Give the number at ``place`` to ``vertex``: ``left`` solutions stay alive (None: unknown)."""

    vertex: int
    place: int
    left: int | None


def climb(question: Question, tally: Tally) -> tuple[tuple[Step, ...], Arrangement]:
    """The steps until one solution is left, and that solution; ``tally`` is the question's own.

    Each step leaves as many solutions alive as it can; of equal steps it takes the one nearest
    the centre, with the smallest number. There must be a solution.
    """
    steps: list[Step] = []
    while sum(tally[0]) > 1:
        step = _best(question, tally)
        steps.append(step)
        question = replace(question, given=(*question.given, (step.vertex, step.place)))
        tally = tally_of(question)
    return tuple(steps), tuple(row.index(1) for row in tally)


def walk(question: Question, solution: Arrangement) -> tuple[Step, ...]:
    """Steps to one solution where there are too many to count: the busiest vertices first."""
    busiest = sorted(question.free, key=lambda v: (-question.tree.degrees[v], v))
    return tuple(Step(v, solution[v], None) for v in busiest)


def tally_of(question: Question) -> Tally:
    """What stands where in how many solutions; all 0 where there is none."""
    n = question.tree.n
    seen = [[0] * n for _ in range(n)]
    for solution in up_to_symmetry(question):
        for v, place in enumerate(solution):
            seen[v][place] += 1
    symmetries = question.symmetry.count
    return tuple(
        tuple(sum(seen[w][place] for w in orbit) * symmetries // len(orbit) for place in range(n))
        for orbit in question.symmetry.orbits
    )


def free_hint(question: Question) -> tuple[FactKind, tuple[int, ...]]:
    """A fact that gives no number away, and the places of the numbers that it is about.

    Two numbers that are linked in every solution, or else in none; those furthest from each other,
    and not both given. In a progression the largest difference can come from the smallest
    and the largest number only.
    """
    given = set(question.given_at.values())
    ends = (0, question.tree.n - 1)
    if question.is_progression and not given.issuperset(ends):
        return "linked", ends
    if not is_countable(question):
        return "different", ()
    pairs = {pair for pair in combinations(range(question.tree.n), 2) if not given.issuperset(pair)}
    always, never = set(pairs), set(pairs)
    for solution in up_to_symmetry(question):
        links = {tuple(sorted((solution[a], solution[b]))) for a, b in question.tree.edges}
        always &= links
        never -= links
    kinds: tuple[tuple[FactKind, set[tuple[int, int]]], ...] = (
        ("linked", always),
        ("apart", never),
    )
    for kind, true in kinds:
        if true:
            return kind, max(true, key=lambda pair: (question.differences[pair[0]][pair[1]], pair))
    return "different", ()


def _best(question: Question, tally: Tally) -> Step:
    left, v, place = max(
        (tally[v][place], -v, -place) for v in question.free for place in range(question.tree.n)
    )
    return Step(-v, -place, left)
