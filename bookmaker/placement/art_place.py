"""Where the picture lies: as large as its frame allows with every spot's outline inside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bookmaker.model import Box
from bookmaker.placement.sizes import STROKE, Sizes

EDGE = 0.02
"""Kept free inside the frame: drawing rounds to a hundredth of a millimetre."""
RING = STROKE + EDGE


@dataclass(frozen=True, slots=True)
class ArtPlace:
    """``box`` is where the whole, untrimmed picture lies, ``window`` the part of it that shows."""

    box: Box
    window: Box

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Millimetres of a place told in per cent of the picture."""
        return (
            self.box.x + x / 100 * self.box.width,
            self.box.y + y / 100 * self.box.height,
        )


def fit_art(
    width: float,
    height: float,
    trim: Box,
    spots: Sequence[tuple[float, float]],
    frame: Box,
    sizes: Sizes,
) -> ArtPlace:
    """Scale and place a picture in ``frame`` (mm); its aspect is kept.

    ``width`` and ``height`` are the picture's in any unit, ``trim`` its part without blank borders
    in fractions, ``spots`` are in per cent of the whole. The trimmed part and every spot's outline
    lie inside the frame, and the scale is the largest that allows it. Blank borders may hang
    out: ``window`` cuts them off. Raises ValueError for a size that is not positive.
    """
    if min(width, height) <= 0:
        raise ValueError(f"a picture of {width} x {height} has no area")
    if min(trim.width, trim.height) <= 0:
        trim = Box(0.0, 0.0, 1.0, 1.0)
    across = _Axis(trim.x, trim.right, [x / 100 for x, _ in spots], frame.width, sizes.radius)
    down = _Axis(trim.y, trim.bottom, [y / 100 for _, y in spots], frame.height, sizes.radius)
    scale = min(across.longest() / width, down.longest() / height)
    wide, high = width * scale, height * scale
    box = Box(frame.x + across.start(wide), frame.y + down.start(high), wide, high)
    return ArtPlace(box, _overlap(box, frame))


class _Axis:
    """One direction: what must lie in ``room`` millimetres, as fractions of the picture.

    Each of ``edges`` is a fraction and the millimetres that it keeps from the room's ends.
    """

    def __init__(
        self, low: float, high: float, spots: list[float], room: float, radius: float
    ) -> None:
        self.edges = [(low, EDGE), (high, EDGE), *((at, radius + RING) for at in spots)]
        self.middle = (low + high) / 2
        self.room = room

    def longest(self) -> float:
        """The greatest length of the picture at which everything fits."""
        return min(
            max(self.room - keep - other_keep, 1.0) / (other - at)
            for at, keep in self.edges
            for other, other_keep in self.edges
            if other > at
        )

    def start(self, length: float) -> float:
        """Where the picture begins: its trimmed middle as near the room's as can be."""
        least = max(keep - at * length for at, keep in self.edges)
        most = min(self.room - keep - at * length for at, keep in self.edges)
        centred = self.room / 2 - self.middle * length
        return (least + most) / 2 if least > most else min(max(centred, least), most)


def _overlap(one: Box, other: Box) -> Box:
    x, y = max(one.x, other.x), max(one.y, other.y)
    right, bottom = min(one.right, other.right), min(one.bottom, other.bottom)
    return Box(x, y, max(right - x, 0.0), max(bottom - y, 0.0))
