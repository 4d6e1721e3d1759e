"""The hint ladder: a fact first, then numbers given away one at a time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from bookmaker.cache import Cache
from bookmaker.model import FactKind
from bookmaker.puzzle.facts import facts_of
from bookmaker.puzzle.instance import normalize
from bookmaker.puzzle.tree import Tree


@dataclass(frozen=True)
class Fact:
    """What is true of every solution, and gives no number away.

    ``kind`` "linked": the two ``numbers`` are always linked; "apart": they never are;
    "different": no more than the rule itself, that all differences are different.
    """

    kind: FactKind
    numbers: tuple[Fraction, ...] = ()


@dataclass(frozen=True)
class Rung:
    """Write ``number`` at ``vertex``: ``left`` solutions are alive then (None: beyond counting)."""

    vertex: int
    number: Fraction
    left: int | None


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
    kind, places = facts.free_hint
    return Ladder(
        fact=Fact(kind, tuple(normal.numbers[place] for place in places)),
        solutions=facts.counts.solutions if facts.counts else None,
        rungs=tuple(
            Rung(normal.order[step.vertex], normal.numbers[step.place], step.left)
            for step in facts.ladder
        ),
    )
