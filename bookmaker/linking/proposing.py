"""A page that only says how many spots it wants: places for them that lay out clean on its picture.

What does not lay out clean is proposed again with its spots farther apart, and then with fewer.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bookmaker.cache import Cache
from bookmaker.linking.looking import look_over
from bookmaker.linking.page_trees import HEAD_AND_FOOT
from bookmaker.linking.plane_trees import join
from bookmaker.linking.propose import Room, propose
from bookmaker.linking.scene import Scene
from bookmaker.model import Box, Page, Picture, Point
from bookmaker.placement import NoCleanLayout, Sizes, fit_art, page_sizes, remembering
from bookmaker.typeset import Sheet

VERSION = 3
MARGINS = (6.0, 10.0, 15.0)
"""How much farther apart spots are asked to be than a link's tag needs, ever more, mm."""
ALIKE = 0.95
"""A picture that its spots make no smaller than this need not be looked at again."""
FEWEST = 2
MANY = 8
"""Above so many spots only the shortest tree is tried: others, and layout, take long to find."""
ROOM = 1.6
"""A spot with its share of links and tags takes a square of at least so many spots' width."""


@dataclass(frozen=True, slots=True)
class Proposal:
    """Places in per cent of the picture, from its head or top on; ``clean``: they can be laid out.

    ``told`` says whether the picture told creature from ground.
    """

    spots: tuple[Point, ...]
    clean: bool
    told: bool = True


def propose_spots(page: Page, picture: Picture, paper: str, cache: Cache) -> Proposal:
    """As many places as ``page`` has spots; fewer where so many can't be laid out clean.

    The page's numbers and ``fixed`` count, the places and links that it has do not.
    """
    trim, count = picture.trim, len(page.spots)
    sizes = page_sizes(page, paper)
    asked = [picture.digest, picture.orientation, trim.x, trim.y, trim.width, trim.height]
    key = f"proposal {VERSION} {asked} {count} {page.fixed} {paper} {sizes}"
    kept = cache.get(key)
    if not kept:
        desk = _Desk(picture, look_over(picture), sizes, _frame(paper), page.fixed)
        found = _first_clean(desk, count, cache)
        kept = json.dumps([found.spots, found.clean, found.told]).encode()
        cache.put(key, kept)
    spots, clean, told = json.loads(kept)
    return Proposal(tuple((x, y) for x, y in spots), clean, told)


def _first_clean(desk: _Desk, count: int, cache: Cache) -> Proposal:
    """Farther and farther apart, then fewer and fewer, by a tenth at a time."""
    first: tuple[Point, ...] = ()
    wanted = min(count, desk.most())
    while wanted >= FEWEST:
        for margin in MARGINS if wanted <= MANY else MARGINS[:1]:
            spots = desk.proposed(wanted, margin)
            first = first or spots
            if len(spots) == wanted and desk.is_clean(spots, cache):
                return Proposal(spots, True, desk.scene.told)
        wanted -= 1 + wanted // 10
    return Proposal(first, False, desk.scene.told)


def _frame(paper: str) -> Box:
    area = Sheet(paper, recto=True).area
    return replace(area, height=area.height - HEAD_AND_FOOT)


@dataclass(frozen=True, slots=True)
class _Desk:
    """A picture on its page, to propose spots on."""

    picture: Picture
    scene: Scene
    sizes: Sizes
    frame: Box
    fixed: bool

    def proposed(self, count: int, margin: float) -> tuple[Point, ...]:
        """For the picture at its own size, then as large as those spots let it be."""
        least = self.sizes.spot + self.sizes.tag_width + 2 * self.sizes.visible
        trim = self.scene.trim
        spots: tuple[Point, ...] = ()
        box = self._box(spots)
        for _ in range(2):
            shown = (box.width * trim.width, box.height * trim.height)
            spots = propose(self.scene, Room(*shown, self.sizes.radius, least + margin), count)
            before, box = box, self._box(spots)
            if box.width > before.width * ALIKE:
                break
        return spots

    def most(self) -> int:
        """How many spots with their links and tags the shown picture might hold at all."""
        box, trim = self._box(()), self.scene.trim
        area = box.width * trim.width * box.height * trim.height
        return max(int(area / (ROOM * self.sizes.spot) ** 2), FEWEST)

    def is_clean(self, spots: tuple[Point, ...], cache: Cache) -> bool:
        """Whether the short trees that suggest themselves can be laid out, one of them at least."""
        return any(self._lays_out(tree, cache) for tree in self._trees(spots))

    def _trees(self, spots: tuple[Point, ...]) -> Iterator[_Tree]:
        box = self._box(spots)
        places = [(box.x + x / 100 * box.width, box.y + y / 100 * box.height) for x, y in spots]
        yield places, shortest_tree(places)
        if len(places) <= MANY:
            for tree in join(places, self.sizes, lambda edges: 0.0):
                yield places, tree.edges

    def _lays_out(self, tree: _Tree, cache: Cache) -> bool:
        places, edges = tree
        spots = [(f"s{i}", x, y) for i, (x, y) in enumerate(places)]
        links = [(f"s{a}", f"s{b}") for a, b in edges]
        try:
            remembering(cache)(spots, links, self.frame, self.sizes, fixed=self.fixed)
        except NoCleanLayout:
            return False
        return True

    def _box(self, spots: tuple[Point, ...]) -> Box:
        """Where the whole picture lies, if these are its spots."""
        size = (self.picture.width, self.picture.height)
        return fit_art(*size, self.scene.trim, spots, self.frame, self.sizes).box


def shortest_tree(places: Sequence[Point]) -> tuple[tuple[int, int], ...]:
    """The shortest links that join all ``places``: Prim 1957, Bell System Technical Journal 36."""
    near = {there: (math.dist(places[0], places[there]), 0) for there in range(1, len(places))}
    links = []
    while near:
        there = min(near, key=lambda each: (*near[each], each))
        links.append((near.pop(there)[1], there))
        for other in near:
            near[other] = min(near[other], (math.dist(places[there], places[other]), there))
    return tuple(links)


_Tree = tuple[list[Point], tuple[tuple[int, int], ...]]
