"""Making a clean choice finer: bends as small as they can be, tags nearer their middles.

The search takes its bends from a list; here each bent link in turn is given bends close to its own
that cost less, and takes the cheapest that still goes together with all the rest.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bookmaker.model import Box, Point
from bookmaker.placement.compatibility import Fits
from bookmaker.placement.curves import SAMPLES, Bends, hopeful, sound, straight, ways
from bookmaker.placement.geometry import Array
from bookmaker.placement.label_candidates import FEW, MANY, seats
from bookmaker.placement.search import Chosen, seated
from bookmaker.placement.sizes import Sizes
from bookmaker.placement.spot_moves import Edge

WORTH = 0.02
"""A change is made if it saves this much cost."""


@dataclass(frozen=True, slots=True)
class Field:
    """Where the spots stand, which are linked, and the room for it all."""

    places: tuple[Point, ...]
    edges: tuple[Edge, ...]
    bounds: Box
    sizes: Sizes

    def fits(self, choice: Sequence[Bends], steps: tuple[float, ...] = FEW) -> Fits:
        """The table of what goes together, with these bends for each link."""
        sizes = self.sizes.roomier()
        worth = [
            hopeful(self.places, edge, bends, self.bounds, sizes)
            for edge, bends in zip(self.edges, choice, strict=True)
        ]
        candidates = ways(self.places, self.edges, worth, sizes, self._samples())
        candidates = sound(candidates, self.places, self.bounds, sizes)
        chairs = seats(candidates, self.places, self.bounds, sizes, steps)
        useful = np.nonzero(chairs.good.any(axis=1))[0]
        return Fits(candidates.take(useful), chairs.take(useful), sizes)

    def _samples(self) -> int:
        """As dense on a large paper as on A4."""
        across = math.hypot(self.bounds.width, self.bounds.height)
        return max(SAMPLES, 4 * math.ceil(across / 37) + 1)


def refine(field: Field, bends: Bends, turns: Sequence[float]) -> tuple[Fits, Chosen] | None:
    """The bends (L, 3) made gentler in steps of ``turns`` degrees, then all tags seated afresh.

    None where the bends do not go together to begin with.
    """
    for turn in turns:
        bends = _gentler(field, bends, turn)
    fits = field.fits([bend[None] for bend in bends], MANY)
    if len(fits.ways.link) < len(bends):
        return None
    found, _ = seated(fits, list(range(len(bends))))
    return (fits, found) if found else None


def _gentler(field: Field, bends: Bends, turn: float) -> Bends:
    """Each bent link, the most bent first, with the cheapest bend near its own that fits in."""
    fits = field.fits([_near(bend, turn) for bend in bends])
    curves = []
    for link, bend in enumerate(bends):
        own = np.nonzero((fits.ways.bends == bend).all(axis=1) & (fits.ways.link == link))[0]
        if not len(own):
            return bends
        curves.append(int(own[0]))
    return fits.ways.bends[ease(fits, curves)]


def ease(fits: Fits, curves: Sequence[int]) -> list[int]:
    """Each link in turn, the dearest first, with the cheapest curve that goes with all others."""
    eased = list(curves)
    fits.work_out(eased)
    for link in np.argsort(-fits.ways.cost[eased], kind="stable").tolist():
        eased[link] = _cheapest(fits, eased, link)
    return eased


def _cheapest(fits: Fits, curves: list[int], link: int) -> int:
    """The cheapest curve for a link that goes together with those of all others."""
    start, end = fits.starts[link : link + 2]
    alive = fits.seats.good[start:end]
    for other, curve in enumerate(curves):
        if other != link:
            alive = alive & fits.row(curve)[start:end]
    alive_curves: list[int] = (np.nonzero(alive.any(axis=1))[0] + start).tolist()
    for curve in alive_curves:
        if fits.ways.cost[curve] > fits.ways.cost[curves[link]] - WORTH:
            break
        if seated(fits, [*curves[:link], curve, *curves[link + 1 :]])[0]:
            return curve
    return curves[link]


def _near(bend: Array, turn: float) -> Bends:
    """This bend and some close to it, gentler for the most part; a straight line alone."""
    own = bend[None]
    if not own[0, :2].any():
        return own
    start, end, stretch = bend
    middle = (start + end) / 2
    eased = max(0.8, stretch - turn / 50)
    found = [(start * share, end * share, stretch) for share in (0.5, 0.8)]
    found += [
        (start + a, end + b, stretched)
        for a in (-turn, 0, turn)
        for b in (-turn, 0, turn)
        for stretched in (stretch, eased)
    ]
    found += [(middle, middle, stretch), (start, end, (stretch + 1) / 2)]
    return np.concatenate([own, straight(), np.array(found)])
