"""Links chosen: no better tree is found by trying every one."""

import math
import random
from collections import Counter
from itertools import combinations, product
from unittest import mock

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.linking import plane_trees as engine
from bookmaker.linking.ground import Ground
from bookmaker.linking.plane_trees import join
from bookmaker.linking.shapes import shape_of, trees_of
from bookmaker.placement.sizes import Sizes

SIZES = Sizes.of("a4", 2)
Point = tuple[float, float]
Edges = tuple[tuple[int, int], ...]


def scattered(count: int, seed: int) -> list[Point]:
    """Spots at random over an A4 picture, at least 32 mm apart."""
    rng = random.Random(seed)
    spots: list[Point] = []
    while len(spots) < count:
        spot = (rng.uniform(24, 190), rng.uniform(44, 250))
        if all(math.dist(spot, other) > 32 for other in spots):
            spots.append(spot)
    return spots


def miss_star(edges: Edges) -> float:
    """Wants a spot with four links."""
    ends = [end for edge in edges for end in edge]
    return float(abs(max(ends.count(end) for end in set(ends)) - 4))


def every_tree(n: int) -> list[Edges]:
    """Reference: all spanning trees by their Pruefer sequences, with networkx."""
    sequences = product(range(n), repeat=n - 2)
    trees = (nx.from_prufer_sequence(list(sequence)) for sequence in sequences)
    return [tuple(sorted(tuple(sorted(edge)) for edge in tree.edges())) for tree in trees]  # type: ignore[misc]


def crosses(spots: list[Point], one: tuple[int, int], other: tuple[int, int]) -> bool:
    from shapely import LineString

    lines = [LineString([spots[end] for end in edge]) for edge in (one, other)]
    return not set(one) & set(other) and lines[0].intersects(lines[1])


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("count", [3, 4, 5, 6])
def test_no_tree_is_better_than_the_first(count: int, seed: int) -> None:
    """Reference: every tree, crossings told by shapely; the cost is the engine's own."""
    spots = scattered(count, seed)
    ground = Ground(spots, SIZES)
    plane = [
        tree
        for tree in every_tree(count)
        if not any(crosses(spots, *pair) for pair in combinations(tree, 2))
    ]
    best = min(plane, key=lambda tree: (miss_star(tree), round(ground.cost(tree), 6), tree))
    assert join(spots, SIZES, miss_star)[0].edges == best


@given(st.integers(3, 8), st.integers(0, 10**6), st.randoms(use_true_random=False))
def test_the_order_of_the_spots_changes_no_tree(count: int, seed: int, rng: random.Random) -> None:
    if count > 6:
        count = 6
    spots = scattered(count, seed)
    order = list(range(count))
    rng.shuffle(order)
    straight = join(spots, SIZES, miss_star)[0]
    mixed = join([spots[i] for i in order], SIZES, miss_star)[0]
    assert mixed.cost == pytest.approx(straight.cost)
    assert mixed.miss == straight.miss


def test_many_spots_are_joined_without_crossings() -> None:
    spots = scattered(14, 5)
    edges = join(spots, SIZES, miss_star)[0].edges
    assert nx.is_tree(nx.Graph(list(edges)))
    assert not any(crosses(spots, *pair) for pair in combinations(edges, 2))


@pytest.mark.parametrize("seed", range(5))
@pytest.mark.parametrize("most", [3, 5, 6, 8])
def test_nine_spots_get_what_is_wished_and_hardly_dearer_than_any_tree_that_does_it(
    seed: int, most: int
) -> None:
    """Reference: every tree without crossings, as up to eight spots. One that has a hub is many
    exchanges from the shortest, over trees that are no nearer to the wish by ``miss``."""

    def miss(edges: Edges) -> float:
        ends = Counter(end for edge in edges for end in edge)
        return abs(math.log(sum(math.comb(n, 2) for n in ends.values()) / (math.comb(most, 2) + 8)))

    spots = scattered(9, seed)
    misses = {tree: miss(tree) for tree in trees_of(9)}
    wanted = [tree for tree in misses if misses[tree] == min(misses.values())]
    found = join(spots, SIZES, miss)[0]
    with mock.patch.object(engine, "EXACT", 9):
        best = join(spots, SIZES, miss, wanted)[0]
    assert found.miss == best.miss
    assert found.cost <= 1.1 * best.cost


