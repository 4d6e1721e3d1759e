"""Mending a choice that does not go together yet, one link at a time.

Local search with weights: while links clash, the change of one curve that leaves the least clashing
is made, even if it helps nothing; clashes that last grow heavier, so that the search leaves places
where it is stuck (Morris 1993, the breakout method, Proc. AAAI-93, 40-45). What was
just left is not taken up again for a while (Glover 1989, ORSA Journal on Computing 1, 190-206).
"""

from __future__ import annotations

import numpy as np

from bookmaker.placement.compatibility import Fits
from bookmaker.placement.geometry import Array, Flags
from bookmaker.placement.search import Chosen, seated

REST = 12
"""For how many steps a curve that was left is left alone."""
HEAVIER = 0.15
"""How much a clash gains in weight with every step that it lasts."""
GENTLENESS = 0.02
"""How much a unit of a curve's cost weighs against a clash."""

FEW = 2
"""How many links at most are named as those in the way; where more pairs than that clash half-way
through, it is hopeless."""


def mend(fits: Fits, steps: int) -> tuple[Chosen | None, list[int]]:
    """A choice that goes together, or None; and the links that clashed most (or have no way)."""
    missing = np.nonzero(np.diff(fits.starts) == 0)[0]
    if len(missing):
        return None, [int(link) for link in missing]
    state = _State(fits)
    fewest = fits.links**2
    for step in range(steps):
        pairs = state.clashes()
        fewest = min(fewest, len(pairs))
        if step > steps / 2 and fewest > FEW:
            break
        bad = {link for pair in pairs for link in pair}
        if not pairs:
            found, clashing = seated(fits, state.curves)
            if found:
                return found, []
            bad = set(clashing)
            pairs = [(i, j) for i in sorted(bad) for j in range(fits.links) if i != j]
        state.weigh(pairs)
        if not state.change(bad, step):
            break
    return None, state.heaviest()


class _State:
    def __init__(self, fits: Fits) -> None:
        self.fits = fits
        self.curves = [int(start) for start in fits.starts[:-1]]
        self.weights = np.ones((fits.links, fits.links))
        self.resting: dict[int, int] = {}
        self._usable: dict[int, Flags] = {}

    def clashes(self) -> list[tuple[int, int]]:
        """Pairs of links whose curves, or all of whose seats, are in each other's way."""
        self.fits.work_out(self.curves)
        usable = [self._row(curve)[self.curves] for curve in self.curves]
        count = self.fits.links
        return [
            (i, j)
            for i in range(count)
            for j in range(i + 1, count)
            if not (usable[i][j] and usable[j][i])
        ]

    def weigh(self, pairs: list[tuple[int, int]]) -> None:
        for i, j in pairs:
            self.weights[i, j] += HEAVIER
            self.weights[j, i] += HEAVIER

    def heaviest(self) -> list[int]:
        """The links that clashed longest, at most ``FEW``."""
        order = np.argsort(-self.weights.sum(axis=1), kind="stable")
        return [int(link) for link in order[:FEW]]

    def change(self, bad: set[int], step: int) -> bool:
        """Give one of the ``bad`` links another curve; False if there is none to give."""
        cost = self._costs()
        link = self.fits.ways.link
        gain = cost - cost[self.curves][link]
        gain[~np.isin(link, sorted(bad))] = np.inf
        gain[self.curves] = np.inf
        gain[[curve for curve, until in self.resting.items() if until > step]] = np.inf
        best = int(gain.argmin())
        if not np.isfinite(gain[best]):
            return False
        self.resting[self.curves[link[best]]] = step + REST
        self.curves[link[best]] = best
        return True

    def _costs(self) -> Array:
        """(C,) what each curve would clash with, weighed, were it taken now."""
        ways = self.fits.ways
        cost: Array = GENTLENESS * ways.cost
        for other, curve in enumerate(self.curves):
            weight = self.weights[ways.link, other] * (ways.link != other)
            cost = cost + weight * ~self._row(curve)
        return cost

    def _row(self, curve: int) -> Flags:
        if curve not in self._usable:
            self._usable[curve] = np.any(self.fits.row(curve), axis=1)
        return self._usable[curve]
