"""What is too near: every breach of a finished placing, measured along fine chains.

The search works with samples; what it found is measured here once more before it is handed out, and
what can't be laid out is told from here.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from bookmaker.model import Box
from bookmaker.placement.geometry import (
    Array,
    bernstein,
    box_distances,
    lengths_along,
    points_on,
    segment_distances,
)
from bookmaker.placement.label_candidates import shown_beside
from bookmaker.placement.sizes import EASE, STROKE, Sizes
from bookmaker.placement.spot_moves import Edge

PIECES = 24
FINE = 0.02
"""Less than this is rounding, not a breach, mm."""
GRAZE = EASE - 0.01
"""A link that passes its own tag's corner so near may be seen as hidden there, mm."""


@dataclass(frozen=True, slots=True)
class Laid:
    """A placing in plain arrays: spots (n, 2), curves (L, 4, 2), tags' centres (L, 2)."""

    places: Array
    edges: tuple[Edge, ...]
    curves: Array
    tags: Array


@dataclass(frozen=True, slots=True)
class Breach:
    """A gap (a key word) that is short by ``missing`` mm, between these spots and links."""

    gap: str
    missing: float
    spots: tuple[int, ...] = ()
    links: tuple[int, ...] = ()


def breaches(laid: Laid, bounds: Box, sizes: Sizes) -> list[Breach]:
    """Every breach, in a fixed order."""
    chains = points_on(laid.curves, bernstein(PIECES + 1))
    found = [
        *_spots(laid, bounds, sizes),
        *_links_and_spots(laid, chains, sizes),
        *_links_and_links(laid, chains, sizes),
        *_angles(laid, sizes),
        *_tags(laid, chains, bounds, sizes),
    ]
    return [breach for breach in found if breach.missing > FINE]


def _spots(laid: Laid, bounds: Box, sizes: Sizes) -> Iterator[Breach]:
    places = laid.places
    for a, b in _pairs(len(places)):
        far = math.dist(places[a], places[b])
        yield Breach("spot-spot", sizes.spot + sizes.spot_gap - far, (a, b))
    for a in range(len(places)):
        yield Breach("spot-edge", sizes.radius + STROKE - _inside(places[a], bounds), (a,))


def _links_and_spots(laid: Laid, chains: Array, sizes: Sizes) -> Iterator[Breach]:
    places = laid.places[None, None]
    near = segment_distances(chains[:, :-1, None], chains[:, 1:, None], places, places)
    outside = np.sqrt(((chains[:, :, None] - places) ** 2).sum(axis=-1))
    for link, edge in enumerate(laid.edges):
        for spot in range(len(laid.places)):
            if spot not in edge:
                short = sizes.radius + sizes.link_gap - float(near[link, :, spot].min())
                yield Breach("link-spot", short, (spot,), (link,))
            else:
                short = sizes.radius - float(outside[link, :, spot].min())
                yield Breach("link-own-spot", short, (spot,), (link,))


def _links_and_links(laid: Laid, chains: Array, sizes: Sizes) -> Iterator[Breach]:
    low, high = chains.min(axis=1), chains.max(axis=1)
    boxes_near = (low[:, None] <= high + sizes.cord_gap) & (high[:, None] >= low - sizes.cord_gap)
    one, other = np.nonzero(np.triu(boxes_near.all(axis=2), 1))
    starts, ends = chains[:, :-1], chains[:, 1:]
    apart = segment_distances(
        starts[one][:, :, None], ends[one][:, :, None], starts[other][:, None], ends[other][:, None]
    ).min(axis=(1, 2))
    for a, b, far in zip(one.tolist(), other.tolist(), apart.tolist(), strict=True):
        gap = "link-link" if far > 0 else "crossing"
        yield Breach(gap, sizes.cord_gap - far, (), (a, b))


def _angles(laid: Laid, sizes: Sizes) -> Iterator[Breach]:
    for a, b in _pairs(len(laid.edges)):
        for spot in set(laid.edges[a]) & set(laid.edges[b]):
            out = []
            for link in (a, b):
                ends = laid.curves[link] if laid.edges[link][0] == spot else laid.curves[link][::-1]
                out.append(math.atan2(ends[1][1] - ends[0][1], ends[1][0] - ends[0][0]))
            between = abs((out[1] - out[0] + math.pi) % (2 * math.pi) - math.pi)
            # Told in millimetres at the ring, so that all breaches compare.
            short = (math.radians(sizes.angle) - between) * sizes.radius
            yield Breach("angle", short, (spot,), (a, b))


def _tags(laid: Laid, chains: Array, bounds: Box, sizes: Sizes) -> Iterator[Breach]:
    half = (sizes.tag_width / 2, sizes.tag_height / 2)
    size = (sizes.tag_width, sizes.tag_height)
    to_spots = box_distances(laid.places[None], laid.tags[:, None], half) - sizes.radius
    to_tags = box_distances(laid.tags[None], laid.tags[:, None], size)
    to_links = _boxes_to_chains(laid.tags, chains, half)
    fine = points_on(laid.curves, bernstein(4 * PIECES + 1))
    larger = (half[0] + GRAZE, half[1] + GRAZE)
    shown = shown_beside(fine, lengths_along(fine), laid.tags, larger, 2 * GRAZE).tolist()
    for tag in range(len(laid.edges)):
        yield Breach("tag-hides-link", sizes.visible - shown[tag], (), (tag,))
        edge_x = _inside((laid.tags[tag][0], (bounds.y + bounds.bottom) / 2), bounds)
        edge_y = _inside(((bounds.x + bounds.right) / 2, laid.tags[tag][1]), bounds)
        yield Breach("tag-edge", max(half[0] - edge_x, half[1] - edge_y) + STROKE, (), (tag,))
        for spot in range(len(laid.places)):
            short = sizes.tag_gap - float(to_spots[tag, spot])
            yield Breach("tag-spot", short, (spot,), (tag,))
        for other in range(len(laid.edges)):
            if other != tag:
                short = sizes.tag_gap - float(to_links[tag, other])
                yield Breach("tag-link", short, (), (tag, other))
            if other > tag:
                yield Breach(
                    "tag-tag", sizes.tag_gap - float(to_tags[tag, other]), (), (tag, other)
                )


def _boxes_to_chains(tags: Array, chains: Array, half: tuple[float, float]) -> Array:
    """(L, L) the distance of each tag's box from each link."""
    x, y = half
    corners = np.array([(-x, -y), (x, -y), (x, y), (-x, y)])
    box = tags[:, None] + corners[None]
    from_ends = box_distances(chains[None], tags[:, None, None], half).min(axis=2)
    sides = segment_distances(
        box[:, None, None],
        np.roll(box, -1, axis=1)[:, None, None],
        chains[None, :, :-1, None],
        chains[None, :, 1:, None],
    ).min(axis=(2, 3))
    result: Array = np.minimum(from_ends, sides)
    return result


def _inside(at: Sequence[float] | Array, bounds: Box) -> float:
    """How far a point is inside the bounds (negative: outside)."""
    x, y = float(at[0]), float(at[1])
    return min(x - bounds.x, bounds.right - x, y - bounds.y, bounds.bottom - y)


def _pairs(count: int) -> Iterator[tuple[int, int]]:
    return ((a, b) for a in range(count) for b in range(a + 1, count))
