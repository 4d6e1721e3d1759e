"""Links chosen for the pages that leave them to us (``links = "auto"``)."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, pairwise
from pathlib import Path

from bookmaker.cache import Cache
from bookmaker.linking.figure import Figure, find_figure
from bookmaker.linking.plane_trees import Joined, join
from bookmaker.model import (
    BAND_FLOORS,
    BANDS,
    Band,
    Book,
    Box,
    Certificate,
    Link,
    Page,
    Picture,
    Point,
    Problem,
    Wish,
)
from bookmaker.placement import NoCleanLayout, fit_art, page_sizes, remembering
from bookmaker.puzzle import Tree, Unsolvable, certify, rarity
from bookmaker.typeset import Sheet

HEAD_AND_FOOT = 55.0
"""What a page's words take of its height, mm, near enough to choose links by."""
STRAY = 2.0
"""A link counts as longer by this many times what of it lies over sky, water or bare paper."""
LIKE = math.log(1.25)
"""A rarity within a quarter of what is wished does it."""
OUT_OF_REACH = 1e6
"""The miss of a tree without a solution."""
MIXER, MASK = 0x9E3779B97F4A7C15, (1 << 64) - 1
"""An odd number of 64 bits without a pattern (two to the 64th over the golden ratio)."""
ALL_SHAPES = 8
"""Up to this many spots all shapes there are get looked at beforehand."""

Edges = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Choice:
    """The links chosen for a page, and whether they do what it wishes."""

    page: Page
    certificate: Certificate | None
    reached: bool


def join_pages(
    book: Book, pictures: Mapping[Path, Picture], cache: Cache, seed: int
) -> tuple[Book, tuple[Choice, ...], tuple[Problem, ...]]:
    """``book`` with links for every page that has none, the choices, and what to say of them."""
    choices: dict[str, Choice] = {}
    for page in book.pages:
        if page.wish and not page.links:
            picture = pictures.get(page.art) if page.art else None
            choices[page.id] = choose(page, picture, book.paper, cache, seed)
    if not choices:
        return book, (), ()
    chapters = tuple(
        replace(
            chapter,
            pages=tuple(choices[p.id].page if p.id in choices else p for p in chapter.pages),
        )
        for chapter in book.chapters
    )
    told = tuple(_told(choice) for choice in choices.values())
    return replace(book, chapters=chapters), tuple(choices.values()), told


def choose(page: Page, picture: Picture | None, paper: str, cache: Cache, seed: int) -> Choice:
    """The best links for ``page``: those that do what it wishes, are clean, and follow it."""
    places, area = _places(page, picture, paper)
    sizes = page_sizes(page, paper)
    shapes = _Shapes(page, cache, seed)
    wanted: list[Edges] = []
    if len(places) <= ALL_SHAPES:
        misses = {edges: shapes.miss(edges) for edges in trees_of(len(places))}
        wanted = [edges for edges in misses if misses[edges] == min(misses.values())]
    extra = _over_ground(page, places, find_figure(picture, cache) if picture else None)
    found = join(places, sizes, shapes.miss, wanted, extra)
    arrange = remembering(cache)
    spots = [(name, *place) for name, place in zip(page.spot_names, places, strict=True)]

    def is_clean(tree: Joined) -> bool:
        links = [link.ends for link in _links(page, tree)]
        try:
            arrange(spots, links, area, sizes, fixed=page.fixed)
        except NoCleanLayout:
            return False
        return True

    nearest = [tree for tree in found if tree.miss == found[0].miss]
    best = next(filter(is_clean, nearest), found[0])
    joined = replace(page, links=_links(page, best))
    return Choice(joined, shapes.certificate(best.edges), best.miss == 0)


def _places(page: Page, picture: Picture | None, paper: str) -> tuple[list[Point], Box]:
    """Where the spots come to lie on ``paper``, near enough to choose links by."""
    area = Sheet(paper, recto=True).area
    frame = replace(area, height=area.height - HEAD_AND_FOOT)
    size = (picture.width, picture.height) if picture else (frame.width, frame.height)
    trim = picture.trim if picture else Box(0.0, 0.0, 1.0, 1.0)
    per_cent = [(spot.x, spot.y) for spot in page.spots]
    place = fit_art(*size, trim, per_cent, frame, page_sizes(page, paper))
    return [place.at(x, y) for x, y in per_cent], frame