def test_no_tree_for_many_spots_is_handed_on_twice() -> None:
    for seed, most in product(range(3), (3, 9)):
        found = join(scattered(10, seed), SIZES, lambda edges, most=most: miss_star(edges) // most)
        assert len({tree.edges for tree in found}) == len(found)


@pytest.mark.parametrize("step", [(40.0, 0.0), (0.0, 40.0), (24.1, 33.3)])
@pytest.mark.parametrize("count", [4, 5, 10])
def test_spots_on_one_line_are_joined_along_it(count: int, step: tuple[float, float]) -> None:
    """Links that follow each other on a line lie apart, as shapely says of them."""
    spots = [(30 + k * step[0], 40 + k * step[1]) for k in range(count)]
    along = {(k, k + 1) for k in range(count - 1)}
    assert not crosses(spots, (0, 1), (2, 3))
    assert set(join(spots, SIZES, lambda _: 0.0)[0].edges) == along


def test_alike_trees_share_a_key_and_no_others_up_to_ten_spots() -> None:
    """Reference: networkx's list of trees that are not alike (numbers: OEIS A000055)."""
    for n, count in zip(range(2, 11), (1, 1, 2, 3, 6, 11, 23, 47, 106), strict=True):
        trees = [tuple(tree.edges()) for tree in nx.nonisomorphic_trees(n)]
        assert len({shape_of(n, tree) for tree in trees}) == count
        rng = random.Random(n)
        for tree in trees[:20]:
            order = list(range(n))
            rng.shuffle(order)
            mixed = tuple((order[b], order[a]) for a, b in tree)
            assert shape_of(n, mixed) == shape_of(n, tree)


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("most", [3, 4, 5, 9])
def test_knowing_the_wanted_shapes_changes_nothing_but_the_time(seed: int, most: int) -> None:
    def miss(edges: Edges) -> float:
        ends = [end for edge in edges for end in edge]
        return float(abs(max(ends.count(end) for end in set(ends)) - most))

    spots = scattered(7, seed)
    misses = {tree: miss(tree) for tree in trees_of(7)}
    wanted = [tree for tree in misses if misses[tree] == min(misses.values())]
    told, untold = join(spots, SIZES, miss, wanted), join(spots, SIZES, miss)
    best = [tree for tree in untold if tree.miss == untold[0].miss]
    assert [tree for tree in told if tree.miss == told[0].miss] == best


def test_there_is_one_tree_of_each_shape() -> None:
    """Numbers: OEIS A000055."""
    for n, count in zip(range(2, 9), (1, 1, 2, 3, 6, 11, 23), strict=True):
        trees = trees_of(n)
        assert len(trees) == count
        assert all(nx.is_tree(nx.Graph(list(tree))) and len(tree) == n - 1 for tree in trees)
        assert len({shape_of(n, tree) for tree in trees}) == count


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("count", [4, 5, 6])
def test_no_tree_is_better_when_some_links_count_as_longer(count: int, seed: int) -> None:
    """Reference: every tree, crossings told by shapely; what links cost by themselves is the
    engine's own, what they count as longer is added here."""
    spots, rng = scattered(count, seed), random.Random(seed)
    extra = {pair: rng.choice((0.0, rng.uniform(0, 300))) for pair in combinations(range(count), 2)}
    ground = Ground(spots, SIZES)

    def cost(tree: Edges) -> float:
        return round(ground.cost(tree) + sum(extra[edge] for edge in tree), 6)

    plane = [
        tree
        for tree in every_tree(count)
        if not any(crosses(spots, *pair) for pair in combinations(tree, 2))
    ]
    ranked = sorted(plane, key=lambda tree: (miss_star(tree), cost(tree), tree))
    found = join(spots, SIZES, miss_star, extra=extra)
    assert [tree.edges for tree in found] == ranked[: len(found)]
    assert [tree.cost for tree in found] == pytest.approx([cost(t) for t in ranked[: len(found)]])


def test_a_long_way_round_is_taken_where_the_short_one_counts_as_longer() -> None:
    """More spots than are searched in full: a ring of them, opened where a link costs extra."""
    ring = [(105 + 80 * math.sin(k / 5 * math.pi), 140 - 80 * math.cos(k / 5 * math.pi))
            for k in range(10)]  # fmt: skip
    for dear in ((2, 3), (0, 9)):
        edges = join(ring, SIZES, lambda _: 0.0, extra={dear: 100.0})[0].edges
        around = {(k, k + 1) for k in range(9)} | {(0, 9)}
        assert set(edges) == around - {dear}
