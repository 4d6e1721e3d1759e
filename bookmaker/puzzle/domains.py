"""Where a number can stand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from bookmaker.cache import Cache
from bookmaker.puzzle.facts import facts_of
from bookmaker.puzzle.instance import normalize
from bookmaker.puzzle.tree import Tree


def domains(
    tree: Tree,
    numbers: Sequence[Fraction],
    given: Mapping[int, Fraction],
    *,
    cache: Cache,
) -> tuple[tuple[Fraction, ...], ...] | None:
    """For each vertex the numbers that stand there in some solution, ascending.

    None where the solutions are beyond counting. Raises Unsolvable, and ValueError where the
    numbers do not fit the tree.
    """
    normal = normalize(tree, numbers, given)
    known = facts_of(normal.instance, cache, seed=0).survey
    if known is None:
        return None
    at: list[tuple[Fraction, ...]] = [()] * tree.n
    for v, row in zip(normal.order, known.standing, strict=True):
        at[v] = tuple(normal.numbers[place] for place, alive in enumerate(row) if alive)
    return tuple(at)
