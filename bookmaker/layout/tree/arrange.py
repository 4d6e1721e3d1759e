"""The whole of it: spots and links in, a clean placing out, or the reason why there is none.

The page is turned into a standard form first (spots sorted, mirrored so that most lies left and
above), so that neither the order of writing nor a mirror can change what comes out.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

import numpy as np

from bookmaker.layout.tree import spots as moving
from bookmaker.layout.tree.clear import Breach, Laid, breaches
from bookmaker.layout.tree.links import Bends, gentle, straight, ways, wild
from bookmaker.layout.tree.mend import mend
from bookmaker.layout.tree.refine import Page, refine
from bookmaker.layout.tree.search import Search
from bookmaker.layout.tree.sizes import EASE, STROKE, Sizes
from bookmaker.layout.tree.spots import Edge
from bookmaker.model.picture import Box
from bookmaker.model.placed import PlacedLink, PlacedSpot, PlacedTag, Point

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class TreePlacement:
    """Spots, links and tags at their places, each in the order in which they were given."""

    spots: tuple[PlacedSpot, ...]
    links: tuple[PlacedLink, ...]
    tags: tuple[PlacedTag, ...]


class NoCleanLayout(Exception):
    """There is no clean placing, or none was found.

    ``code`` is a problem's code; ``spots`` and ``links`` name what is in the way; ``gap`` is
    what is missing ("spot-spot", "spot-edge", "link-spot", "link-link", "crossing", "angle",
    "tag-spot", "tag-tag", "tag-link", "tag-hides-link", ...) and ``missing_mm`` how much of it.
    """

    def __init__(
        self,
        code: str,
        spots: tuple[str, ...],
        links: tuple[str, ...],
        gap: str,
        missing_mm: float,
    ) -> None:
        self.code, self.spots, self.links = code, spots, links
        self.gap, self.missing_mm = gap, missing_mm
        super().__init__(f"{code}: {gap} short by {missing_mm:.1f} mm at {', '.join(spots)}")


def arrange(
    spots: Sequence[tuple[str, float, float]],
    links: Sequence[tuple[str, str]],
    bounds: Box,
    sizes: Sizes,
    *,
    fixed: bool = False,
) -> TreePlacement:
    """Place spots (name, x, y), the links between them and their tags inside ``bounds``; all in mm.

    Spots move as little as they must, at most ``sizes.reach`` and not at all where ``fixed``. Links
    start and end on the spots' outlines. The result depends neither on the order of spots and
    links nor on the direction in which a link is written. Raises NoCleanLayout.
    """
    form = _Form.of(spots, links, bounds)
    reach = 0.0 if fixed else sizes.reach
    try:
        laid = _lay(form.places, form.edges, form.bounds, replace(sizes, reach=reach))
    except _Refused as refused:
        raise form.refusal(refused.breach) from None
    return form.placement(laid, sizes)


def scaled(placement: TreePlacement, factor: float, dx: float, dy: float) -> TreePlacement:
    """The placement made smaller (or larger) by ``factor``, then shifted by (dx, dy) mm."""

    def move(x: float, y: float) -> Point:
        return (x * factor + dx, y * factor + dy)

    def shrink(box: Box) -> Box:
        return Box(*move(box.x, box.y), box.width * factor, box.height * factor)

    spots = (
        replace(
            spot,
            x=spot.x * factor + dx,
            y=spot.y * factor + dy,
            radius=spot.radius * factor,
            scale=spot.scale * factor,
        )
        for spot in placement.spots
    )
    links = (
        replace(link, curve=tuple(move(*at) for at in link.curve), scale=link.scale * factor)
        for link in placement.links
    )
    tags = (replace(tag, box=shrink(tag.box), scale=tag.scale * factor) for tag in placement.tags)
    return TreePlacement(tuple(spots), tuple(links), tuple(tags))


@dataclass(frozen=True, slots=True)
class _Form:
    """A page in standard form: its middle at (0, 0), mirrored and sorted.

    ``order`` and ``link_order`` are the original places of spots and links in standard order.
    """

    names: tuple[str, ...]
    links: tuple[tuple[str, str], ...]
    order: tuple[int, ...]
    link_order: tuple[int, ...]
    places: tuple[Point, ...]
    edges: tuple[Edge, ...]
    bounds: Box
    middle: Point
    flip: Point

    @classmethod
    def of(
        cls,
        spots: Sequence[tuple[str, float, float]],
        links: Sequence[tuple[str, str]],
        bounds: Box,
    ) -> _Form:
        middle = (bounds.x + bounds.width / 2, bounds.y + bounds.height / 2)
        flip = (
            _lean([x - middle[0] for _, x, _ in spots]),
            _lean([y - middle[1] for _, _, y in spots]),
        )
        # Rounded, so that a mirrored page is the same to the last bit.
        places = [
            (round(flip[0] * (x - middle[0]), 6), round(flip[1] * (y - middle[1]), 6))
            for _, x, y in spots
        ]
        order = sorted(range(len(spots)), key=lambda k: (places[k], spots[k][0]))
        rank = {spots[k][0]: i for i, k in enumerate(order)}
        edges = [(min(rank[a], rank[b]), max(rank[a], rank[b])) for a, b in links]
        link_order = sorted(range(len(links)), key=lambda k: edges[k])
        return cls(
            tuple(name for name, _, _ in spots),
            tuple(links),
            tuple(order),
            tuple(link_order),
            tuple(places[k] for k in order),
            tuple(edges[k] for k in link_order),
            Box(-bounds.width / 2, -bounds.height / 2, bounds.width, bounds.height),
            middle,
            flip,
        )

    def placement(self, laid: Laid, sizes: Sizes) -> TreePlacement:
        spots: dict[int, PlacedSpot] = {}
        for i, k in enumerate(self.order):
            x, y = self._back(laid.places[i])
            spots[k] = PlacedSpot(self.names[k], x, y, sizes.radius)
        links: dict[int, PlacedLink] = {}
        tags: dict[int, PlacedTag] = {}
        for i, k in enumerate(self.link_order):
            a, b = self.links[k]
            name = f"{a}-{b}"
            curve = [self._back(point) for point in laid.curves[i]]
            if self.names[self.order[laid.edges[i][0]]] != a:
                curve.reverse()
            straight = _is_straight(laid.curves[i])
            links[k] = PlacedLink(name, (curve[0], curve[3]) if straight else tuple(curve))
            x, y = self._back(laid.tags[i])
            wide, high = sizes.tag_width, sizes.tag_height
            tags[k] = PlacedTag(name, Box(x - wide / 2, y - high / 2, wide, high))
        return TreePlacement(_in_order(spots), _in_order(links), _in_order(tags))

    def refusal(self, breach: Breach) -> NoCleanLayout:
        links = [self.links[self.link_order[i]] for i in breach.links]
        ends = {name for link in links for name in link}
        named = {self.names[self.order[i]] for i in breach.spots}
        spots = tuple(name for name in self.names if name in (named | ends))
        code = "spots-too-close" if breach.gap == "spot-spot" else "no-clean-layout"
        names = tuple(f"{a}-{b}" for a, b in links)
        return NoCleanLayout(code, spots, names, breach.gap, round(breach.missing, 2))

    def _back(self, at: Sequence[float] | np.ndarray) -> Point:
        return (
            self.middle[0] + self.flip[0] * float(at[0]),
            self.middle[1] + self.flip[1] * float(at[1]),
        )


def _in_order(found: dict[int, T]) -> tuple[T, ...]:
    return tuple(found[k] for k in sorted(found))


def _lean(values: list[float]) -> float:
    """1.0 or -1.0: the sign that makes the values' third moment about their mean not negative."""
    mean = sum(values) / len(values)
    return -1.0 if sum((value - mean) ** 3 for value in sorted(values)) < -1e-6 else 1.0


