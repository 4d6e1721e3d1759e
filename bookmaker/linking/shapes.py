"""Shapes of trees, and what the mathematics says of the trees on one page's spots."""

from __future__ import annotations

import math
from collections.abc import Hashable
from itertools import pairwise

from bookmaker.cache import Cache
from bookmaker.linking.ground import Edges
from bookmaker.model import BAND_FLOORS, BANDS, Band, Certificate, Page, Wish
from bookmaker.puzzle import Tree, Unsolvable, certify, rarity

LIKE = math.log(1.25)
"""A rarity within a quarter of what is wished does it."""
OUT_OF_REACH = 1e6
"""The miss of a tree without a solution, and of trees beyond the budget."""
MANY_SPOTS = 12
"""Above this many spots a certificate may take a second."""
BUDGET = 24
"""Trees of so many spots that are certified for one page; then the best so far is taken."""
MIXER, MASK = 0x9E3779B97F4A7C15, (1 << 64) - 1
"""An odd number of 64 bits without a pattern (two to the 64th over the golden ratio)."""


class TreeFacts:
    """What the mathematics says of trees on one page's spots, each asked for once.

    Without given numbers trees of one shape are one; with them every tree is a case of its own.
    """

    def __init__(self, page: Page, cache: Cache, seed: int) -> None:
        index = {name: vertex for vertex, name in enumerate(page.spot_names)}
        self._numbers = tuple(number.value for number in page.numbers)
        self._given = {index[name]: number.value for name, number in page.given if name in index}
        self._wish = page.wish or Wish()
        self._cache, self._seed = cache, seed
        self._certificates: dict[Hashable, Certificate | None] = {}

    @property
    def has_given(self) -> bool:
        return bool(self._given)

    def certificate(self, edges: Edges) -> Certificate | None:
        """None where no solution is known, or where the budget is spent."""
        key = self._key(edges)
        if key not in self._certificates:
            spent = len(self._numbers) > MANY_SPOTS and len(self._certificates) >= BUDGET
            self._certificates[key] = None if spent else self._certified(self._tree(edges))
        return self._certificates[key]

    def miss(self, edges: Edges) -> float:
        """How far a tree is from the wish, in the logarithm of what is wished; 0 does it.

        Work takes by far the most time, and is asked for where nothing else will do.
        """
        band, one_in = self._wish.band, self._wish.one_in
        if one_in and not band and not self._given:
            rare = rarity(self._tree(edges), self._numbers, cache=self._cache)
            if rare:
                off = abs(math.log(rare / one_in))
                return 0.0 if off <= LIKE else min(off, OUT_OF_REACH)
        progression = len({b - a for a, b in pairwise(self._numbers)}) == 1
        if not band and progression and not self._given:
            return 0.0  # every tree has a solution, for all that is known
        certificate = self.certificate(edges)
        return _off_band(certificate.work, band) if certificate else OUT_OF_REACH

    def miss_of_work(self, edges: Edges, work: float) -> float:
        """How far a tree's work is from ``work``, in logarithms."""
        certificate = self.certificate(edges)
        if certificate is None or certificate.one_in == 1:  # no puzzle, either
            return OUT_OF_REACH
        return abs(math.log(certificate.work / work))

    def _key(self, edges: Edges) -> Hashable:
        return edges if self._given else shape_of(len(self._numbers), edges)

    def _tree(self, edges: Edges) -> Tree:
        return Tree(len(self._numbers), edges)

    def _certified(self, tree: Tree) -> Certificate | None:
        try:
            return certify(tree, self._numbers, self._given, cache=self._cache, seed=self._seed)
        except Unsolvable:
            return None


def _off_band(work: float, band: Band | None) -> float:
    if band is None:
        return 0.0
    floor = BAND_FLOORS[BANDS.index(band)]
    ceiling = (*BAND_FLOORS, math.inf)[BANDS.index(band) + 1]
    if floor <= work < ceiling:
        return 0.0
    return math.log(floor / work) if work < floor else math.log(work / ceiling) + 1e-6


def shape_of(n: int, edges: Edges) -> int:
    """A key that two trees of ``n`` vertices share if, and up to 10 only if, they are alike.

    Colour refinement, which tells all trees apart when it goes on long enough: each round adds to
    a vertex's colour its neighbours', well mixed.
    """
    colours = [1] * n
    for _ in range(4):
        sums = [colour * 3 for colour in colours]
        mixed = [(colour ^ colour >> 29) * MIXER & MASK for colour in colours]
        for a, b in edges:
            sums[a] += mixed[b]
            sums[b] += mixed[a]
        colours = sums
    return sum((colour ^ colour >> 29) * MIXER & MASK for colour in colours)


def trees_of(n: int) -> list[Edges]:
    """One tree of each shape of ``n`` vertices, each grown by a leaf from a smaller one."""
    trees: list[Edges] = [()]
    for leaf in range(1, n):
        grown = ((*tree, (vertex, leaf)) for tree in trees for vertex in range(leaf))
        trees = list({shape_of(leaf + 1, tree): tree for tree in grown}.values())
    return trees
