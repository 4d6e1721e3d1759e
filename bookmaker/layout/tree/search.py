"""Choosing a way for every link and a seat for every tag: the cheapest that all go together.

Branch and bound with forward checking. Each link has its candidate curves, cheapest first, and each
curve its seats. To choose a curve strikes out what it would touch: curves that come too near
or leave a shared spot at too small an angle, and seats that it would run through. While the
cheapest curves left do not go together, one that is in the way of most is tried in all its ways.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass

import numpy as np

from bookmaker.layout.tree.geometry import Array, Flags
from bookmaker.layout.tree.links import Ways
from bookmaker.layout.tree.seating import seat_all
from bookmaker.layout.tree.sizes import EASE, Sizes
from bookmaker.layout.tree.tags import Seats

NODES = 160
"""How many partial choices are looked at before the best so far has to do."""
OFF = 0.01
"""What it costs for a tag to sit one millimetre off its middle."""
GOOD_ENOUGH = 0.05
"""A cheaper choice is looked for only if it could save this much."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """A curve (index into the ways) for every link and the centre of its tag."""

    curves: tuple[int, ...]
    centres: Array  # (L, 2)
    cost: float


class Search:
    """One search; ``best`` is its answer, ``blame`` counts which links stood in the way."""

    def __init__(self, ways: Ways, seats: Seats, sizes: Sizes, nodes: int = NODES) -> None:
        self.ways, self.seats, self.sizes = ways, seats, sizes
        self.links = len(ways.edges)
        self.best: Chosen | None = None
        self.blame: Counter[int] = Counter()
        self.left = nodes
        self._rows: dict[int, Flags] = {}
        self._bounds = np.searchsorted(ways.link, np.arange(self.links + 1))
        self._spacing = ways.spacing()
        self._x, self._y = (ways.points[..., k].astype(np.float32) for k in (0, 1))
        self._low, self._high = ways.points.min(axis=1), ways.points.max(axis=1)

    def run(self) -> Chosen | None:
        """The cheapest choice found; None where there is none, or none was found in time."""
        self._descend(self.seats.good, {})
        return self.best

    def _pick(self, open_links: list[int], clashing: Counter[int], counts: Array) -> int:
        """The link to decide next: where most has clashed, then where least is left."""
        return max(open_links, key=lambda k: (clashing[k], -int(counts[k]), -k))

    def _descend(self, alive: Flags, taken: dict[int, int]) -> None:
        self.left -= 1
        usable: Flags = np.any(alive, axis=1)
        firsts = self._firsts(usable, taken)
        if firsts is None:
            return
        cost = float(self.ways.cost[firsts].sum())
        if self.best and cost > self.best.cost - GOOD_ENOUGH:
            return
        clashing = self._clashing(alive, firsts)
        if not clashing:
            clashing = self._finish(alive, firsts, cost)
        open_links = [link for link in clashing if link not in taken]
        if not open_links:
            self.blame.update(clashing)
            return
        counts = np.add.reduceat(usable, self._bounds[:-1])
        link = self._pick(open_links, clashing, counts)
        first, last = self._bounds[link : link + 2]
        for curve in np.nonzero(usable[first:last])[0] + first:
            if self.left <= 0:
                return
            extra = self.ways.cost[curve] - self.ways.cost[firsts[link]]
            if self.best and cost + extra > self.best.cost - GOOD_ENOUGH:
                return
            self._descend(alive & self._row(int(curve)), {**taken, link: int(curve)})

    def _firsts(self, usable: Flags, taken: dict[int, int]) -> list[int] | None:
        """The cheapest curve left for every link; None (and blame) where one has none."""
        firsts = []
        for link in range(self.links):
            first, last = self._bounds[link : link + 2]
            step = int(usable[first:last].argmax()) if last > first else 0
            if last == first or not usable[first + step]:
                self.blame.update([link, *taken])
                return None
            firsts.append(int(first) + step)
        return firsts

    def _clashing(self, alive: Flags, firsts: list[int]) -> Counter[int]:
        """Links whose cheapest curves do not go together, with how many others they disturb."""
        clashing: Counter[int] = Counter()
        rows = {curve: self._row(curve)[firsts] for curve in firsts}
        together = alive[firsts]
        for i, curve in enumerate(firsts):
            hurt = ~(rows[curve] & alive[firsts]).any(axis=1)
            for j in np.nonzero(hurt)[0]:
                clashing.update([i, int(j)])
            together = together & rows[curve]
        if not clashing:
            # No two disturb each other, but several may have taken a tag's last seat.
            for j in np.nonzero(~together.any(axis=1))[0]:
                clashing[int(j)] += 1
                for i, curve in enumerate(firsts):
                    clashing[i] += bool((alive[firsts[j]] & ~rows[curve][j]).any())
        return clashing

    def _finish(self, alive: Flags, firsts: list[int], cost: float) -> Counter[int]:
        """Seat the tags of a full choice; what stands in the way, if they can't be seated."""
        together = alive[firsts]
        for curve in firsts:
            together = together & self._row(curve)[firsts]
        found, clashing = seat_all(
            self.seats.centres[firsts], self.seats.off[firsts], together, self.sizes
        )
        if found is None:
            return clashing
        rows = np.arange(self.links)
        total = cost + OFF * float(self.seats.off[firsts, found].sum())
        if self.best is None or total < self.best.cost:
            centres = self.seats.centres[firsts][rows, found]
            self.best = Chosen(tuple(firsts), centres, total)
        return Counter()

    def _row(self, curve: int) -> Flags:
        """(C, T): the curves and seats that go together with ``curve``."""
        if curve not in self._rows:
            seats = self._seats_clear_of(curve)
            fits = self._curves_clear_of(curve) & self._angles_clear_of(curve)
            first, last = self._bounds[self.ways.link[curve] :][:2]
            fits[first:last] = False
            fits[curve] = True
            seats[curve] = True
            self._rows[curve] = seats & fits[:, None]
        return self._rows[curve]

    def _curves_clear_of(self, curve: int) -> Flags:
        need = self.sizes.cord_gap + EASE
        slip = (self._spacing**2 + self._spacing[curve] ** 2) / 4
        near = (
            (self._low <= self._high[curve] + need) & (self._high >= self._low[curve] - need)
        ).all(axis=1)
        near &= self.ways.link != self.ways.link[curve]
        dx = self._x[near][:, :, None] - self._x[curve]
        dy = self._y[near][:, :, None] - self._y[curve]
        dx *= dx
        dy *= dy
        dx += dy
        clear = np.ones(len(near), dtype=bool)
        clear[near] = dx.min(axis=(1, 2)) >= need**2 + slip[near]
        return clear

    def _angles_clear_of(self, curve: int) -> Flags:
        """Whether the others' directions differ enough where they leave a shared spot."""
        most = math.cos(math.radians(self.sizes.angle + EASE))
        edges = np.array(self.ways.edges)[self.ways.link]
        clear = np.ones(len(edges), dtype=bool)
        for k, spot in enumerate(self.ways.edges[self.ways.link[curve]]):
            along = (self.ways.leaving * self.ways.leaving[curve, k]).sum(axis=2)
            clear &= ~((edges == spot) & (along > most)).any(axis=1)
        return clear

    def _seats_clear_of(self, curve: int) -> Flags:
        need = (self.sizes.tag_gap + EASE) ** 2 + float(self._spacing[curve]) ** 2 / 4
        good = self.seats.good
        centres = self.seats.centres[good].astype(np.float32)
        dx = np.abs(centres[:, :1] - self._x[curve])
        dy = np.abs(centres[:, 1:] - self._y[curve])
        dx -= np.float32(self.sizes.tag_width / 2)
        dy -= np.float32(self.sizes.tag_height / 2)
        np.maximum(dx, 0, out=dx)
        np.maximum(dy, 0, out=dy)
        dx *= dx
        dy *= dy
        dx += dy
        clear = np.zeros(good.shape, dtype=bool)
        clear[good] = dx.min(axis=1) >= need
        return clear
