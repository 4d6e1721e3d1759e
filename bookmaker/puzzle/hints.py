"""The hint ladder: a fact first, then numbers given away one at a time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from bookmaker.cache import Cache
from bookmaker.model import FactKind
from bookmaker.puzzle.facts import facts_of
from bookmaker.puzzle.instance import Normalized, normalize
from bookmaker.puzzle.ladder import Step
from bookmaker.puzzle.tree import Tree


@dataclass(frozen=True)
class Fact:
    """What is true of every solution, and gives no number away.

    ``kind`` "linked": the two ``numbers`` are always linked; "apart": they never are; "either":
    the first two are linked, or the last two; "barred": the number never stands at ``vertex``;
    "try": the two numbers are linked in some solutions, and in that to which the ladder leads;
    "different": every number is given, and there is no hint but the rule.
    """

    kind: FactKind
    numbers: tuple[Fraction, ...] = ()
    vertex: int | None = None


@dataclass(frozen=True)
class Rung:
    """Write ``number`` at ``vertex``: ``left`` solutions are alive then (None: beyond counting).

    Where the mirror solves the page as well, the first rung that it changes has ``mirror``: the
    number of the mirror, and first + last, from which it takes the numbers of all later rungs.
    """

    vertex: int
    number: Fraction
    left: int | None
    mirror: tuple[Fraction, Fraction] | None = None


@dataclass(frozen=True)
class Ladder:
    """The first hint, the solutions there are to begin with, and the rungs.

    The last rung leaves one solution, that of the certificate, or has no more numbers to give.
    """

    fact: Fact
    solutions: int | None
    rungs: tuple[Rung, ...]


def hint_ladder(
    tree: Tree,
    numbers: Sequence[Fraction],
    given: Mapping[int, Fraction],
    *,
    cache: Cache,
    seed: int = 0,
) -> Ladder:
    """The ladder of a page; with the ``seed`` of its certificate it leads to its solution.

    Raises Unsolvable, and ValueError where the numbers do not fit the tree.
    """
    normal = normalize(tree, numbers, given)
    facts = facts_of(normal.instance, cache, seed)
    hint = facts.free_hint
    mirrors = _mirrors(normal, facts.ladder)
    return Ladder(
        fact=Fact(
            hint.kind,
            tuple(normal.numbers[place] for place in hint.places),
            None if hint.vertex is None else normal.order[hint.vertex],
        ),
        solutions=facts.counts.solutions if facts.counts else None,
        rungs=tuple(
            Rung(normal.order[step.vertex], normal.numbers[step.place], step.left, mirror)
            for step, mirror in zip(facts.ladder, mirrors, strict=True)
        ),
    )


def _mirrors(normal: Normalized, ladder: Sequence[Step]) -> list[tuple[Fraction, Fraction] | None]:
    """``mirror`` for each rung; a mirror that moves given numbers to other vertices has none."""
    numbers = normal.numbers
    mirrors: list[tuple[Fraction, Fraction] | None] = [None] * len(ladder)
    if normal.instance.mirror == tuple(range(len(numbers))):
        turn = numbers[0] + numbers[-1]
        others = [turn - numbers[step.place] for step in ladder]
        first = next((i for i, x in enumerate(others) if 2 * x != turn), None)
        if first is not None:
            mirrors[first] = others[first], turn
    return mirrors
