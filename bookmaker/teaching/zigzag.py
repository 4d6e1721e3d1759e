"""The zigzag: smaller and larger numbers in turn along a page's longest line of spots.

Rosa (1967) solves every caterpillar so, a tree whose vertices lie on one path or next to it: along
the path one number stays and the next comes nearer, so that each difference is smaller than the
one before, whatever the numbers are.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from bookmaker.model import Arranged, CertifiedPage, Number
from bookmaker.puzzle import Tree, to_instance

Group = tuple[tuple[int, ...], list[Number]]
"""Vertices, and as many numbers that go to them."""


def zigzag(certified: CertifiedPage) -> Arranged | None:
    """The page solved by a zigzag; None where its tree or its given numbers allow none."""
    tree, _, given = to_instance(certified)
    if not tree.is_caterpillar:
        return None
    numbers = sorted(certified.numbers, key=lambda number: number.value)
    for line in (tree.longest_path, tree.longest_path[::-1]):
        for row in (numbers, numbers[::-1]):
            arranged = _filled(_groups(tree, line[1:-1] or line[:1], row), given)
            if arranged:
                return tuple(arranged[v] for v in range(tree.n))
    return None


def _groups(tree: Tree, line: Sequence[int], row: Sequence[Number]) -> Iterator[Group]:
    """The spots of ``line``, which has no ends, each by itself, and those that hang on one
    together: the numbers from both ends of ``row`` in turn go to each. Within a group any order
    does."""
    free, from_end = list(row), True
    for v in line:
        own = [free.pop() if from_end else free.pop(0)]
        yield (v,), own
        aside = tuple(w for w in tree.neighbours[v] if w not in line)
        yield aside, [free.pop(0) if from_end else free.pop() for _ in aside]
        from_end = not from_end


def _filled(groups: Iterable[Group], given: Mapping[int, Fraction]) -> dict[int, Number] | None:
    """The number at each vertex; None where a given one is not among its group's."""
    at: dict[int, Number] = {}
    for vertices, numbers in groups:
        for v in vertices:
            fitting = [number for number in numbers if number.value == given.get(v)]
            if v in given and not fitting:
                return None
            at.update((v, number) for number in fitting)
        rest = iter(number for number in numbers if number not in at.values())
        at.update((v, next(rest)) for v in vertices if v not in given)
    return at
