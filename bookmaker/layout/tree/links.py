"""The ways a link can run: straight, gently bent, or round something.

A way leaves each ring squarely, turned by an angle from the straight line between the two spots,
and is one cubic Bezier. ``ways`` lists candidates for every link at once, as arrays.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np
from numpy.typing import NDArray

from bookmaker.layout.tree.geometry import Array, Flags, bernstein, lengths_along, points_on
from bookmaker.layout.tree.sizes import EASE, Sizes
from bookmaker.layout.tree.spots import Edge
from bookmaker.model.picture import Box
from bookmaker.model.placed import Point

SAMPLES = 33
STRAIGHT = 0
"""How far a family goes: straight lines alone, gentle curves too, or everything."""
GENTLE = 1
WILD = 2
BENT = 1.0
"""What it costs that a link is not straight, in units of ``Bend.cost``."""
CROWD, CROWD_FADES = 0.3, 4.0
"""What it costs to pass a spot at its gap, and the mm in which that fades by e."""
CORD = 1.2
"""Half a cord with its white edge, mm: how far links keep inside the bounds."""


@dataclass(frozen=True, slots=True)
class Bend:
    """How a way leaves its two ends: angles in degrees, how long its handles are (1: an arc)."""

    start: float
    end: float
    stretch: float = 1.0

    @property
    def cost(self) -> float:
        """0 for a straight line; the bending of a thin rod with these ends, and then some.

        A rod clamped at slopes a and -b to its chord stores 4 (a2 - ab + b2) over its length.
        """
        if not (self.start or self.end):
            return 0.0
        a, b = math.radians(self.start), math.radians(self.end)
        return BENT + 4 * (a * a - a * b + b * b) * self.stretch


@dataclass(frozen=True, slots=True)
class Ways:
    """C candidate curves of all links, each link's in a run, cheapest first."""

    edges: tuple[Edge, ...]
    link: NDArray[np.intp]  # (C,) which link
    cost: Array  # (C,)
    controls: Array  # (C, 4, 2)
    points: Array  # (C, SAMPLES, 2)
    along: Array  # (C, SAMPLES) length from the start
    leaving: Array  # (C, 2, 2) the unit vector outwards at either end

    def only(self, keep: Flags) -> Ways:
        """The curves that ``keep`` marks, each link's still cheapest first."""
        kept = np.nonzero(keep)[0]
        kept = kept[np.lexsort((kept, self.cost[kept], self.link[kept]))]
        return Ways(
            self.edges,
            self.link[kept],
            self.cost[kept],
            self.controls[kept],
            self.points[kept],
            self.along[kept],
            self.leaving[kept],
        )

    def spacing(self) -> Array:
        """(C,) the longest step between two samples."""
        longest: Array = np.diff(self.along, axis=1).max(axis=1)
        return longest


def bends(level: int) -> tuple[Bend, ...]:
    """The bends of a level, cheapest first."""
    found = [Bend(0, 0)]
    if level >= GENTLE:
        found += [Bend(s * a, s * a) for a in (7, 14, 22, 31, 42) for s in (1, -1)]
        found += [Bend(s * a, 0) for a in (15, 30) for s in (1, -1)]
        found += [Bend(0, s * a) for a in (15, 30) for s in (1, -1)]
    if level >= WILD:
        turns = (0, 15, 30, 45, 60, 80, 105)
        signed = sorted({s * a for a in turns for s in (1, -1)})
        grid = (Bend(a, b) for a, b in product(signed, signed) if a or b)
        found += [bend for bend in grid if bend not in found and bend.cost < 20]
        found += [Bend(s * a, s * a, 1.7) for a in (45, 60, 80, 105) for s in (1, -1)]
    return tuple(sorted(found, key=lambda bend: (bend.cost, bend.start, bend.end)))


def ways(places: Sequence[Point], edges: Sequence[Edge], level: int, sizes: Sizes) -> Ways:
    """Every bend of ``level`` for every link, before anything is ruled out."""
    choice = bends(level)
    count = len(choice)
    at = np.array(places, dtype=float)
    ends = np.array(edges, dtype=np.intp).reshape(-1, 2)
    controls = _controls(at[ends[:, 0]], at[ends[:, 1]], choice, sizes.radius).reshape(-1, 4, 2)
    points = points_on(controls, bernstein(SAMPLES))
    outward = controls[:, [1, 2]] - controls[:, [0, 3]]
    return Ways(
        tuple(edges),
        np.repeat(np.arange(len(edges)), count),
        np.tile([bend.cost for bend in choice], len(edges)),
        controls,
        points,
        lengths_along(points),
        outward / np.sqrt((outward**2).sum(axis=-1, keepdims=True)),
    )


def sound(ways: Ways, places: Sequence[Point], bounds: Box, sizes: Sizes) -> Ways:
    """The ways that keep inside the bounds, clear of other spots and out of their own.

    Their cost grows a little with each spot that they squeeze past: of two bends, the one in the
    open.
    """
    ends = np.array(ways.edges, dtype=np.intp).reshape(-1, 2)[ways.link]
    need = sizes.radius + sizes.link_gap + EASE
    off = ways.points[:, :, None] - np.array(places)[None, None]
    near = (off * off).sum(axis=-1)
    # A curve may come nearer between two samples than it does at either.
    slip = ways.spacing()[:, None] ** 2 / 4
    apart = np.sqrt(np.maximum(near.min(axis=1) - slip, 0.0))
    rows = np.arange(len(ends))
    for k, along in ((0, ways.along), (1, ways.along[:, -1:] - ways.along)):
        own = near[rows, :, ends[:, k]]
        kept = own >= (sizes.radius + np.minimum(along / 2, 1.5) - 1e-6) ** 2
        apart[rows, ends[:, k]] = np.where(kept.all(axis=1), np.inf, 0.0)
    low = np.array([bounds.x, bounds.y]) + CORD
    high = np.array([bounds.right, bounds.bottom]) - CORD
    inside = ((ways.points >= low) & (ways.points <= high)).all(axis=(1, 2))
    squeeze = CROWD * np.exp(-(apart - need) / CROWD_FADES).sum(axis=1)
    keep = inside & (apart >= need).all(axis=1)
    return replace(ways, cost=ways.cost + squeeze).only(keep)


def _controls(a: Array, b: Array, choice: Sequence[Bend], radius: float) -> Array:
    """Control points (L, B, 4, 2) of each bend from each of ``a`` to its ``b`` (L, 2)."""
    start = np.radians([bend.start for bend in choice])[:, None]
    end = np.radians([bend.end for bend in choice])[:, None]
    stretch = np.array([bend.stretch for bend in choice])[:, None]
    a, b = a[:, None, :], b[:, None, :]
    u = (b - a) / np.sqrt(((b - a) ** 2).sum(axis=-1, keepdims=True))
    v = np.stack([-u[..., 1], u[..., 0]], axis=-1)
    from_a = np.cos(start) * u + np.sin(start) * v
    from_b = -np.cos(end) * u + np.sin(end) * v
    p, q = a + radius * from_a, b + radius * from_b
    chord = np.sqrt(((q - p) ** 2).sum(axis=-1, keepdims=True)) * stretch / 3
    # A third of the chord for a line; over cos2 of half the angle, a circle's arc.
    p_handle = p + chord / np.cos(start / 2) ** 2 * from_a
    q_handle = q + chord / np.cos(end / 2) ** 2 * from_b
    return np.stack([p, p_handle, q_handle, q], axis=2)
