"""Trees against networkx (its isomorphism, automorphisms, centre and diameter)."""

from __future__ import annotations

from itertools import product
from random import Random

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.puzzle.tree import Tree, find_symmetry
from tests.puzzle.reference import all_trees, automorphisms, graph_of, path, random_tree, star

SHAPES = dict(enumerate((1, 1, 1, 2, 3, 6, 11, 23, 47, 106), start=1))
"""Trees with n vertices: OEIS A000055."""

sizes = st.integers(1, 24)
seeds = st.integers(0, 10**6)


@pytest.mark.parametrize(("n", "count"), SHAPES.items())
def test_every_shape_has_a_form_of_its_own(n: int, count: int) -> None:
    assert len({find_symmetry(tree).form for tree in all_trees(n)}) == count


@given(sizes, seeds)
def test_naming_the_vertices_otherwise_keeps_the_form(n: int, seed: int) -> None:
    tree = random_tree(n, seed)
    order = tuple(Random(seed).sample(range(n), n))
    assert find_symmetry(tree.relabelled(order)).form == find_symmetry(tree).form


@given(sizes, seeds)
def test_equal_forms_match_vertex_by_vertex(n: int, seed: int) -> None:
    tree = random_tree(n, seed)
    other = tree.relabelled(tuple(Random(seed).sample(range(n), n)))
    one = tree.relabelled(find_symmetry(tree).order)
    assert one == other.relabelled(find_symmetry(other).order)


@given(st.integers(2, 9), seeds, seeds)
def test_forms_agree_exactly_where_networkx_finds_an_isomorphism(n: int, a: int, b: int) -> None:
    one, other = random_tree(n, a), random_tree(n, b)
    same = nx.is_isomorphic(graph_of(one), graph_of(other))
    assert (find_symmetry(one).form == find_symmetry(other).form) == same


@pytest.mark.parametrize("n", range(1, 9))
def test_symmetries_are_as_many_as_networkx_counts(n: int) -> None:
    for tree in all_trees(n):
        assert find_symmetry(tree).count == len(automorphisms(tree)), tree


@pytest.mark.parametrize("n", range(2, 8))
def test_symmetries_that_keep_coloured_vertices_are_as_many_as_networkx_counts(n: int) -> None:
    for tree in all_trees(n):
        group = automorphisms(tree)
        for a, b in product(range(n), repeat=2):
            kept = [m for m in group if m[a] == a and m[b] == b]
            assert find_symmetry(tree, {a: 1, b: 2}).count == len(kept), (tree, a, b)


@given(st.integers(1, 9), seeds)
def test_exchanging_alike_branches_keeps_every_link(n: int, seed: int) -> None:
    tree = random_tree(n, seed)
    links = {frozenset(edge) for edge in tree.edges}
    for pairs in find_symmetry(tree).exchanges:
        moves = {a: b for one, other in pairs for a, b in ((one, other), (other, one))}
        assert {frozenset(moves.get(v, v) for v in edge) for edge in tree.edges} == links


@given(st.integers(1, 8), seeds)
def test_symmetries_are_those_of_networkx(n: int, seed: int) -> None:
    tree = random_tree(n, seed)
    expected = {tuple(moves[v] for v in range(n)) for moves in automorphisms(tree)}
    elements = find_symmetry(tree).elements
    assert len(elements) == len(expected)
    assert set(elements) == expected


@given(st.integers(1, 8), seeds)
def test_orbits_are_those_of_networkx(n: int, seed: int) -> None:
    tree = random_tree(n, seed)
    group = automorphisms(tree)
    expected = tuple(tuple(sorted({moves[v] for moves in group})) for v in range(n))
    assert find_symmetry(tree).orbits == expected


@given(st.integers(2, 24), seeds)
def test_centre_and_diameter_are_those_of_networkx(n: int, seed: int) -> None:
    tree = random_tree(n, seed)
    assert sorted(tree.centre) == sorted(nx.center(graph_of(tree)))
    assert tree.diameter == nx.diameter(graph_of(tree))


@given(st.integers(3, 16), seeds)
def test_a_caterpillar_is_a_path_once_its_leaves_are_off(n: int, seed: int) -> None:
    tree = random_tree(n, seed)
    inner = graph_of(tree).subgraph([v for v in range(n) if tree.degrees[v] > 1])
    assert tree.is_caterpillar == all(degree <= 2 for _, degree in inner.degree())


@pytest.mark.parametrize(
    ("n", "edges"),
    [
        (0, ()),
        (2, ()),
        (3, ((0, 1), (0, 1))),
        (3, ((0, 1), (1, 1))),
        (4, ((0, 1), (1, 2), (2, 0))),
        (3, ((0, 1), (1, 3))),
        (3, ((0, 1), (1, -1))),
    ],
)
def test_what_is_no_tree_is_refused(n: int, edges: tuple[tuple[int, int], ...]) -> None:
    with pytest.raises(ValueError):
        Tree(n, edges)


def test_a_star_may_exchange_all_its_leaves_and_a_path_its_halves() -> None:
    assert find_symmetry(star(5)).alike == (((1,), (2,), (3,), (4,)),)
    assert find_symmetry(path(4)).alike == (((1, 0), (2, 3)),)
