"""The climb: links for all pages of a book at once, so that work rises from first to last.

Every page has a target; every page's spots allow some puzzles, each with its work and with what its
links cost over the ground. One is taken for each page, so that the book misses its targets least,
in logarithms, with a price for links that leave the creature and one for a puzzle that stands
elsewhere in the book: a flow of least cost, which is exact (network simplex, as in Ahuja, Magnanti
and Orlin, Network Flows, 1993; told from memory).
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from bookmaker.cache import Cache
from bookmaker.linking.choose import ALL_SHAPES, Choice, candidates
from bookmaker.linking.ground import Edges
from bookmaker.linking.page_trees import PageTrees, links_of
from bookmaker.linking.plane_trees import Joined
from bookmaker.linking.shapes import OUT_OF_REACH, TreeFacts, shape_of, trees_of
from bookmaker.model import BAND_FLOORS, BANDS, Book, Page, Picture

BREATH = 0.75
"""The first page of a chapter is a breath easier than the line."""
TOP = 0.9
"""The line ends at this part of the ceiling of the hardest band that the book climbs to."""
SHEER = 160.0
"""Where a climb to the last band ends, which has no ceiling: the hardest shapes of eight spots."""
ABOVE = 1.2
"""How far the easiest puzzle that a page's spots allow may lie above the line."""
BEYOND = 1.06
"""By how much a page of an optional chapter is harder than the one before it."""
NEAREST = 6
"""Shapes nearest to a page's target that are laid on its spots."""
TRIED = 4
"""Trees of each shape that are laid out, the cheapest first, until one is clean."""
STRAY_PRICE = 0.25
"""What links cost that are as long again as the page's cheapest, in logarithms of work missed."""
REPEAT_PRICE = 0.7
"""What each further page of one puzzle costs: about as much as half or twice the target's work."""
EXACT = 10_000
"""Costs are whole numbers of this many to one, since the flow is exact on whole numbers."""

Puzzle = tuple[int, tuple[Fraction, ...]]
"""A shape and its numbers: two pages of one puzzle are solved alike."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """Links that a page could have; ``price`` is what they miss and stray, in logarithms."""

    puzzle: Puzzle
    edges: Edges
    price: float


def targets(book: Book) -> dict[str, float]:
    """The work that each page of ``book`` is to take, by its id, in the order as written.

    Rises geometrically over the main run to ``climb_to``, from as low as leaves no page's easiest
    puzzle far above the line; optional chapters go on from there.
    """
    main = [chapter for chapter in book.chapters if not chapter.optional] or book.chapters
    run = [page for chapter in main for page in chapter.pages]
    high = _top(book)
    low = min(_foot(run, high), high) if run else high
    growth = (high / low) ** (1 / max(len(run) - 1, 1))
    found: dict[str, float] = {}
    line = low / growth
    for chapter in book.chapters:
        for place, page in enumerate(chapter.pages):
            line = max(line, high) * BEYOND if chapter not in main else line * growth
            breath = BREATH if place == 0 and found and len(chapter.pages) > 1 else 1.0
            found[page.id] = line * breath
    return found


def plan_climb(
    book: Book, pictures: Mapping[Any, Picture], cache: Cache, seed: int
) -> dict[str, Choice]:
    """Links for every page of ``book`` that leaves them to us, by the page's id."""
    aims = targets(book)
    auto = [page for page in book.pages if page.wish and not page.links]
    standing = Counter(_puzzle(page, page.edges) for page in book.pages if page.links)
    facts = {page.id: TreeFacts(page, cache, seed) for page in auto}
    offers = {}
    for page in auto:
        picture = pictures.get(page.art) if page.art else None
        trees = PageTrees(page, picture, book.paper, cache)
        offers[page.id] = list(_offers(trees, facts[page.id], aims[page.id]))
    taken = _cheapest(offers, standing)
    return {page.id: _choice(page, taken[page.id], facts[page.id]) for page in auto}


