"""Which curves and seats go together: what each curve rules out among all the others."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from bookmaker.layout.tree.geometry import Flags
from bookmaker.layout.tree.links import Ways
from bookmaker.layout.tree.sizes import EASE, Sizes
from bookmaker.layout.tree.tags import Seats

COARSE = 4
"""Every how many samples a first look is taken."""


class Fits:
    """Rows of a big table, each worked out when it is first asked for."""

    def __init__(self, ways: Ways, seats: Seats, sizes: Sizes) -> None:
        self.ways, self.seats, self.sizes = ways, seats, sizes
        self.links = len(ways.edges)
        self.starts = np.searchsorted(ways.link, np.arange(self.links + 1))
        self._rows: dict[int, Flags] = {}
        self._edges = np.array(ways.edges, dtype=np.intp).reshape(-1, 2)[ways.link]
        self._spacing = ways.spacing().astype(np.float32)
        points = ways.points.astype(np.float32)
        self._points = np.ascontiguousarray(points.transpose(2, 0, 1))  # (2, C, SAMPLES)
        self._low, self._high = points.min(axis=1), points.max(axis=1)
        self._seat = np.nonzero(seats.good)
        self._centres = seats.centres[self._seat].astype(np.float32)

    def row(self, curve: int) -> Flags:
        """(C, T): the good seats, on curves, that go together with ``curve``; its own all do."""
        if curve not in self._rows:
            fits = self._curves(curve) & self._angles(curve)
            first, last = self.starts[self.ways.link[curve] :][:2]
            fits[first:last] = False
            seats = self._seats(curve) & fits[:, None]
            seats[curve] = self.seats.good[curve]
            self._rows[curve] = seats
        return self._rows[curve]

    def together(self, curves: list[int]) -> Flags:
        """(L, T): the seats left on one curve of each link when all these are drawn."""
        left = self.seats.good[curves]
        for curve in curves:
            left = left & self.row(curve)[curves]
        return left

    def _curves(self, curve: int) -> Flags:
        """Whether curves keep from ``curve`` at the gap of two cords."""
        need = np.float32(self.sizes.cord_gap + EASE)
        clear = np.ones(len(self._spacing), dtype=bool)
        near = (self._low <= self._high[curve] + need) & (self._high >= self._low[curve] - need)
        look = np.nonzero(near.all(axis=1) & (self.ways.link != self.ways.link[curve]))[0]
        between = np.sqrt(self._nearest(look, curve, COARSE))
        # Between coarse samples the curves may be nearer by half a step of each.
        slip = COARSE * (self._spacing[look] + self._spacing[curve]) / 2
        clear[look] = between >= need
        look = look[(between >= need) & (between < need + slip)]
        slip = (self._spacing[look] ** 2 + self._spacing[curve] ** 2) / 4
        clear[look] = self._nearest(look, curve, 1) >= need**2 + slip
        return clear

    def _nearest(self, look: NDArray[np.intp], curve: int, every: int) -> NDArray[np.float32]:
        """The least squared distance between samples of each curve in ``look`` and ``curve``."""
        x, y = self._points[:, look, ::every]
        own_x, own_y = self._points[:, curve, ::every]
        square = x[:, :, None] - own_x
        square *= square
        dy = y[:, :, None] - own_y
        dy *= dy
        square += dy
        nearest: NDArray[np.float32] = square.min(axis=(1, 2))
        return nearest

    def _angles(self, curve: int) -> Flags:
        """Whether the others' directions differ enough where they leave a shared spot."""
        most = math.cos(math.radians(self.sizes.angle + EASE))
        clear = np.ones(len(self._edges), dtype=bool)
        for k, spot in enumerate(self.ways.edges[self.ways.link[curve]]):
            rows, ends = np.nonzero(self._edges == spot)
            along = (self.ways.leaving[rows, ends] * self.ways.leaving[curve, k]).sum(axis=1)
            clear[rows[along > most]] = False
        return clear

    def _seats(self, curve: int) -> Flags:
        """The good seats that keep their gap from ``curve``."""
        need = np.float32(self.sizes.tag_gap + EASE)
        half = np.array([self.sizes.tag_width, self.sizes.tag_height], dtype=np.float32) / 2
        reach = half + need
        near = self._centres <= self._high[curve] + reach
        near &= self._centres >= self._low[curve] - reach
        look = np.nonzero(near.all(axis=1))[0]
        square = np.zeros((len(look), self._points.shape[2]), dtype=np.float32)
        for k in (0, 1):
            off = np.abs(self._centres[look, k, None] - self._points[k, curve])
            off -= half[k]
            np.maximum(off, 0, out=off)
            off *= off
            square += off
        clear = np.ones(len(self._centres), dtype=bool)
        clear[look] = square.min(axis=1) >= need**2 + self._spacing[curve] ** 2 / 4
        seats = np.zeros(self.seats.good.shape, dtype=bool)
        seats[self._seat] = clear
        return seats