def _is_straight(curve: np.ndarray) -> bool:
    way = curve[3] - curve[0]
    off = [(p[0] - curve[0][0]) * way[1] - (p[1] - curve[0][1]) * way[0] for p in curve[1:3]]
    return bool(max(map(abs, off)) < 1e-6 * float(way @ way))


class _Refused(Exception):
    def __init__(self, breach: Breach) -> None:
        self.breach = breach


def _lay(wanted: tuple[Point, ...], edges: tuple[Edge, ...], bounds: Box, sizes: Sizes) -> Laid:
    """Gentle curves if they will do, then wilder ones, then spots moved to help."""
    settled = Page(_settle(wanted, edges, bounds, sizes), edges, bounds, sizes)
    page, blame = settled, list(range(len(edges)))
    for effort in EFFORTS:
        if effort.moves:
            page = replace(settled, places=_eased(wanted, settled, blame))
            if page == settled:
                continue
        found = _attempt(page, effort, blame)
        if isinstance(found, Laid):
            return found
        blame = found or blame
    raise _Refused(_reason(settled, blame))


@dataclass(frozen=True, slots=True)
class Effort:
    """How much is tried: which bends, how long a search and a mending, how fine at the end."""

    bends: Bends
    nodes: int
    steps: int
    turns: tuple[float, ...] = (16.0, 8.0, 4.0)
    moves: bool = False
    easy: Bends | None = None


EFFORTS = (
    Effort(straight(), 1, 0, ()),
    Effort(gentle(), 60, 30, (4.0,)),
    Effort(wild(110), 0, 20),
    Effort(wild(700), 0, 25, easy=wild(110)),
    Effort(wild(700), 0, 25, easy=wild(110), moves=True),
)


