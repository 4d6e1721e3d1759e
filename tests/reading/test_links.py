"""Each fault of a page's links is told once, and its mend makes it go."""

from __future__ import annotations

from pathlib import Path

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.model import Problem
from bookmaker.reading.links import check_links
from bookmaker.reading.spots import check_spots
from bookmaker.reading.table import Source, Table
from bookmaker.reading.toml import parse

SPOTS = ("a", "b", "c", "d", "e")


def page_of(links: list[str], spots: tuple[str, ...] = SPOTS) -> Table:
    """A page with each link on a line of its own: the first is on line 2."""
    places = "".join(f"spots.{spot} = [{place}, 1]\n" for place, spot in enumerate(spots))
    text = "links = [\n" + "".join(f'"{link}",\n' for link in links) + "]\n" + places
    parsed = parse(text.encode())
    assert parsed.values is not None
    return Table(Source("page.toml", Path("page.toml"), parsed), (), parsed.values, "Newt")


def told(links: list[str]) -> list[Problem]:
    return list(check_links(page_of(links)))


def codes(links: list[str]) -> list[str]:
    return sorted(problem.code for problem in told(links))


names = st.sampled_from([*SPOTS, "x"])
links = st.lists(st.tuples(names, names).map("-".join), max_size=9)


@given(links)
def test_every_kind_of_fault_is_told_as_often_as_it_is_there(links: list[str]) -> None:
    graph = nx.Graph()
    graph.add_nodes_from(SPOTS)
    spoilt = 0
    seen: set[frozenset[str]] = set()
    expected = ["unknown-spot"] * any("x" in link for link in links)
    for link in links:
        ends = frozenset(link.split("-"))
        expected += ["self-link"] * (len(ends) == 1)
        expected += ["repeated-link"] * (len(ends) == 2 and ends in seen)
        if len(ends) == 2 and ends not in seen and "x" not in ends:
            graph.add_edge(*ends)
        else:
            spoilt += 1
        seen.add(ends)
    expected += ["loop"] * len(nx.cycle_basis(graph))
    pieces = nx.number_connected_components(graph)
    expected += ["disconnected"] * (pieces - 1 > spoilt)
    assert codes(links) == sorted(expected)


@given(links)
def test_taking_out_what_is_told_leaves_nothing_but_loose_pieces(links: list[str]) -> None:
    lines = {problem.line - 2 for problem in told(links) if problem.code != "disconnected"}
    left = [link for place, link in enumerate(links) if place not in lines and "x" not in link]
    assert set(codes(left)) <= {"disconnected"}


@given(st.permutations(["a-b", "b-c", "d-c", "c-e"]))
def test_a_tree_has_no_fault_in_any_order(links: list[str]) -> None:
    assert told(links) == []


def test_the_pieces_are_named() -> None:
    (problem,) = told(["a-b", "d-c"])
    assert str(problem) == (
        "page.toml:1: Newt: the spots fall into 3 pieces: a and b; c and d; e. "
        "Add 2 links to join them up."
    )


def test_links_that_name_one_unknown_spot_are_told_together() -> None:
    (problem,) = told(["a-b", "b-x", "x-c", "c-d", "d-e"])
    assert str(problem) == (
        "page.toml:3: Newt: the links b-x and x-c name a spot that the page does not have: x. "
        "The page's spots are a, b, c, d and e; the nearest is a."
    )


def test_a_page_with_one_spot_is_not_told_that_its_links_lead_nowhere() -> None:
    page = page_of(["a-b", "b-c"], ("a",))
    assert list(check_links(page)) == []
    assert [problem.code for problem in check_spots(page)] == ["too-few-spots"]
