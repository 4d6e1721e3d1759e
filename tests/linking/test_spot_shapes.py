"""Places for trees without a picture: inside the page, and no links cross."""

import math
from dataclasses import replace
from itertools import combinations

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString

from bookmaker.linking.page_trees import HEAD_AND_FOOT
from bookmaker.linking.spot_shapes import EDGE, place_tree
from bookmaker.placement import NoCleanLayout, Sizes, arrange
from bookmaker.typeset import Sheet


def random_tree(count: int, seed: int) -> list[tuple[int, int]]:
    return [(a, b) for a, b in nx.random_labeled_tree(count, seed=seed).edges()]


@settings(max_examples=40)
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


def lays_out(paper: str, count: int, edges: list[tuple[int, int]]) -> bool:
    area = Sheet(paper, recto=True).area
    frame = replace(area, height=area.height - HEAD_AND_FOOT)
    names = [f"s{vertex}" for vertex in range(count)]
    spots = [
        (name, frame.x + x * frame.width / 100, frame.y + y * frame.height / 100)
        for name, (x, y) in zip(names, place_tree(count, edges), strict=True)
    ]
    try:
        arrange(spots, [(names[a], names[b]) for a, b in edges], frame, Sizes.of(paper, 2))
    except NoCleanLayout:
        return False
    return True


@pytest.mark.parametrize(
    ("paper", "count", "seed"),
    [("a3", 20, 1), ("a3", 28, 2), ("a3", 35, 3), ("a4", 12, 4), ("a4", 15, 5), ("a5", 10, 6)],
)
def test_a_tree_of_many_spots_is_spread_so_that_it_lies_clean(
    paper: str, count: int, seed: int
) -> None:
    assert lays_out(paper, count, random_tree(count, seed))


@pytest.mark.parametrize("paper", ["a3", "a4"])
def test_a_star_takes_as_many_leaves_as_links_can_leave_one_spot(paper: str) -> None:
    """Fourteen spots: thirteen links at 27 degrees, where 25 are asked for."""
    assert lays_out(paper, 14, [(0, leaf) for leaf in range(1, 14)])


def test_what_is_no_tree_is_refused() -> None:
    with pytest.raises(ValueError, match="no tree"):
        place_tree(4, [(0, 1), (1, 2), (2, 0)])
