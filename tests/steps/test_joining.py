"""Links chosen for a page: no better choice is found by trying every one."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

import pytest
from shapely import LineString, Point

from bookmaker.cache import MemoryCache
from bookmaker.layout.tree import NoCleanLayout, Sizes, arrange
from bookmaker.model import Number, Page, Spot, Wish, progression
from bookmaker.puzzle import Tree, certify
from bookmaker.steps.joining import _places, choose, shape_of
from tests.layout import sets

Edge = tuple[int, int]
Edges = tuple[Edge, ...]
Places = list[tuple[float, float]]
CACHE = MemoryCache()
KNOWN: dict[int, float] = {}
SIZES = Sizes.of("a4", 2)
FLOORS = {"gentle": (0, 20), "steady": (20, 70), "steep": (70, 250), "sheer": (250, math.inf)}
"""Where the bands begin and end, in subtractions: the design's glossary."""


def page(number: int, band: str) -> Page:
    """A page of eight spots (of the judged sets), its links left to us."""
    cases = [case for case in sets.anatomical(120, "a4", seed=21) if len(case.spots) == 8]
    case, box = cases[number], cases[number].frame
    spots = tuple(
        Spot(name, 100 * (x - box.x) / box.width, 100 * (y - box.y) / box.height)
        for name, x, y in case.spots
    )
    numbers = progression(Number.parse("1"), Number.parse("2"), len(spots))
    wish = Wish(band=band)
    return Page("p", "P", "c", "c.toml", 1, None, "", "", spots, (), numbers, wish=wish)


@pytest.mark.parametrize(("number", "band"), [(0, "steady"), (1, "steep"), (2, "steady")])
def test_no_tree_in_the_band_that_can_be_laid_out_costs_less(number: int, band: str) -> None:
    """Reference: every spanning tree without crossings, these told by shapely."""
    wished = page(number, band)
    places, area = _places(wished, None, "a4")
    choice = choose(wished, None, "a4", CACHE, 1)
    assert choice.reached
    chosen = tuple(sorted(tuple(sorted(edge)) for edge in choice.page.edges))
    fitting = [tree for tree in every_plane_tree(places) if is_in(band, tree)]
    assert chosen in fitting
    spots = [(spot.name, *at) for spot, at in zip(wished.spots, places, strict=True)]
    least = cost(places, chosen)  # type: ignore[arg-type]
    better = [tree for tree in fitting if cost(places, tree) < least - 1e-6]
    for tree in better:
        links = [(wished.spots[a].name, wished.spots[b].name) for a, b in tree]
        with pytest.raises(NoCleanLayout):
            arrange(spots, links, area, SIZES)


def every_plane_tree(places: Places) -> Iterator[Edges]:
    edges = list(combinations(range(len(places)), 2))
    lines = [LineString([places[a], places[b]]) for a, b in edges]
    crossing = [
        {
            j
            for j in range(len(edges))
            if not set(edges[i]) & set(edges[j]) and lines[i].intersects(lines[j])
        }
        for i in range(len(edges))
    ]

    def grown(start: int, taken: tuple[int, ...], piece: tuple[int, ...]) -> Iterator[Edges]:
        if len(taken) == len(places) - 1:
            yield tuple(edges[i] for i in taken)
            return
        for i in range(start, len(edges)):
            a, b = (piece[end] for end in edges[i])
            if a != b and not crossing[i] & set(taken):
                merged = tuple(a if p == b else p for p in piece)
                yield from grown(i + 1, (*taken, i), merged)

    return grown(0, (), tuple(range(len(places))))


def is_in(band: str, tree: Edges) -> bool:
    least, most = FLOORS[band]
    return least <= work(shape_of(len(tree) + 1, tree), tree) < most


def work(shape: int, tree: Edges) -> float:
    """The work of a tree; trees of one ``shape`` share it, and so few are worked out."""
    if shape not in KNOWN:
        numbers = tuple(Number.parse(str(2 * k + 1)).value for k in range(len(tree) + 1))
        KNOWN[shape] = certify(Tree(len(numbers), tree), numbers, {}, cache=CACHE, seed=1).work
    return KNOWN[shape]


def cost(places: Places, tree: Edges) -> float:
    """Millimetres of link; 60 more for one too short for its tag, 80 for each spot that it passes
    too near, 60 for two that leave a spot at less than 25 degrees."""
    total = 0.0
    for a, b in tree:
        line = LineString([places[a], places[b]])
        near = sum(line.distance(Point(p)) < 13 for k, p in enumerate(places) if k not in (a, b))
        total += line.length + 60 * (line.length < 20 + 15 + 6) + 80 * near
    for one, other in combinations(tree, 2):
        for middle in set(one) & set(other):
            turns = [_turn(places, middle, edge) for edge in (one, other)]
            off = abs((turns[0] - turns[1] + math.pi) % (2 * math.pi) - math.pi)
            total += 60 * (off < math.radians(25))
    return total


def _turn(places: Places, middle: int, edge: Edge) -> float:
    (x, y), (fx, fy) = places[middle], places[sum(edge) - middle]
    return math.atan2(fy - y, fx - x)
