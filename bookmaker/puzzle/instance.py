"""A puzzle in normal form: what all the searching, counting and simulating is done on.

Two pages that differ only by the names of their spots, or by the start and the step of their
numbers, have one normal form, and so everything that is known of the one is known of the other.
Numbers are spoken of by their place, 0 for the smallest ... n - 1 for the largest; an arrangement
is a tuple that holds the place of the number at each vertex.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import gcd, lcm

from bookmaker.puzzle.tree import Symmetry, Tree, find_symmetry, settled

Arrangement = tuple[int, ...]


@dataclass(frozen=True)
class Instance:
    """A tree in canonical order, its numbers, and the numbers that are given.

    ``values`` ascend from 0 and have no common factor; ``given`` pairs vertices with places.
    ``symmetry`` holds the symmetries that keep every given number where it is.
    """

    tree: Tree
    values: tuple[int, ...]
    given: tuple[tuple[int, int], ...]
    symmetry: Symmetry

    @cached_property
    def given_at(self) -> dict[int, int]:
        return dict(self.given)

    @cached_property
    def free(self) -> tuple[int, ...]:
        """The vertices that still need a number."""
        return tuple(v for v in range(self.tree.n) if v not in self.given_at)

    @property
    def is_progression(self) -> bool:
        """Whether each number is one step more than the last: values 0, 1, 2, ..."""
        return self.values[-1] == self.tree.n - 1

    @cached_property
    def mirror(self) -> tuple[int, ...] | None:
        """Where the mirror carries each vertex, None where there is no mirror.

        The mirror replaces each number by first + last - number; a symmetry may have to follow
        to bring the given numbers back to their vertices.
        """
        top = self.values[-1]
        if any(low + high != top for low, high in zip(self.values, self.values[::-1], strict=True)):
            return None
        last = self.tree.n - 1
        if not self.given:
            return tuple(range(self.tree.n))
        mirrored = find_symmetry(self.tree, {v: last - place for v, place in self.given})
        if mirrored.form != self.symmetry.form:
            return None
        moves = dict(zip(mirrored.order, self.symmetry.order, strict=True))
        return tuple(moves[v] for v in range(self.tree.n))

    @property
    def key(self) -> str:
        """A text equal for equal instances only."""
        numbers = "" if self.is_progression else ",".join(map(str, self.values))
        return f"{self.symmetry.form} {numbers}"

    def giving(self, vertex: int, place: int) -> Instance:
        """The instance in which the number at ``place`` is given to ``vertex`` as well."""
        given = (*self.given, (vertex, place))
        return replace(self, given=given, symmetry=find_symmetry(self.tree, dict(given)))

    @cached_property
    def differences(self) -> tuple[tuple[int, ...], ...]:
        """``differences[i][j]`` is the difference of the numbers at places i and j."""
        return tuple(tuple(abs(a - b) for b in self.values) for a in self.values)

    def mirrored(self, arrangement: Arrangement) -> Arrangement:
        """The mirror of an arrangement; only where there is a mirror."""
        assert self.mirror is not None
        image = [0] * self.tree.n
        for v, to in enumerate(self.mirror):
            image[to] = self.tree.n - 1 - arrangement[v]
        return tuple(image)

    def settled(self, arrangement: Arrangement) -> Arrangement:
        """The one image under the symmetries in which the tops of alike branches ascend."""
        return settled(arrangement, self.symmetry.alike)


@dataclass(frozen=True)
class Normalized:
    """An instance, and how to bring its answers back to the tree and numbers it was made of.

    ``shape`` is the form of the tree alone. The instance's vertex i is that tree's ``order[i]``,
    its place i stands for ``numbers[i]``.
    """

    instance: Instance
    shape: str
    order: tuple[int, ...]
    numbers: tuple[Fraction, ...]

    def denormalize(self, arrangement: Arrangement) -> tuple[Fraction, ...]:
        """The number at each vertex of the tree that was normalized."""
        numbers: list[Fraction] = list(self.numbers)
        for v, place in zip(self.order, arrangement, strict=True):
            numbers[v] = self.numbers[place]
        return tuple(numbers)


def normalize(tree: Tree, numbers: Sequence[Fraction], given: Mapping[int, Fraction]) -> Normalized:
    """Bring a puzzle into normal form.

    Raises ValueError where the numbers are not n different ones, or a given number is not among
    them, is given twice, or stands at no vertex.
    """
    ascending = tuple(sorted(map(Fraction, numbers)))
    values = _scaled(ascending)
    if len(set(values)) != tree.n or len(values) != tree.n:
        raise ValueError(f"{tree.n} vertices need {tree.n} different numbers")
    places = _places(tree, ascending, given)
    coloured = find_symmetry(tree, places)
    instance = Instance(
        tree=tree.relabelled(coloured.order),
        values=values,
        given=tuple(sorted((coloured.order.index(v), place) for v, place in places.items())),
        symmetry=coloured.renamed(),
    )
    shape = find_symmetry(tree).form if places else coloured.form
    return Normalized(instance, shape, coloured.order, ascending)


def _places(
    tree: Tree, ascending: tuple[Fraction, ...], given: Mapping[int, Fraction]
) -> dict[int, int]:
    """The given numbers, by their places. Raises ValueError where they can't be given."""
    if len(set(given.values())) != len(given):
        raise ValueError("a number is given twice")
    if not all(0 <= v < tree.n and number in ascending for v, number in given.items()):
        raise ValueError("a given number is not among the numbers, or at no vertex")
    return {v: ascending.index(Fraction(number)) for v, number in given.items()}


def _scaled(ascending: Sequence[Fraction]) -> tuple[int, ...]:
    """Whole numbers from 0, without a common factor, in the same proportions."""
    whole = lcm(*(number.denominator for number in ascending))
    values = [number.numerator * (whole // number.denominator) for number in ascending]
    offsets = [value - values[0] for value in values]
    factor = gcd(*offsets) or 1
    return tuple(offset // factor for offset in offsets)
