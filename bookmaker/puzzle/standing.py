"""Where a number can stand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from bookmaker.cache import Cache
from bookmaker.puzzle.facts import facts_of
from bookmaker.puzzle.question import ask
from bookmaker.puzzle.tree import Tree


@dataclass(frozen=True)
class Standing:
    """``numbers_at[v]``: the numbers that stand at vertex v in some solution, ascending."""

    numbers_at: tuple[tuple[Fraction, ...], ...]

    def vertices_of(self, number: Fraction) -> tuple[int, ...]:
        """The vertices at which ``number`` stands in some solution."""
        return tuple(v for v, numbers in enumerate(self.numbers_at) if number in numbers)


def standing(
    tree: Tree,
    numbers: Sequence[Fraction],
    given: Mapping[int, Fraction],
    *,
    cache: Cache,
) -> Standing | None:
    """What can stand where; None where the solutions are beyond counting.

    Raises Unsolvable, and ValueError where the numbers do not fit the tree.
    """
    asked = ask(tree, numbers, given)
    known = facts_of(asked.question, cache, seed=0).survey
    if known is None:
        return None
    at: list[tuple[Fraction, ...]] = [()] * tree.n
    for v, row in zip(asked.order, known.standing, strict=True):
        at[v] = tuple(asked.numbers[place] for place, alive in enumerate(row) if alive)
    return Standing(tuple(at))
