"""Where a tag can sit: seats along a curve, the middle first."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bookmaker.layout.tree.geometry import Array, Flags, box_distances, clip_to_box
from bookmaker.layout.tree.links import Ways
from bookmaker.layout.tree.sizes import EASE, Sizes
from bookmaker.model.picture import Box

SHARES = (0.0, 0.07, 0.15, 0.25, 0.36, 0.48, 0.62, 0.78, 0.95)
"""How far from the middle the seats are, against the farthest at which a tag could sit."""


@dataclass(frozen=True, slots=True)
class Seats:
    """T places for a tag on each of C curves."""

    centres: Array  # (C, T, 2)
    off: Array  # (C, T) how far from the curve's middle, along it
    good: Flags  # (C, T) the tag shows enough of its link, inside the bounds, clear of spots


def seats(ways: Ways, places: Array, bounds: Box, sizes: Sizes) -> Seats:
    """All seats of all curves, and which of them are good whatever the other links do."""
    total = ways.along[:, -1:]
    shares = np.array([0.0, *(side * share for share in SHARES[1:] for side in (-1.0, 1.0))])
    farthest = np.maximum(total / 2 - sizes.visible - sizes.tag_height / 2, 0.0)
    off = farthest * shares
    centres = _points_at(ways, total / 2 + off)
    half = (sizes.tag_width / 2, sizes.tag_height / 2)
    spot_far = box_distances(places[None, None], centres[:, :, None], half).min(axis=2)
    inside = (
        (centres[..., 0] >= bounds.x + half[0] + EASE)
        & (centres[..., 0] <= bounds.right - half[0] - EASE)
        & (centres[..., 1] >= bounds.y + half[1] + EASE)
        & (centres[..., 1] <= bounds.bottom - half[1] - EASE)
    )
    good = inside & (spot_far >= sizes.radius + sizes.tag_gap + EASE)
    candidates = np.nonzero(good)
    good[candidates] = _shows(ways, candidates[0], centres[candidates], sizes)
    return Seats(centres, np.abs(off), good)


def _points_at(ways: Ways, along: Array) -> Array:
    """Points (C, T, 2) at lengths (C, T) along the curves."""
    after = (ways.along[:, None, 1:-1] < along[:, :, None]).sum(axis=2) + 1
    rows = np.arange(len(along))[:, None]
    low, high = ways.along[rows, after - 1], ways.along[rows, after]
    share = ((along - low) / np.maximum(high - low, 1e-9))[..., None]
    at: Array = ways.points[rows, after - 1] * (1 - share) + ways.points[rows, after] * share
    return at


def _shows(ways: Ways, curve: np.ndarray, centres: Array, sizes: Sizes) -> Flags:
    """Whether curves enter a tag once, with enough to be seen before and after it."""
    points, along = ways.points[curve], ways.along[curve]
    half = (sizes.tag_width / 2, sizes.tag_height / 2)
    start, end = points[:, :-1], points[:, 1:]
    enter, leave = clip_to_box(start, end, centres[:, None], half)
    touched = enter <= leave
    first = touched.argmax(axis=1)
    last = touched.shape[1] - 1 - touched[:, ::-1].argmax(axis=1)
    row = np.arange(len(curve))
    step = np.diff(along, axis=1)
    before = along[row, first] + enter[row, first] * step[row, first]
    after = along[row, -1] - along[row, last] - leave[row, last] * step[row, last]
    once = touched.sum(axis=1) == last - first + 1
    need = sizes.visible + EASE
    shows: Flags = once & (before >= need) & (after >= need)
    return shows