def _over_ground(
    page: Page, places: Sequence[Point], figure: Figure | None
) -> dict[tuple[int, int], float]:
    """By how many millimetres links count as longer, since they leave the creature.

    None does where most spots don't lie on what passes for the creature: then it is none.
    """
    spots = [(spot.x / 100, spot.y / 100) for spot in page.spots]
    if figure is None or 2 * sum(map(figure.has, spots)) <= len(spots):
        return {}
    return {
        (a, b): STRAY * (1 - figure.share(spots[a], spots[b])) * math.dist(places[a], places[b])
        for a, b in combinations(range(len(spots)), 2)
    }


def _links(page: Page, joined: Joined) -> tuple[Link, ...]:
    names = page.spot_names
    return tuple(Link(names[a], names[b]) for a, b in joined.edges)


class _Shapes:
    """What the mathematics says of trees on one page's spots, each shape asked for once.

    Given numbers are left out of account: they would make every tree a case of its own.
    """

    def __init__(self, page: Page, cache: Cache, seed: int) -> None:
        self._numbers = tuple(number.value for number in page.numbers)
        self._wish = page.wish or Wish()
        self._cache, self._seed = cache, seed
        self._certificates: dict[int, Certificate | None] = {}
        self._misses: dict[int, float] = {}

    def certificate(self, edges: Edges) -> Certificate | None:
        """None where there is no solution."""
        shape = shape_of(len(self._numbers), edges)
        if shape not in self._certificates:
            self._certificates[shape] = self._certified(self._tree(edges))
        return self._certificates[shape]

    def miss(self, edges: Edges) -> float:
        """How far a tree is from the wish, in the logarithm of what is wished."""
        shape = shape_of(len(self._numbers), edges)
        if shape not in self._misses:
            self._misses[shape] = self._missed(edges)
        return self._misses[shape]

    def _missed(self, edges: Edges) -> float:
        """Work takes by far the most time, and is asked for where nothing else will do."""
        band, one_in = self._wish.band, self._wish.one_in
        rare = rarity(self._tree(edges), self._numbers, cache=self._cache) if one_in else None
        if one_in and rare and not band:
            off = abs(math.log(rare / one_in))
            return 0.0 if off <= LIKE else min(off, OUT_OF_REACH)
        if not band and len({b - a for a, b in pairwise(self._numbers)}) == 1:
            return 0.0  # every tree has a solution, for all that is known
        certificate = self.certificate(edges)
        return _off_band(certificate.work, band) if certificate else OUT_OF_REACH

    def _tree(self, edges: Edges) -> Tree:
        return Tree(len(self._numbers), edges)

    def _certified(self, tree: Tree) -> Certificate | None:
        try:
            return certify(tree, self._numbers, {}, cache=self._cache, seed=self._seed)
        except Unsolvable:
            return None


def _off_band(work: float, band: Band | None) -> float:
    if band is None:
        return 0.0
    floor = BAND_FLOORS[BANDS.index(band)]
    ceiling = (*BAND_FLOORS, math.inf)[BANDS.index(band) + 1]
    if floor <= work < ceiling:
        return 0.0
    return math.log(floor / work) if work < floor else math.log(work / ceiling) + 1e-6


def shape_of(n: int, edges: Edges) -> int:
    """A key that two trees of ``n`` vertices share if, and up to 10 only if, they are alike.

    Colour refinement, which tells all trees apart when it goes on long enough: each round adds to
    a vertex's colour its neighbours', well mixed.
    """
    colours = [1] * n
    for _ in range(4):
        sums = [colour * 3 for colour in colours]
        mixed = [(colour ^ colour >> 29) * MIXER & MASK for colour in colours]
        for a, b in edges:
            sums[a] += mixed[b]
            sums[b] += mixed[a]
        colours = sums
    return sum((colour ^ colour >> 29) * MIXER & MASK for colour in colours)


def trees_of(n: int) -> list[Edges]:
    """One tree of each shape of ``n`` vertices, each grown by a leaf from a smaller one."""
    trees: list[Edges] = [()]
    for leaf in range(1, n):
        grown = ((*tree, (vertex, leaf)) for tree in trees for vertex in range(leaf))
        trees = list({shape_of(leaf + 1, tree): tree for tree in grown}.values())
    return trees


def _told(choice: Choice) -> Problem:
    page = choice.page
    links = ", ".join(link.name for link in page.links)
    certificate = choice.certificate
    found = f"; work {certificate.work:.0f}, {certificate.band}" if certificate else ""
    message = f"its links were chosen: {links}{found}"
    mend = "bookmaker join writes them into the manifest."
    code = "links-chosen"
    if not choice.reached:
        code = "wish-not-reached"
        message = f"no links on its spots do what it asks for; the nearest are {links}{found}"
        mend = "Move, add or take away spots, or ask for another band."
    return Problem(page.file, page.line_of("links"), page.name, code, message, mend, "warning")
