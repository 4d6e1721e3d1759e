"""A page put to the mathematics: a ``Page`` in, its tree, numbers and given numbers out."""

from __future__ import annotations

from fractions import Fraction

from bookmaker.model import Page
from bookmaker.puzzle.tree import Tree

RawInstance = tuple[Tree, tuple[Fraction, ...], dict[int, Fraction]]
"""What the mathematics asks for first: a tree, its numbers, those given by their vertices."""


def to_instance(page: Page) -> RawInstance:
    """``page`` without its names: vertex i is the i-th of its spots.

    Raises ValueError where the links make no tree.
    """
    names = page.spot_names
    numbers = tuple(number.value for number in page.numbers)
    given = {names.index(name): number.value for name, number in page.given}
    return Tree(len(names), page.edges), numbers, given
