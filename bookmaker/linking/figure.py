"""Figure and ground: where a picture's creature lies, told from sky, water or paper about it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from PIL import Image, ImageFilter

from bookmaker.cache import Cache
from bookmaker.linking.creature import LEAST, MOST, creature
from bookmaker.model import Box, Picture, Point
from bookmaker.pictures import PIXELS, look, trimmed

VERSION = 4
BLUR = 0.7
"""Radius, pixels, of what evens out a photograph's noise and a scan's grain."""
NEAR = 1
"""A link this far beside the figure, pixels, still follows it: links have width, limbs are thin."""


@dataclass(frozen=True, slots=True)
class Figure:
    """Where the creature lies: ``mask`` has a byte for each pixel, row by row, 1 for the figure.

    The mask covers ``trim``, the part of the picture that is shown.
    """

    trim: Box
    width: int
    height: int
    mask: bytes

    def has(self, at: Point) -> bool:
        """Whether a point, in fractions of the whole picture, lies over the figure."""
        column, row = self._pixel(at)
        return self._inside(column, row)

    def share(self, start: Point, end: Point) -> float:
        """The part of a straight line, in fractions of the whole picture, that lies over it."""
        (x, y), (to_x, to_y) = self._pixel(start), self._pixel(end)
        steps = 2 * math.ceil(math.dist((x, y), (to_x, to_y))) + 1
        along = [(step + 0.5) / steps for step in range(steps)]
        over = sum(self._inside(x + t * (to_x - x), y + t * (to_y - y)) for t in along)
        return over / steps

    def _pixel(self, at: Point) -> Point:
        across = (at[0] - self.trim.x) / self.trim.width * self.width
        down = (at[1] - self.trim.y) / self.trim.height * self.height
        return across, down

    def _inside(self, column: float, row: float) -> bool:
        if not (0 <= column < self.width and 0 <= row < self.height):
            return False
        return self.mask[int(row) * self.width + int(column)] == 1


def find_figure(picture: Picture, cache: Cache) -> Figure | None:
    """Where the picture's creature lies; None where a look does not tell."""
    trim = picture.trim
    corners = f"{trim.x:.6f} {trim.y:.6f} {trim.width:.6f} {trim.height:.6f}"
    key = f"figure {VERSION} {picture.digest} {picture.orientation} {corners}"
    kept = cache.get(key)
    if not kept:
        kept = _looked_for(picture)
        cache.put(key, kept)
    size, mask = kept.split(b" ", 1)
    width = int(size)
    if not LEAST <= mask.count(1) / len(mask) <= MOST:
        return None
    return Figure(trim, width, len(mask) // width, mask)


def _looked_for(picture: Picture) -> bytes:
    """The mask, its width in front."""
    import numpy as np  # slow to import, and only wanted where the cache knows nothing

    part = max(picture.width * picture.trim.width, picture.height * picture.trim.height)
    pixels = round(PIXELS * max(picture.width, picture.height) / part)
    shown = trimmed(look(picture, "RGB", pixels), picture)
    found = creature(np.asarray(shown.filter(ImageFilter.GaussianBlur(BLUR)))).astype(np.uint8)
    image = Image.fromarray(found).filter(ImageFilter.MaxFilter(2 * NEAR + 1))
    return b"%d " % image.width + image.tobytes()
