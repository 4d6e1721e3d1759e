"""A picture in, a scene out: its creature, or what stands out most, and its fine detail."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PIL import Image, ImageFilter

from bookmaker.linking.creature import LEAST, MOST, SCANT, STEP, creature, edge_of, variety
from bookmaker.linking.scene import Scene
from bookmaker.model import Picture
from bookmaker.pictures import look, trimmed

if TYPE_CHECKING:
    import numpy as np

FINE, COARSE = 288, 96
"""Longer side of what detail, and of what the creature, is looked for in, pixels."""
BLUR = 0.7
"""Radius, coarse pixels, of what evens out a photograph's noise and a scan's grain."""
RINGS = (4, 7, 11, 18)
"""How far from an eye's middle its surroundings are asked, fine pixels."""
CROWD, LIKE_THEM = 5, 8
"""Detail counts less by so many times what there is of it on average, so many rings about."""
BUSY = 8.0
"""Where an edge has more colours the ground is not told by them: the creature is in the middle."""
COMMON = 0.02
"""The part of the edge that a colour must have to be compared with."""
SHARE = 0.4
"""What is taken for the creature where no ground is told, of the whole."""


def look_over(picture: Picture) -> Scene:
    """What can be told of where the creature is, at ``COARSE`` pixels along the longer side."""
    import numpy as np  # slow to import, and only wanted where spots are proposed

    part = max(picture.width * picture.trim.width, picture.height * picture.trim.height)
    pixels = round(FINE * max(picture.width, picture.height) / part)
    fine = trimmed(look(picture, "RGB", pixels), picture)
    fine.thumbnail((FINE, FINE))
    width, height = (max(round(side * COARSE / max(fine.size)), 1) for side in fine.size)
    coarse = fine.resize((width, height), Image.Resampling.BOX)
    colours = np.asarray(coarse.filter(ImageFilter.GaussianBlur(BLUR)))
    found = creature(colours)
    if variety(edge_of(colours)) > BUSY:
        found &= _off_middle(found.shape) <= 1
        told = bool(SCANT <= found.mean() <= MOST)
    else:
        told = bool(LEAST <= found.mean() <= MOST)
    if not told:
        found = standing_out(colours)
    detail = _pooled(detail_of(fine), height, width)
    figure = found.astype(np.uint8).tobytes()
    return Scene(picture.trim, width, height, figure, detail.tobytes(), told)


def detail_of(image: Image.Image) -> np.ndarray:
    """How much each pixel stands out, in any colour, from what is on all sides of it (bytes).

    Eyes do, lines and edges do not; a pattern's dots do, but among their like they count less.
    """
    import numpy as np

    smooth = np.asarray(image.filter(ImageFilter.BoxBlur(1)))
    light = np.ascontiguousarray(np.moveaxis(smooth, 2, 0))  # many times faster to go through
    most = np.zeros(light.shape[1:], dtype=np.int16)
    for ring in RINGS:
        darkest, palest = _around(light, ring)
        dark, pale = np.maximum(light, darkest) - light, np.maximum(palest, light) - palest
        found = np.maximum(dark, pale).max(axis=0)
        crowd = np.asarray(Image.fromarray(found).filter(ImageFilter.BoxBlur(CROWD * ring)))
        np.maximum(most, found.astype(np.int16) - LIKE_THEM * crowd.astype(np.int16), out=most)
    return most.astype(np.uint8)


def _around(light: np.ndarray, ring: int) -> tuple[np.ndarray, np.ndarray]:
    """The least and the most light of eight pixels that lie about each, ``ring`` away."""
    import numpy as np

    high, wide = light.shape[1:]
    padded = np.pad(light, ((0, 0), (ring, ring), (ring, ring)), mode="edge")
    slant = round(ring * 0.7)
    ways = [(0, ring), (0, -ring), (ring, 0), (-ring, 0)]
    ways += [(slant, slant), (slant, -slant), (-slant, slant), (-slant, -slant)]
    darkest, palest = np.full_like(light, 255), np.zeros_like(light)
    for down, across in ways:
        there = padded[:, ring + down : ring + down + high, ring + across : ring + across + wide]
        np.minimum(darkest, there, out=darkest)
        np.maximum(palest, there, out=palest)
    return darkest, palest


def _pooled(values: np.ndarray, high: int, wide: int) -> np.ndarray:
    """The most of ``values`` that falls on each of fewer pixels."""
    import numpy as np

    rows = np.arange(high) * values.shape[0] // high
    columns = np.arange(wide) * values.shape[1] // wide
    most: np.ndarray = np.maximum.reduceat(
        np.maximum.reduceat(values, rows, axis=0), columns, axis=1
    )
    return most


def standing_out(colours: np.ndarray) -> np.ndarray:
    """Where no ground is told: what differs most from the edge and is near the middle.

    A part of ``SHARE`` of the pixels (height, width) of ``colours`` (height, width, 3; bytes).
    """
    import numpy as np

    whole, edge = colours.astype(np.int32), edge_of(colours)
    high, wide = whole.shape[:2]
    shades, counts = np.unique((edge + STEP // 2) // STEP, axis=0, return_counts=True)
    apart = np.full((high, wide), 3 * 255**2, dtype=np.int32)
    for shade in shades[counts >= COMMON * len(edge)] * STEP:
        np.minimum(apart, ((whole - shade) ** 2).sum(axis=2), out=apart)
    differs = np.minimum(np.sqrt(apart).astype(np.int32), 255).astype(np.uint8)
    smooth = Image.fromarray(differs).filter(ImageFilter.BoxBlur(max(high, wide) // 20))
    score = np.asarray(smooth) * 2.0 - 255 * _off_middle((high, wide))
    ranked = np.sort(score, axis=None)
    found: np.ndarray = score >= ranked[int(len(ranked) * (1 - SHARE))]
    return found


def _off_middle(shape: tuple[int, ...]) -> np.ndarray:
    """For each pixel how far it is from the middle: 1 on the ellipse that touches the edges."""
    import numpy as np

    high, wide = shape
    down, across = np.ogrid[:high, :wide]
    off: np.ndarray = ((2 * down + 1 - high) / high) ** 2 + ((2 * across + 1 - wide) / wide) ** 2
    return off
