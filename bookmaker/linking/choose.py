"""Links chosen for one page that leaves them to us (``links = "auto"``)."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace

from bookmaker.cache import Cache
from bookmaker.linking.ground import Edges
from bookmaker.linking.page_trees import PageTrees, links_of
from bookmaker.linking.plane_trees import Joined
from bookmaker.linking.shapes import TreeFacts, shape_of, trees_of
from bookmaker.model import Certificate, Page, Picture

ALL_SHAPES = 8
"""Up to this many spots all shapes there are get looked at beforehand."""
WITH_GIVEN = 8
"""Shapes of which trees are tried where numbers are given, those nearest to the wish first."""
EACH = 3
"""Trees of each of these shapes."""


@dataclass(frozen=True, slots=True)
class Choice:
    """The links chosen for a page, and whether they do what it wishes."""

    page: Page
    certificate: Certificate | None
    reached: bool


def choose(
    page: Page,
    picture: Picture | None,
    paper: str,
    cache: Cache,
    seed: int,
    avoided: Collection[int] = (),
) -> Choice:
    """The best links for ``page``: those that do what it wishes, are clean, and follow it.

    ``avoided`` are shapes (``shape_of``) that are taken only where nothing else does as well.
    """
    trees, facts = PageTrees(page, picture, paper, cache), TreeFacts(page, cache, seed)
    n = len(page.spots)
    found = _with_given(trees, facts) if facts.has_given else _by_shape(trees, facts)
    nearest = [tree for tree in found if tree.miss == found[0].miss]
    nearest.sort(key=lambda tree: shape_of(n, tree.edges) in avoided)
    best = next(trees.clean(nearest), nearest[0])
    joined = replace(page, links=links_of(page, best.edges))
    return Choice(joined, facts.certificate(best.edges), best.miss == 0)


def _by_shape(trees: PageTrees, facts: TreeFacts) -> tuple[Joined, ...]:
    wanted: list[Edges] = []
    n = len(trees.places)
    if n <= ALL_SHAPES:
        misses = {edges: facts.miss(edges) for edges in trees_of(n)}
        wanted = [edges for edges in misses if misses[edges] == min(misses.values())]
    return trees.best(facts.miss, wanted)


def _with_given(trees: PageTrees, facts: TreeFacts) -> list[Joined]:
    """Trees with what they miss, the given numbers counted: each tree is a case of its own."""
    found = {tree.edges: tree for tree in candidates(trees)}
    weighed = (replace(tree, miss=facts.miss(tree.edges)) for tree in found.values())
    return sorted(weighed, key=lambda tree: tree.rank)


def candidates(trees: PageTrees) -> Iterator[Joined]:
    """Some cheap trees of every kind, among which each is looked at by itself."""
    n = len(trees.places)
    yield from trees.best(lambda edges: 0.0)
    if n <= ALL_SHAPES:
        shapes = trees_of(n)
        for shape in shapes[:: max(1, len(shapes) // WITH_GIVEN)]:
            yield from trees.of_shape(shape)[:EACH]
