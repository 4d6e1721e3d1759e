"""Loops and pieces, against networkx."""

from __future__ import annotations

import itertools

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.reading.tree import loops, pieces

SPOTS = tuple("abcdefgh")
edges = st.lists(
    st.sampled_from(list(itertools.combinations(SPOTS, 2))).flatmap(
        lambda ends: st.sampled_from([ends, ends[::-1]])
    ),
    max_size=14,
    unique_by=frozenset,
)


def graph(links: list[tuple[str, str]]) -> nx.Graph:
    made = nx.Graph()
    made.add_nodes_from(SPOTS)
    made.add_edges_from(links)
    return made


@given(edges)
def test_there_are_as_many_loops_as_links_to_take_out(links: list[tuple[str, str]]) -> None:
    found = loops(SPOTS, links)
    assert len(found) == len(nx.cycle_basis(graph(links)))
    left = [link for index, link in enumerate(links) if index not in {at for at, _ in found}]
    assert nx.is_forest(graph(left))
    assert nx.number_connected_components(graph(left)) == len(pieces(SPOTS, links))


@given(edges)
def test_a_loop_goes_round_along_links_and_back_to_its_first_spot(
    links: list[tuple[str, str]],
) -> None:
    for index, way in loops(SPOTS, links):
        steps = {frozenset(step) for step in itertools.pairwise(way)}
        assert way[0] == way[-1] == min(way) and len(set(way)) == len(way) - 1 == len(steps)
        assert steps <= {frozenset(link) for link in links[: index + 1]}
        assert frozenset(links[index]) in steps
        assert way[1] < way[-2]


@given(edges)
def test_pieces_are_the_connected_components(links: list[tuple[str, str]]) -> None:
    expected = {frozenset(piece) for piece in nx.connected_components(graph(links))}
    found = pieces(SPOTS, links)
    assert {frozenset(piece) for piece in found} == expected
    assert sorted(found) == found and all(list(piece) == sorted(piece) for piece in found)


def test_the_loop_of_the_interface_is_named_as_there() -> None:
    links = [("nose", "back"), ("back", "tail"), ("back", "paw"), ("nose", "paw")]
    assert loops(("nose", "back", "tail", "paw"), links) == [(3, ("nose", "back", "paw", "nose"))]
