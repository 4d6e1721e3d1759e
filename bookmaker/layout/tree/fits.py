"""Which curves and seats go together: what each curve rules out among all the others."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from bookmaker.layout.tree.geometry import Flags
from bookmaker.layout.tree.links import Ways
from bookmaker.layout.tree.sizes import EASE, Sizes
from bookmaker.layout.tree.tags import Seats

LOOKS = (4, 2, 1)
"""Every how many samples are looked at first, and then where that does not settle it."""
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
        points = ways.points.astype(np.float32)
        self._x, self._y = (np.ascontiguousarray(points[:, :, k]) for k in (0, 1))
        self._low, self._high = points.min(axis=1), points.max(axis=1)
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
        need = np.float32(self.sizes.cord_gap + EASE)
        low, high = self._low[curves] - need, self._high[curves] + need
        clear: Flags = self.ways.link[curves][:, None] != self.ways.link
        clear &= self._angles(curves)
        near = clear.copy()
        for k in (0, 1):
            near &= self._low[:, k] <= high[:, k, None]
            near &= self._high[:, k] >= low[:, k, None]
        one, other = np.nonzero(near)
        for every in LOOKS:
            square = self._nearest(other, curves[one], every)
            # Between samples curves may be nearer: each by half a step, across the gap.
            a, b = every * self._spacing[other], every * self._spacing[curves[one]]
            touch = square < (need**2 if every > 1 else need**2 + (a * a + b * b) / 4)
            clear[one[touch], other[touch]] = False
            unsure = ~touch & (square < need**2 + (0.55 * (a + b)) ** 2)
            one, other = one[unsure], other[unsure]
        return clear

    def _nearest(self, some: Index, others: Index, every: int) -> Singles:
        """The least squared distance between samples of the curves of each pair."""
        found = np.empty(len(some), dtype=np.float32)
        samples = self._x[:1, ::every].shape[1]
        step = CHUNK // samples**2
        for start in range(0, len(some), step):
            part = slice(start, start + step)
            a, b = some[part], others[part]
            square = self._x[a, None, ::every] - self._x[b, ::every, None]
            square *= square
            dy = self._y[a, None, ::every] - self._y[b, ::every, None]
            dy *= dy
            square += dy
            found[part] = square.reshape(-1, samples**2).min(axis=1)
        return found

    def _angles(self, curves: Index) -> Flags:
        """(R, C): whether directions differ enough where curves leave a shared spot."""
        most = math.cos(math.radians(self.sizes.angle + EASE))
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
        need = np.float32(self.sizes.tag_gap + EASE)
        half = np.array([self.sizes.tag_width, self.sizes.tag_height], dtype=np.float32) / 2
        low, high = self._low[curve] - half - need, self._high[curve] + half + need
        x, y = self._centres
        look = np.nonzero((x >= low[0]) & (x <= high[0]) & (y >= low[1]) & (y <= high[1]))[0]
        clear = np.ones(len(x), dtype=bool)
        for every in LOOKS:
            square = _beyond(x[look], self._x[curve, ::every], half[0])
            square += _beyond(y[look], self._y[curve, ::every], half[1])
            nearest = square.min(axis=1)
            slip = every * self._spacing[curve]
            touch = nearest < (need**2 if every > 1 else need**2 + slip**2 / 4)
            clear[look[touch]] = False
            look = look[~touch & (nearest < need**2 + (0.55 * slip) ** 2)]
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
