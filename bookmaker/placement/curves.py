"""The ways a link can run: straight, gently bent, or round something.

A way leaves each ring squarely, turned by an angle from the straight line between the two spots,
and is one cubic Bezier. ``ways`` makes candidates for every link at once, as arrays; ``sound``
keeps those that stay on the page and clear of spots.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cache

import numpy as np
from numpy.typing import NDArray

from bookmaker.model import Box, Point
from bookmaker.placement.geometry import Array, Flags, bernstein, lengths_along, points_on
from bookmaker.placement.sizes import Sizes
from bookmaker.placement.spot_moves import Edge

SAMPLES = 33
"""How many points stand for a curve, on A4 and smaller; always a multiple of four, and one."""
FIRST_LOOK = 9
"""How many points are looked at before a curve is drawn out, its two ends among them."""
FEW_ENOUGH = 250
"""So many bends of a link are all drawn out, if they are any good."""
LIKE, MANY_CELLS = 1.1, 64
"""Ways run through the same places if the three points at their quarters lie in the same squares,
this many spots wide; there are fewer than so many squares along a page."""
WIDEST, WILDEST_BENDING = 130.0, 40.0
"""The most that a way turns aside at its ends, in degrees, and that it bends."""
BENT = 1.0
"""What it costs that a link is not straight, against one for bending by a radian evenly."""
CROWD, CROWD_FADES = 0.3, 4.0
"""What it costs to pass a spot at its gap, and the mm in which that fades by e."""
CORD = 1.2
"""Half a cord with its white edge, mm: how far links keep inside the bounds."""


Bends = Array
"""(B, 3): how ways leave their two ends (degrees, to the same side where the signs agree), and how
long their handles are. Equal angles make an arc, opposite ones an S; a stretch of 1 a circle's arc.
"""


def _bending(bends: Bends) -> Array:
    """(B,) how much a thin rod with these ends is bent, at least; 0 for a straight line.

    A rod clamped at slopes a and -b to its chord stores 4 (a2 - ab + b2) over its length.
    """
    a, b = np.radians(bends[:, 0]), np.radians(bends[:, 1])
    bending: Array = 4 * (a * a - a * b + b * b) * bends[:, 2]
    return bending


@cache
def straight() -> Bends:
    """No bend at all."""
    return _kept([(0.0, 0.0, 1.0)])


@cache
def gentle() -> Bends:
    """Straight, or bent by a little, to either side."""
    arcs = [(side * a, side * a, 1.0) for a in (7, 14, 22, 31, 42) for side in (1, -1)]
    hooks = [(side * a, 0, 1.0) for a in (15, 30) for side in (1, -1)]
    return _kept([(0, 0, 1.0), *arcs, *hooks, *((b, a, one) for a, b, one in hooks)])


@cache
def wild(count: int) -> Bends:
    """The gentle bends and ``count`` strong ones to either side, spread evenly over all there are.

    They are the points of a Halton sequence (Halton 1960, Numerische Mathematik 2, 84-90).
    """
    one_side = [
        (
            WIDEST * (2 * _halton(i, 2) - 1),
            WIDEST * (2 * _halton(i, 3) - 1),
            0.8 + 1.5 * _halton(i, 5),
        )
        for i in range(1, count + 1)
    ]
    other = [(-start, -end, stretch) for start, end, stretch in one_side]
    strong = np.array([*one_side, *other])
    bending = _bending(strong)
    gentlest_first = np.argsort(bending, kind="stable")
    return _kept([*gentle(), *strong[gentlest_first[bending[gentlest_first] < WILDEST_BENDING]]])


def _kept(bends: Iterable[Sequence[float] | Array]) -> Bends:
    """Bends that may be handed out again and again: nobody can write into them."""
    array = np.array(list(bends), dtype=float)
    array.flags.writeable = False
    return array


def _halton(index: int, base: int) -> float:
    """``index`` written in ``base`` and mirrored at the point: 0 to 1."""
    value, share = 0.0, 1.0
    while index:
        share /= base
        index, digit = divmod(index, base)
        value += share * digit
    return value


@dataclass(frozen=True, slots=True)
class Ways:
    """C candidate curves of all links, each link's in a run, cheapest first."""

    edges: tuple[Edge, ...]
    link: NDArray[np.intp]  # (C,) which link
    bends: Bends  # (C, 3)
    cost: Array  # (C,)
    controls: Array  # (C, 4, 2)
    points: Array  # (C, samples, 2), in single precision, as the next: there are very many
    along: Array  # (C, samples) length from the start
    leaving: Array  # (C, 2, 2) the unit vector outwards at either end

    def only(self, keep: Flags) -> Ways:
        """The curves that ``keep`` marks, each link's still cheapest first."""
        kept = np.nonzero(keep)[0]
        return self.take(kept[np.lexsort((kept, self.cost[kept], self.link[kept]))])

    def take(self, kept: NDArray[np.intp] | list[int]) -> Ways:
        """The curves with these indices, in this order."""
        return Ways(
            self.edges,
            self.link[kept],
            self.bends[kept],
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


def ways(
    places: Sequence[Point],
    edges: Sequence[Edge],
    choice: Sequence[Bends],
    sizes: Sizes,
    samples: int = SAMPLES,
) -> Ways:
    """Curves for every link with each of its bends (``choice`` has some for each link)."""
    link = np.repeat(np.arange(len(edges)), [len(bends) for bends in choice])
    bends = np.concatenate(choice)
    at = np.array(places, dtype=float)
    ends = np.array(edges, dtype=np.intp).reshape(-1, 2)[link]
    controls = _controls(at[ends[:, 0]], at[ends[:, 1]], bends, sizes.radius)
    points = points_on(controls, bernstein(samples))
    along = lengths_along(points)
    outward = controls[:, [1, 2]] - controls[:, [0, 3]]
    return Ways(
        tuple(edges),
        link,
        bends,
        _cost(bends, points, along),
        controls,
        points.astype(np.float32),
        along.astype(np.float32),
        outward / np.sqrt((outward**2).sum(axis=-1, keepdims=True)),
    )


def hopeful(places: Sequence[Point], edge: Edge, bends: Bends, bounds: Box, sizes: Sizes) -> Bends:
    """The bends worth drawing out for one link, by a first look at a few points of each.

    Their ways stay inside the bounds and clear of other spots. Where there are very many, those
    that run through the same places count as one, and the first of them does for all.
    """
    start, end = (np.array([places[k]], dtype=np.float32) for k in edge)
    controls = _controls(start, end, bends.astype(np.float32), sizes.radius)
    points = points_on(controls, bernstein(FIRST_LOOK)[1:-1])
    corner = np.array([bounds.x, bounds.y], dtype=np.float32)
    far_corner = np.array([bounds.right, bounds.bottom], dtype=np.float32)
    inside = (points >= corner) & (points <= far_corner)
    good = np.nonzero(inside.all(axis=(1, 2)))[0]
    clear = np.ones(len(good), dtype=bool)
    x, y = np.ascontiguousarray(np.moveaxis(points[good], -1, 0))
    for spot, place in enumerate(places):
        if spot not in edge:
            squares = (x - np.float32(place[0])) ** 2 + (y - np.float32(place[1])) ** 2
            clear &= squares.min(axis=1) >= (sizes.radius + sizes.link_gap) ** 2
    good = good[clear]
    if len(bends) <= FEW_ENOUGH:
        return bends[good]
    quarters = points[good][:, [1, 3, 5]] - corner
    cells = (quarters / (LIKE * sizes.spot)).astype(np.intp).reshape(-1, 6)
    _, firsts = np.unique(cells @ MANY_CELLS ** np.arange(6), return_index=True)
    kept: Bends = bends[good[np.sort(firsts)]]
    return kept


def _cost(bends: Bends, points: Array, along: Array) -> Array:
    """(C,) 0 for a straight line; else its bending: curvature squared, summed along it, by length.

    The square of the angle for a circle's arc; more for a curve that keeps its bend to one place.
    """
    steps = np.diff(along, axis=1)
    ways = np.diff(points, axis=1) / np.maximum(steps, 1e-9)[..., None]
    turns = (np.diff(ways, axis=1) ** 2).sum(axis=2)
    bending = (turns / np.maximum(steps[:, 1:] + steps[:, :-1], 1e-9)).sum(axis=1) * 2
    cost: Array = np.where(bends[:, :2].any(axis=1), BENT + along[:, -1] * bending, 0.0)
    return cost


def _controls(a: Array, b: Array, bends: Bends, radius: float) -> Array:
    """Control points (C, 4, 2) from ``a`` to ``b`` (C, 2)."""
    start, end = np.radians(bends[:, 0, None]), np.radians(bends[:, 1, None])
    u = (b - a) / np.sqrt(((b - a) ** 2).sum(axis=-1, keepdims=True))
    v = np.stack([-u[:, 1], u[:, 0]], axis=-1)
    from_a = np.cos(start) * u + np.sin(start) * v
    from_b = -np.cos(end) * u + np.sin(end) * v
    p, q = a + radius * from_a, b + radius * from_b
    chord = np.sqrt(((q - p) ** 2).sum(axis=-1, keepdims=True)) * bends[:, 2, None] / 3
    # A third of the chord for a line; over cos2 of half the angle, a circle's arc.
    p_handle = p + chord / np.cos(start / 2) ** 2 * from_a
    q_handle = q + chord / np.cos(end / 2) ** 2 * from_b
    return np.stack([p, p_handle, q_handle, q], axis=1)


def sound(ways: Ways, places: Sequence[Point], bounds: Box, sizes: Sizes) -> Ways:
    """The ways that keep inside the bounds, clear of other spots and out of their own.

    Their cost grows a little with each spot that they squeeze past: of two bends, the one in the
    open.
    """
    low = np.array([bounds.x, bounds.y], dtype=np.float32) + np.float32(CORD)
    high = np.array([bounds.right, bounds.bottom], dtype=np.float32) - np.float32(CORD)
    inside = (ways.points >= low) & (ways.points <= high)
    ways = ways.take(np.nonzero(inside.all(axis=(1, 2)))[0])
    apart = _from_spots(ways, np.array(places, dtype=np.float32), sizes)
    need = sizes.radius + sizes.link_gap
    squeeze = CROWD * np.exp(-(apart - need) / CROWD_FADES).sum(axis=1)
    clear: Flags = np.all(apart >= need, axis=1)
    return replace(ways, cost=ways.cost + squeeze).only(clear)


def _from_spots(ways: Ways, places: Array, sizes: Sizes) -> Array:
    """(C, n) how near curves come to spots' middles: their own at infinity, or at 0 if inside."""
    ends = np.array(ways.edges, dtype=np.intp).reshape(-1, 2)[ways.link]
    # A curve may come nearer between two samples than it does at either.
    slip = ways.spacing() ** 2 / 4
    apart = np.empty((len(ends), len(places)))
    for spot, place in enumerate(places):
        near = _squares(ways.points, place)
        apart[:, spot] = np.sqrt(np.maximum(near.min(axis=1) - slip, 0.0))
        for k in (0, 1):
            own = np.nonzero(ends[:, k] == spot)[0]
            along = ways.along[own] if k == 0 else ways.along[own, -1:] - ways.along[own]
            kept = near[own] >= (sizes.radius + np.minimum(along / 2, 1.5) - 1e-3) ** 2
            apart[own, spot] = np.where(kept.all(axis=1), np.inf, 0.0)
    return apart


def _squares(points: Array, place: Array) -> Array:
    x, y = points[..., 0] - place[0], points[..., 1] - place[1]
    squares: Array = x * x + y * y
    return squares
