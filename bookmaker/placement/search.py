"""Choosing a way for every link and a seat for every tag: the cheapest that all go together.

Branch and bound with forward checking. Each link has its candidate curves, cheapest first, and each
curve its seats. To choose a curve strikes out what it would touch. While the cheapest curves
left do not go together, the one with the fewest ways left among those in the way is tried in all
of them.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

import numpy as np

from bookmaker.placement.compatibility import Fits
from bookmaker.placement.geometry import Flags
from bookmaker.placement.label_search import seat_all

OFF = 0.01
"""What it costs for a tag to sit one millimetre off its middle."""
GOOD_ENOUGH = 0.05
"""A cheaper choice is looked for only if it could save this much."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """A curve (index into the ways) and a seat for every link."""

    curves: tuple[int, ...]
    seats: tuple[int, ...]
    cost: float


def seated(fits: Fits, curves: list[int]) -> tuple[Chosen | None, Counter[int]]:
    """Tags on one curve of each link; None, and the links in the way, if they can't be seated."""
    left = fits.together(curves)
    full = np.nonzero(~left.any(axis=1))[0]
    if len(full):
        return None, Counter(int(link) for link in full)
    centres, off = fits.seats.centres[curves], fits.seats.off[curves]
    found, clashing = seat_all(centres, off, left, fits.sizes)
    if found is None:
        return None, clashing
    cost = float(fits.ways.cost[curves].sum())
    cost += OFF * float(off[np.arange(len(curves)), found].sum())
    return Chosen(tuple(curves), tuple(int(seat) for seat in found), cost), Counter()


class Search:
    """One search, bounded by ``nodes`` partial choices; ``best`` is its answer.

    ``blame`` counts which links stood in the way.
    """

    def __init__(self, fits: Fits, nodes: int) -> None:
        self.fits = fits
        self.best: Chosen | None = None
        self.blame: Counter[int] = Counter()
        self.left = nodes

    def run(self) -> Chosen | None:
        """The cheapest choice found; None where there is none, or none was found in time."""
        self._descend(self.fits.seats.good, {})
        return self.best

    def _descend(self, alive: Flags, taken: dict[int, int]) -> None:
        self.left -= 1
        usable: Flags = np.any(alive, axis=1)
        firsts = self._firsts(usable, taken)
        cost = self.fits.ways.cost
        if firsts is None or not self._saves(float(cost[firsts].sum())):
            return
        clashing = self._clashing(alive, firsts)
        if not clashing:
            found, clashing = seated(self.fits, firsts)
            if found and (self.best is None or found.cost < self.best.cost):
                self.best = found
        open_links = [link for link in clashing if link not in taken]
        if not open_links:
            self.blame.update(clashing)
            return
        starts = self.fits.starts
        counts = np.add.reduceat(usable, starts[:-1], dtype=np.intp)
        link = min(open_links, key=lambda k: (counts[k], -clashing[k], k))
        start, end = starts[link : link + 2]
        for curve in np.nonzero(usable[start:end])[0] + start:
            others = float(cost[firsts].sum() - cost[firsts[link]])
            if self.left <= 0 or not self._saves(others + float(cost[curve])):
                return
            self._descend(alive & self.fits.row(int(curve)), {**taken, link: int(curve)})

    def _saves(self, cost: float) -> bool:
        return self.best is None or cost <= self.best.cost - GOOD_ENOUGH

    def _firsts(self, usable: Flags, taken: dict[int, int]) -> list[int] | None:
        """The cheapest curve left for every link; None (and blame) where one has none."""
        firsts = []
        for link in range(self.fits.links):
            start, end = self.fits.starts[link : link + 2]
            step = int(usable[start:end].argmax()) if end > start else 0
            if end == start or not usable[start + step]:
                self.blame.update([link, *taken])
                return None
            firsts.append(int(start) + step)
        return firsts

    def _clashing(self, alive: Flags, firsts: list[int]) -> Counter[int]:
        """Links whose cheapest curves do not go together, with how many others they disturb."""
        clashing: Counter[int] = Counter()
        left = alive[firsts]
        self.fits.work_out(firsts)
        for i, curve in enumerate(firsts):
            for j in np.nonzero(~(self.fits.row(curve)[firsts] & left).any(axis=1))[0]:
                clashing.update([i, int(j)])
        return clashing
