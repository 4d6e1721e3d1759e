"""A page in standard form: neither the order of writing nor a mirror changes what comes out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from bookmaker.model import Box, PlacedLink, PlacedSpot, PlacedTag, Point
from bookmaker.placement.clearance import Breach, Laid
from bookmaker.placement.sizes import Sizes
from bookmaker.placement.spot_moves import Edge
from bookmaker.placement.tree_placement import NoCleanLayout, TreePlacement

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Form:
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
    ) -> Form:
        middle = bounds.middle
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

    def refusal(self, code: str, breach: Breach) -> NoCleanLayout:
        links = [self.links[self.link_order[i]] for i in breach.links]
        ends = {name for link in links for name in link}
        named = {self.names[self.order[i]] for i in breach.spots}
        spots = tuple(name for name in self.names if name in (named | ends))
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
