"""Which curves and seats go together: what each curve rules out among all the others."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from bookmaker.placement.curves import Ways
from bookmaker.placement.geometry import Flags
from bookmaker.placement.label_candidates import Seats
from bookmaker.placement.sizes import Sizes

STRIDE = 4
"""A curve is looked at in pieces of this many steps, each in a box of its own."""
CHUNK = 32_000
"""How many distances are worked out at once: few enough to stay in a processor's cache."""

Index = NDArray[np.intp]
Singles = NDArray[np.float32]


class Fits:
    """Rows of a big table, each worked out when it is first asked for."""

    def __init__(self, ways: Ways, seats: Seats, sizes: Sizes) -> None:
        self.ways, self.seats, self.sizes = ways, seats, sizes
        self.links = len(ways.edges)
        self.starts = np.searchsorted(ways.link, np.arange(self.links + 1))
        self._rows: dict[int, Flags] = {}
        self._ends = np.array(ways.edges, dtype=np.intp).reshape(-1, 2)[ways.link]
        self._spacing = ways.spacing().astype(np.float32)
        points = ways.points
        self._low, self._high = points.min(axis=1), points.max(axis=1)
        starts = np.arange(0, points.shape[1] - 1, STRIDE)
        pieces = points[:, starts[:, None] + np.arange(STRIDE + 1)]  # (C, pieces, points, 2)
        self._x, self._y = (np.ascontiguousarray(pieces[..., k]) for k in (0, 1))
        self._piece_low, self._piece_high = pieces.min(axis=2), pieces.max(axis=2)
        self._seat = np.nonzero(seats.good)
        self._centres = np.ascontiguousarray(seats.centres[self._seat].T.astype(np.float32))

    def row(self, curve: int) -> Flags:
        """(C, T): the good seats, on curves, that go together with ``curve``; its own all do."""
        if curve not in self._rows:
            self.work_out([curve])
        return self._rows[curve]

    def work_out(self, curves: Sequence[int]) -> None:
        """Work out the rows of several curves at once, which is quicker."""
        missing = np.array([curve for curve in curves if curve not in self._rows], dtype=np.intp)
        if not len(missing):
            return
        fits = self._curves(missing)
        for curve, row in zip(missing.tolist(), fits, strict=True):
            seats = self._seats(curve) & row[:, None]
            seats[curve] = self.seats.good[curve]
            self._rows[curve] = seats

    def together(self, curves: list[int]) -> Flags:
        """(L, T): the seats left on one curve of each link when all these are drawn."""
        left = self.seats.good[curves]
        for curve in curves:
            left = left & self.row(curve)[curves]
        return left

    def _curves(self, curves: Index) -> Flags:
        """(R, C): whether curves of other links keep from ``curves`` at the gap of two cords."""
        need = np.float32(self.sizes.cord_gap)
        low, high = self._low[curves] - need, self._high[curves] + need
        clear: Flags = self.ways.link[curves][:, None] != self.ways.link
        clear &= self._angles(curves)
        near = clear.copy()
        for k in (0, 1):
            near &= self._low[:, k] <= high[:, k, None]
            near &= self._high[:, k] >= low[:, k, None]
        one, other = np.nonzero(near)
        touch = self._touching(curves[one], other, need)
        clear[one[touch], other[touch]] = False
        return clear

    def _touching(self, some: Index, others: Index, need: np.float32) -> Flags:
        """Whether the two curves of each pair come nearer than ``need``, by their pieces."""
        touching = np.zeros(len(some), dtype=bool)
        step = CHUNK // self._x.shape[1] ** 2
        for start in range(0, len(some), step):
            a, b = some[start : start + step], others[start : start + step]
            low, high = (
                self._piece_low[a][:, :, None] - need,
                self._piece_high[a][:, :, None] + need,
            )
            near = self._piece_low[b][:, None, :, 0] <= high[..., 0]
            near &= self._piece_high[b][:, None, :, 0] >= low[..., 0]
            near &= self._piece_low[b][:, None, :, 1] <= high[..., 1]
            near &= self._piece_high[b][:, None, :, 1] >= low[..., 1]
            pair, i, j = np.nonzero(near)
            dx = self._x[a[pair], i, :, None] - self._x[b[pair], j, None]
            dy = self._y[a[pair], i, :, None] - self._y[b[pair], j, None]
            square = (dx * dx + dy * dy).min(axis=(1, 2))
            # Between two samples curves may be nearer than at either: by half a step of each.
            slip = (self._spacing[a] ** 2 + self._spacing[b] ** 2) / 4
            touching[start + pair[square < need**2 + slip[pair]]] = True
        return touching

    def _angles(self, curves: Index) -> Flags:
        """(R, C): whether directions differ enough where curves leave a shared spot."""
        most = math.cos(math.radians(self.sizes.angle))
        clear = np.ones((len(curves), len(self._ends)), dtype=bool)
        leaving = self.ways.leaving
        for own in (0, 1):
            for end in (0, 1):
                shared = self._ends[curves, own][:, None] == self._ends[:, end]
                along = leaving[curves, own, 0][:, None] * leaving[:, end, 0]
                along += leaving[curves, own, 1][:, None] * leaving[:, end, 1]
                clear &= ~(shared & (along > most))
        return clear

    def _seats(self, curve: int) -> Flags:
        """(C, T): the good seats that keep their gap from ``curve``."""
        need = np.float32(self.sizes.tag_gap)
        half = np.array([self.sizes.tag_width, self.sizes.tag_height], dtype=np.float32) / 2
        low, high = self._low[curve] - half - need, self._high[curve] + half + need
        x, y = self._centres
        look = np.nonzero((x >= low[0]) & (x <= high[0]) & (y >= low[1]) & (y <= high[1]))[0]
        near = self._piece_low[curve, :, 0] <= x[look, None] + half[0] + need
        near &= self._piece_high[curve, :, 0] >= x[look, None] - half[0] - need
        near &= self._piece_low[curve, :, 1] <= y[look, None] + half[1] + need
        near &= self._piece_high[curve, :, 1] >= y[look, None] - half[1] - need
        seat, piece = np.nonzero(near)
        square = _beyond(x[look[seat]], self._x[curve, piece], half[0])
        square += _beyond(y[look[seat]], self._y[curve, piece], half[1])
        touch = square.min(axis=1) < need**2 + self._spacing[curve] ** 2 / 4
        clear = np.ones(len(x), dtype=bool)
        clear[look[seat[touch]]] = False
        seats = np.zeros(self.seats.good.shape, dtype=bool)
        seats[self._seat] = clear
        return seats


def _beyond(centres: Singles, samples: Singles, half: np.float32) -> Singles:
    """Squares (S, samples) of how far samples lie beyond tags' sides in one direction."""
    off: Singles = np.abs(centres[:, None] - samples)
    off -= half
    np.maximum(off, 0, out=off)
    off *= off
    return off
