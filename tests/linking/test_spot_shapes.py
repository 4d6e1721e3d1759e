"""Places for trees without a picture: inside the page, and no links cross."""

import math
from itertools import combinations

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString

from bookmaker.linking.spot_shapes import EDGE, place_tree


def random_tree(count: int, seed: int) -> list[tuple[int, int]]:
    return [(a, b) for a, b in nx.random_labeled_tree(count, seed=seed).edges()]


@given(st.integers(2, 24), st.integers(0, 10**6))
def test_links_do_not_cross_and_spots_keep_inside(count: int, seed: int) -> None:
    """Reference: crossings told by shapely, trees by networkx."""
    edges = random_tree(count, seed)
    places = place_tree(count, edges)
    assert len(places) == count
    for x, y in places:
        assert EDGE - 1e-6 <= x <= 100 - EDGE + 1e-6
        assert EDGE - 1e-6 <= y <= 100 - EDGE + 1e-6
    for one, other in combinations(edges, 2):
        if not set(one) & set(other):
            assert not LineString([places[v] for v in one]).intersects(
                LineString([places[v] for v in other])
            )


@given(st.integers(2, 10), st.integers(0, 10**6))
def test_no_two_spots_lie_on_each_other(count: int, seed: int) -> None:
    places = place_tree(count, random_tree(count, seed))
    assert all(math.dist(*pair) > 4 for pair in combinations(places, 2))


def test_what_is_no_tree_is_refused() -> None:
    with pytest.raises(ValueError, match="no tree"):
        place_tree(4, [(0, 1), (1, 2), (2, 0)])
