"""Figure and ground: where a picture's creature lies, told from sky, water or paper about it.

The ground is grown from the picture's edge (seeded region growing: Adams and Bischof 1994, IEEE
Transactions on Pattern Analysis and Machine Intelligence 16(6)) through pixels that are of the
edge's own colours; the figure is the rest.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PIL import Image, ImageFilter

from bookmaker.cache import Cache
from bookmaker.model import Box, Picture, Point
from bookmaker.pictures import PIXELS, look, trimmed

if TYPE_CHECKING:
    import numpy as np

VERSION = 1
BLUR = 0.7
"""Radius, pixels, of what evens out a photograph's noise and a scan's grain."""
ALIKE = 28.0
"""Colours nearer than this in RGB (levels of 255) pass for one."""
OFTEN = 0.04
"""The part of the edge a colour must have to be the ground's: a leg that is cut off has less."""
SPECK = 0.005
"""A piece that takes less of the picture than this is a wave or a reed, and no creature."""
NEAR = 1
"""A link this far beside the figure, pixels, still follows it: links have width, limbs are thin."""
LEAST, MOST = 0.03, 0.95
"""A figure that takes less or more of the picture than this says nothing."""


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
    colours = np.asarray(shown.filter(ImageFilter.GaussianBlur(BLUR)), dtype=np.float32)
    figure = _figure(_like_the_edge(colours))
    image = Image.frombytes("L", shown.size, figure).filter(ImageFilter.MaxFilter(2 * NEAR + 1))
    return b"%d " % image.width + image.tobytes()


def _like_the_edge(colours: np.ndarray) -> np.ndarray:
    """Which pixels are of a colour that enough of the picture's edge has."""
    import numpy as np

    edge = np.concatenate([colours[0], colours[-1], colours[1:-1, 0], colours[1:-1, -1]])
    often = np.zeros(colours.shape[:2], dtype=np.int32)
    for colour in edge:
        often += ((colours - colour) ** 2).sum(axis=2) < ALIKE**2
    return often >= OFTEN * len(edge)


def _figure(like_ground: np.ndarray) -> bytes:
    """A byte for each pixel: 1 where no way leads from the edge, but for specks."""
    import numpy as np

    rimmed = np.pad(like_ground, 1, constant_values=True)  # all ground at the edge is one
    wide = rimmed.shape[1]
    ground = _piece(set(np.flatnonzero(rimmed).tolist()), 0, wide)
    rest = set(range(rimmed.size)).difference(ground)
    found = np.zeros(rimmed.size, dtype=np.uint8)
    while rest:
        piece = _piece(rest, next(iter(rest)), wide)
        if len(piece) >= SPECK * like_ground.size:
            found[piece] = 1
    return found.reshape(rimmed.shape)[1:-1, 1:-1].tobytes()


def _piece(left: set[int], start: int, wide: int) -> list[int]:
    """Take out of ``left``, pixels counted row by row, what hangs together with ``start``."""
    left.remove(start)
    piece, waiting = [start], [start]
    while waiting:
        at = waiting.pop()
        for beside in (at - 1, at + 1, at - wide, at + wide):
            if beside in left:
                left.remove(beside)
                piece.append(beside)
                waiting.append(beside)
    return piece