def _attempt(page: Page, effort: Effort, blame: list[int]) -> Laid | list[int]:
    """A clean placing, or the links that stood in the way."""
    easy = effort.easy if effort.easy is not None else effort.bends
    fits = page.fits([effort.bends if k in blame else easy for k in range(len(page.edges))])
    found = Search(fits, effort.nodes).run() if effort.nodes else None
    if not found and effort.steps:
        found, blame = mend(fits, effort.steps)
    if not found:
        return [int(k) for k in blame]
    bends = fits.ways.bends[list(found.curves)]
    fits, found = refine(page, bends, effort.turns) or (fits, found)
    curves, tags = list(found.curves), list(found.seats)
    centres = fits.seats.centres[curves, tags]
    laid = Laid(np.array(page.places), page.edges, fits.ways.controls[curves], centres)
    left = breaches(laid, page.bounds, page.sizes)
    return sorted({link for breach in left for link in breach.links}) if left else laid


def _eased(wanted: tuple[Point, ...], page: Page, blame: list[int]) -> tuple[Point, ...]:
    """Spots moved so that the links in the way, were they straight, would keep clear."""
    sizes, edges = page.sizes, [page.edges[link] for link in blame]
    rules = (
        moving.clear_of_links(edges, sizes, EASE),
        moving.spread(edges, sizes, 2.0),
        moving.gaps(sizes, EASE),
    )
    inner = _for_middles(page.bounds, sizes)
    eased = moving.settle(wanted, rules, sizes.reach, inner).places
    # Not all of that may be had at once; what every page needs comes before it.
    firm = (moving.gaps(sizes, EASE), moving.lengths(_straight_limits(page), sizes, EASE))
    places = moving.settle(eased, firm, sizes.reach, inner).places
    return tuple(
        _no_farther(home, place, sizes.reach) for home, place in zip(wanted, places, strict=True)
    )


def _straight_limits(page: Page) -> list[tuple[Edge, float]]:
    return [((a, b), _length(page.places, a, b)) for a, b in page.edges]


def _no_farther(home: Point, place: Point, reach: float) -> Point:
    far = math.dist(home, place)
    share = min(1.0, reach / far) if far else 1.0
    return (home[0] + (place[0] - home[0]) * share, home[1] + (place[1] - home[1]) * share)


def _settle(
    wanted: tuple[Point, ...], edges: tuple[Edge, ...], bounds: Box, sizes: Sizes
) -> tuple[Point, ...]:
    """Spots with their gaps, and with room for tags as far as that can be had."""
    keep = sizes.radius + STROKE
    inner = Box(bounds.x + keep, bounds.y + keep, bounds.width - 2 * keep, bounds.height - 2 * keep)
    apart = moving.gaps(sizes, EASE)
    limits = {edge: float("inf") for edge in edges}
    for _ in range(3):
        room = moving.lengths(limits.items(), sizes, EASE)
        settled = moving.settle(wanted, (apart, room), sizes.reach, inner)
        if settled.worst is None:
            return settled.places
        limits = {(a, b): _length(settled.places, a, b) - 0.3 for a, b in edges}
    settled = moving.settle(wanted, (apart,), sizes.reach, inner)
    if settled.worst is None:
        return settled.places
    raise _Refused(_why_unsettled(wanted, settled.places, inner, sizes))


def _why_unsettled(
    wanted: tuple[Point, ...], places: tuple[Point, ...], inner: Box, sizes: Sizes
) -> Breach:
    """A spot that is too near the edge from the start, else the two spots most too close."""
    for k, (x, y) in enumerate(wanted):
        out = max(inner.x - x, x - inner.right, inner.y - y, y - inner.bottom)
        if out > sizes.reach + moving.SLACK:
            return Breach("spot-edge", out - sizes.reach, (k,))
    close = [row for row in moving.gaps(sizes, 0.0)(wanted) if row.short > 0]
    left = {row.spots: row.short for row in moving.gaps(sizes, 0.0)(places)}
    worst = max(close, key=lambda row: left.get(row.spots, 0.0))
    return Breach("spot-spot", max(left.get(worst.spots, 0.0), 0.01), worst.spots)


def _for_middles(bounds: Box, sizes: Sizes) -> Box:
    """Where spots' middles may be, so that their rings' ink is inside the bounds."""
    keep = sizes.radius + STROKE
    return Box(bounds.x + keep, bounds.y + keep, bounds.width - 2 * keep, bounds.height - 2 * keep)


def _length(places: Sequence[Point], a: int, b: int) -> float:
    return math.dist(places[a], places[b])


def _reason(page: Page, blame: Sequence[int]) -> Breach:
    """The worst breach at the links in the way, were all straight with their tags midway."""
    lines = ways(page.places, page.edges, [straight()] * len(page.edges), page.sizes)
    laid = Laid(np.array(page.places), page.edges, lines.controls, lines.points.mean(axis=1))
    found = breaches(laid, page.bounds, page.sizes)
    here = [breach for breach in found if set(breach.links) & set(blame)]
    unknown = Breach("link-link", 0.0, (), tuple(blame))
    return max(here, key=lambda breach: breach.missing, default=unknown)
