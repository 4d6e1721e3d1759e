"""All solutions of a page, and which of its spots may be exchanged in them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from bookmaker.puzzle.instance import normalize
from bookmaker.puzzle.solutions import distinct_solutions
from bookmaker.puzzle.tree import Branch, Tree, find_symmetry


def every_solution(
    tree: Tree, numbers: Sequence[Fraction], given: Mapping[int, Fraction]
) -> Iterator[tuple[Fraction, ...]]:
    """Stream the solutions, the number at each vertex, each once up to symmetry and mirror.

    Only symmetries and mirror count that keep the given numbers. The order depends on the shape
    alone, not on how its vertices are named. Raises ValueError where the numbers do not fit.
    """
    normal = normalize(tree, numbers, given)
    return map(normal.denormalize, distinct_solutions(normal.instance))


def exchangeable(tree: Tree, given: Mapping[int, Fraction]) -> tuple[tuple[Branch, ...], ...]:
    """Groups of branches that may be exchanged in any solution and leave it a solution.

    Each branch lists its vertices from the top one on, and the i-th vertices of a group's
    branches exchange their numbers; most branches are a single vertex. Exchanges of these groups,
    one after another, make up all the symmetries that keep the given numbers.
    """
    return find_symmetry(tree, {v: v for v in given}).alike


def mirrored(
    tree: Tree,
    numbers: Sequence[Fraction],
    given: Mapping[int, Fraction],
    solution: Sequence[Fraction],
) -> tuple[Fraction, ...] | None:
    """The mirror image of ``solution``: each number taken from first + last; None where none is.

    Where the given numbers would move, a symmetry follows that brings them back, if there is one.
    """
    normal = normalize(tree, numbers, given)
    if normal.instance.mirror is None:
        return None
    place = {number: index for index, number in enumerate(normal.numbers)}
    arrangement = tuple(place[solution[v]] for v in normal.order)
    return normal.denormalize(normal.instance.mirrored(arrangement))
