"""Certificates: a solution and the counts that go with it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import factorial, inf

from bookmaker.cache import Cache
from bookmaker.model import Certificate
from bookmaker.puzzle.facts import building_of, facts_of, trying_of
from bookmaker.puzzle.instance import normalize
from bookmaker.puzzle.solutions import count
from bookmaker.puzzle.tree import Tree


def certify(
    tree: Tree,
    numbers: Sequence[Fraction],
    given: Mapping[int, Fraction],
    *,
    cache: Cache,
    seed: int = 0,
) -> Certificate:
    """The certificate of ``numbers`` on ``tree``, ``given`` numbers at their vertices.

    Counts cover the arrangements that agree with what is given; they are None above 12 vertices
    (8 free ones where the numbers are no progression). The solution is the one to which the hint
    ladder leads. What the two pupils need is told with its error where it is not exact (see
    ``trying`` and ``building``).
    ``seed`` moves only what is searched or simulated. The same for an empty and a warm cache.

    Raises Unsolvable, and ValueError where the numbers do not fit the tree.
    """
    normal = normalize(tree, numbers, given)
    facts = facts_of(normal.instance, cache, seed)
    counts = facts.counts
    arrangements = factorial(len(normal.instance.free))
    return Certificate(
        shape=normal.shape,
        solution=normal.denormalize(facts.solution),
        solutions=counts.solutions if counts else None,
        distinct_solutions=counts.distinct if counts else None,
        one_in=arrangements / counts.solutions if counts else None,
        trying=trying_of(normal.instance, cache, seed).rounded,
        building=building_of(normal.instance, cache, seed).rounded,
    )


def rarity(tree: Tree, numbers: Sequence[Fraction], *, cache: Cache) -> float | None:
    """What a certificate without given numbers says of ``one_in``, in a tenth of its time.

    Infinite where there is no solution, None where they are beyond counting.
    """
    counts = count(normalize(tree, numbers, {}).instance, cache)
    if counts is None:
        return None
    return factorial(tree.n) / counts.solutions if counts.solutions else inf
