"""The catalogue and the counts against published sequences."""

from __future__ import annotations

import pytest

from bookmaker.cache import MemoryCache
from bookmaker.puzzle import certify
from bookmaker.puzzle.catalogue import catalogue, sweep
from bookmaker.puzzle.descending import descending
from bookmaker.puzzle.instance import normalize
from bookmaker.puzzle.solutions import Counts, count
from bookmaker.puzzle.tree import find_symmetry
from tests.puzzle.reference import all_trees, path, progression

LABELLED_TREES = dict(enumerate((1, 1, 1, 2, 6, 20, 82, 376, 2010, 11788, 77816, 556016), start=1))
"""Gracefully labelled trees up to symmetry and mirror: OEIS A337274."""

LABELLED_PATHS = dict(enumerate((1, 2, 4, 4, 8, 24, 32, 40, 120, 296, 648, 1328), start=1))
"""Graceful labellings of the path with n vertices: OEIS A006967."""

SHAPES = dict(enumerate((1, 1, 1, 2, 3, 6, 11, 23, 47, 106), start=1))
"""Trees with n vertices: OEIS A000055."""


def counted(tree, cache) -> Counts:
    counts = count(normalize(tree, progression(tree.n), {}).instance, cache)
    assert counts is not None
    return counts


@pytest.mark.parametrize("n", range(1, 11))
def test_solved_trees_are_as_many_as_published(n: int) -> None:
    cache = MemoryCache()
    assert sum(counted(tree, cache).distinct for tree in all_trees(n)) == LABELLED_TREES[n]


@pytest.mark.slow
def test_solved_trees_of_eleven_vertices_are_as_many_as_published() -> None:
    shapes = sweep(11)
    assert len(shapes) == 235  # OEIS A000055
    assert sum(shapes.values()) == LABELLED_TREES[11]


@pytest.mark.slow
def test_solved_trees_of_twelve_vertices_counted_one_by_one_are_as_many_as_published() -> None:
    cache = MemoryCache()
    assert sum(counted(tree, cache).distinct for tree in all_trees(12)) == LABELLED_TREES[12]


@pytest.mark.parametrize(("n", "solutions"), LABELLED_PATHS.items())
def test_paths_have_as_many_solutions_as_published(n: int, solutions: int) -> None:
    assert counted(path(n), MemoryCache()).solutions == solutions


@pytest.mark.parametrize("n", range(3, 11))
def test_every_shape_is_in_the_catalogue(n: int) -> None:
    assert set(catalogue(n, MemoryCache())) == {find_symmetry(tree).form for tree in all_trees(n)}
    assert len(catalogue(n, MemoryCache())) == SHAPES[n]


@pytest.mark.parametrize("n", range(3, 10))
def test_the_catalogue_agrees_with_counting_each_tree_alone(n: int) -> None:
    shapes = catalogue(n, MemoryCache())
    for tree in all_trees(n):
        alone = sum(1 for _ in descending(normalize(tree, progression(n), {}).instance))
        assert shapes[find_symmetry(tree).form] == alone, tree


def test_a_warm_cache_gives_what_an_empty_one_gives() -> None:
    cache = MemoryCache()
    assert catalogue(8, cache) == catalogue(8, cache) == sweep(8)


def test_small_pages_leave_the_large_shapes_alone() -> None:
    keys = []

    class Watched(MemoryCache):
        def put(self, key: str, value: bytes) -> None:
            keys.append(key)
            super().put(key, value)

    certify(path(6), progression(6), {}, cache=Watched())
    assert [key for key in keys if "catalogue" in key] == ["puzzle/catalogue/1/6"]
