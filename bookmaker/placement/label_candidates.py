"""Where a tag can sit: seats along a curve, the middle first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bookmaker.model import Box, Point
from bookmaker.placement.curves import Ways
from bookmaker.placement.geometry import Array, Flags, box_distances, clip_to_box
from bookmaker.placement.sizes import EASE, STROKE, Sizes

MANY = tuple(step / 24 for step in range(25))
FEW = tuple(MANY[step] for step in (0, 4, 10, 18))
"""How far from the middle the seats are, against the farthest at which a tag could sit."""
OPEN, OPEN_FADES = 0.1, 20.0
"""Of two seats as far from the middle, one with more room around it counts as a little nearer."""
CHUNK = 200
"""How many seats are looked at closely at once: what stays in a processor's cache."""


@dataclass(frozen=True, slots=True)
class Seats:
    """T places for a tag on each of C curves."""

    centres: Array  # (C, T, 2)
    off: Array  # (C, T) how far from the curve's middle, along it; of two alike, one is in the open
    good: Flags  # (C, T) the tag shows enough of its link, inside the bounds, clear of spots

    def take(self, kept: NDArray[np.intp]) -> Seats:
        """The seats on the curves with these indices."""
        return Seats(self.centres[kept], self.off[kept], self.good[kept])


def seats(
    ways: Ways, places: Sequence[Point], bounds: Box, sizes: Sizes, steps: tuple[float, ...]
) -> Seats:
    """All seats of all curves, and which of them are good whatever the other links do.

    ``steps`` (0 the middle, 1 as far as can be) are taken to both sides.
    """
    total = ways.along[:, -1:]
    shares = np.array([0.0, *(side * step for step in steps[1:] for side in (-1.0, 1.0))])
    farthest = np.maximum(total / 2 - sizes.visible - sizes.tag_height / 2, 0.0)
    off = farthest * shares
    centres = _points_at(ways, total / 2 + off)
    half = (sizes.tag_width / 2, sizes.tag_height / 2)
    low = np.array([bounds.x, bounds.y]) + half + STROKE
    high = np.array([bounds.right, bounds.bottom]) - half - STROKE
    good: Flags = np.all((centres >= low) & (centres <= high), axis=2)
    candidates = np.nonzero(good)
    far = box_distances(np.array(places)[None], centres[candidates][:, None], half)
    good[candidates] = far.min(axis=1) >= sizes.radius + sizes.tag_gap
    off = np.abs(off)
    off[candidates] += OPEN * np.exp(-far / OPEN_FADES).sum(axis=1)
    curve, seat = np.nonzero(good)
    for start in range(0, len(curve), CHUNK):
        some, those = curve[start : start + CHUNK], seat[start : start + CHUNK]
        good[some, those] = _shows(ways, some, centres[some, those], sizes)
    return Seats(centres, off, good)


def _points_at(ways: Ways, along: Array) -> Array:
    """Points (C, T, 2) at lengths (C, T) along the curves."""
    after = (ways.along[:, None, 1:-1] < along[:, :, None]).sum(axis=2) + 1
    rows = np.arange(len(along))[:, None]
    low, high = ways.along[rows, after - 1], ways.along[rows, after]
    share = ((along - low) / np.maximum(high - low, 1e-9))[..., None]
    at: Array = ways.points[rows, after - 1] * (1 - share) + ways.points[rows, after] * share
    return at


def _shows(ways: Ways, curve: NDArray[np.intp], centres: Array, sizes: Sizes) -> Flags:
    """Whether curves enter a tag once, with enough to be seen before and after it."""
    points, along = ways.points[curve], ways.along[curve]
    half = (sizes.tag_width / 2, sizes.tag_height / 2)
    shows: Flags = shown_beside(points, along, centres, half, 2 * EASE) >= sizes.visible
    return shows


def shown_beside(points: Array, along: Array, centres: Array, half: Point, less: float) -> Array:
    """(S,) how much of a chain shows on the shorter side of its tag, mm.

    Nothing, unless it runs in and out just once, and does so as well where the tag is ``less``
    smaller on all sides: what bulges out of a tag by a hair shows. Chains are ``points``
    (S, samples, 2), at lengths ``along``; each has its tag's centre.
    """
    shown = _shown(points, along, centres, half)
    some = np.nonzero(shown)[0]
    smaller = (half[0] - less, half[1] - less)
    shown[some] *= _shown(points[some], along[some], centres[some], smaller) > 0
    return shown


def _shown(points: Array, along: Array, centres: Array, half: Point) -> Array:
    enter, leave = clip_to_box(points[:, :-1], points[:, 1:], centres[:, None], half)
    touched = enter <= leave
    row, count = np.arange(len(points)), touched.shape[1]
    first = touched.argmax(axis=1)
    last = count - 1 - touched[:, ::-1].argmax(axis=1)
    step = np.diff(along, axis=1)
    before = along[row, first] + enter[row, first] * step[row, first]
    after = along[row, -1] - along[row, last] - leave[row, last] * step[row, last]
    # Inside, each piece is covered from where the last one ended: the chain never looks out.
    between = ((leave - enter) * step * touched).sum(axis=1)
    once = touched.any(axis=1) & (np.abs(before + between + after - along[:, -1]) < 1e-3)
    shown: Array = np.where(once, np.minimum(before, after), 0.0)
    return shown
