"""The trees that one page's spots allow: cheap ones first, those of one shape, clean or not."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations

from bookmaker.cache import Cache
from bookmaker.linking.figure import find_figure
from bookmaker.linking.ground import Edge, Edges, Miss
from bookmaker.linking.plane_trees import Joined, join
from bookmaker.linking.shapes import shape_of
from bookmaker.model import Box, Link, Page, Picture, Point
from bookmaker.placement import NoCleanLayout, Sizes, fit_art, page_sizes, remembering
from bookmaker.typeset import Sheet

HEAD_AND_FOOT = 55.0
"""What a page's words take of its height, mm, near enough to choose links by."""
STRAY = 2.0
"""A link counts as longer by this many times what of it lies over sky, water or bare paper."""


@dataclass(frozen=True)
class PageTrees:
    """A page whose links are to be chosen, its picture, and the paper it will stand on."""

    page: Page
    picture: Picture | None
    paper: str
    cache: Cache

    @cached_property
    def places(self) -> list[Point]:
        """Where the spots come to lie, mm, near enough to choose links by."""
        return self.laid[0]

    @cached_property
    def sizes(self) -> Sizes:
        return page_sizes(self.page, self.paper)

    def best(self, miss: Miss, wanted: Sequence[Edges] = ()) -> tuple[Joined, ...]:
        """The trees that miss least, the cheapest first; ``wanted`` is what ``join`` takes."""
        return join(self.places, self.sizes, miss, wanted, self._over_ground)

    def of_shape(self, tree: Edges) -> tuple[Joined, ...]:
        """The cheapest trees that have the shape of ``tree``."""
        n = len(self.places)
        shape = shape_of(n, tree)
        found = self.best(lambda edges: float(shape_of(n, edges) != shape), [tree])
        return tuple(each for each in found if each.miss == 0)

    def clean(self, trees: Sequence[Joined]) -> Iterator[Joined]:
        """Those of ``trees`` that can be laid out."""
        return (tree for tree in trees if self._is_clean(tree))

    def _is_clean(self, tree: Joined) -> bool:
        names = self.page.spot_names
        spots = [(name, *place) for name, place in zip(names, self.places, strict=True)]
        ends = [link.ends for link in links_of(self.page, tree.edges)]
        try:
            remembering(self.cache)(spots, ends, self.laid[1], self.sizes, fixed=self.page.fixed)
        except NoCleanLayout:
            return False
        return True

    @cached_property
    def laid(self) -> tuple[list[Point], Box]:
        """Where the spots come to lie, and the room for the picture, mm."""
        area = Sheet(self.paper, recto=True).area
        frame = replace(area, height=area.height - HEAD_AND_FOOT)
        picture = self.picture
        size = (picture.width, picture.height) if picture else (frame.width, frame.height)
        trim = picture.trim if picture else Box(0.0, 0.0, 1.0, 1.0)
        per_cent = [(spot.x, spot.y) for spot in self.page.spots]
        place = fit_art(*size, trim, per_cent, frame, self.sizes)
        return [place.at(x, y) for x, y in per_cent], frame

    @cached_property
    def _over_ground(self) -> dict[Edge, float]:
        """By how many millimetres links count as longer, since they leave the creature.

        None does where most spots don't lie on what passes for the creature: then it is none.
        """
        spots = [(spot.x / 100, spot.y / 100) for spot in self.page.spots]
        figure = find_figure(self.picture, self.cache) if self.picture else None
        if figure is None or 2 * sum(map(figure.has, spots)) <= len(spots):
            return {}
        return {
            (a, b): STRAY
            * (1 - figure.share(spots[a], spots[b]))
            * math.dist(self.places[a], self.places[b])
            for a, b in combinations(range(len(spots)), 2)
        }


def links_of(page: Page, edges: Edges) -> tuple[Link, ...]:
    """``edges`` of spots by their places as links by their names."""
    names = page.spot_names
    return tuple(Link(names[a], names[b]) for a, b in edges)