def _top(book: Book) -> float:
    place = BANDS.index(book.climb_to) + 1
    return BAND_FLOORS[place] * TOP if place < len(BAND_FLOORS) else SHEER


def _foot(run: Sequence[Page], high: float) -> float:
    """Where the line begins: so that it passes no page's easiest puzzle by more than ``ABOVE``."""
    last = max(len(run) - 1, 1)
    feet: list[float] = []
    for place, page in enumerate(run[:-1] or run):
        share = place / last
        feet.append(math.pow(_easiest(page) / ABOVE / math.pow(high, share), 1 / (1 - share)))
    return max(feet)


def _easiest(page: Page) -> float:
    """The work of a star on the page's spots, the easiest tree: within 5% up to eight spots."""
    n = len(page.spots)
    return math.sqrt(0.45 * n) * (n - 1)


def _puzzle(page: Page, edges: Edges) -> Puzzle:
    return shape_of(len(page.spots), edges), tuple(number.value for number in page.numbers)


def _offers(trees: PageTrees, facts: TreeFacts, aim: float) -> Iterator[Candidate]:
    """What the page could have near its target, clean where anything is; one of each puzzle."""
    found = sorted(_near(trees, facts, aim), key=lambda each: each[0])
    least = min(tree.cost for _, tree in found)
    offered: set[Puzzle] = set()
    clean = [(miss, tree) for miss, tree in found if next(trees.clean([tree]), None)]
    for miss, tree in clean or found[:1]:
        puzzle = _puzzle(trees.page, tree.edges)
        if puzzle not in offered:
            offered.add(puzzle)
            stray = STRAY_PRICE * (tree.cost / max(least, 1.0) - 1)
            yield Candidate(puzzle, tree.edges, min(miss, OUT_OF_REACH / EXACT) + stray)


def _near(trees: PageTrees, facts: TreeFacts, aim: float) -> Iterator[tuple[float, Joined]]:
    """Cheap trees with what they miss: of the shapes that are nearest to the target."""
    n = len(trees.places)
    if facts.has_given:
        some = {tree.edges: tree for tree in candidates(trees)}.values()
        yield from ((facts.miss_of_work(tree.edges, aim), tree) for tree in some)
    elif n <= ALL_SHAPES:
        shapes = sorted((facts.miss_of_work(shape, aim), shape) for shape in trees_of(n))
        for miss, shape in shapes[:NEAREST]:
            yield from ((miss, tree) for tree in trees.of_shape(shape)[:TRIED])
    else:
        best = trees.best(lambda edges: facts.miss_of_work(edges, aim))
        yield from ((tree.miss, tree) for tree in best)


def _cheapest(
    offers: Mapping[str, Sequence[Candidate]], standing: Counter[Puzzle]
) -> dict[str, Candidate]:
    """One candidate for each page, by its id, so that all together cost least.

    A puzzle that stands ``standing`` times already costs as if it came after these.
    """
    import networkx as nx  # slow to load

    flow = nx.MultiDiGraph()
    flow.add_node("pages", demand=-len(offers))
    flow.add_node("book", demand=len(offers))
    for page, some in offers.items():
        flow.add_edge("pages", ("page", page), capacity=1, weight=0)
        for each in some:
            weight = round(EXACT * each.price)
            flow.add_edge(("page", page), each.puzzle, capacity=1, weight=weight)
    for puzzle in {each.puzzle for some in offers.values() for each in some}:
        for time in range(len(offers)):
            price = round(EXACT * REPEAT_PRICE * (standing[puzzle] + time))
            flow.add_edge(puzzle, "book", capacity=1, weight=price)
    _, used = nx.network_simplex(flow)
    return {
        page: next(each for each in some if any(used["page", page][each.puzzle].values()))
        for page, some in offers.items()
    }


def _choice(page: Page, taken: Candidate, facts: TreeFacts) -> Choice:
    joined = replace(page, links=links_of(page, taken.edges))
    return Choice(joined, facts.certificate(taken.edges), reached=True)
