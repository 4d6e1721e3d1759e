"""Pictures at the size at which they are printed."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from bookmaker.cache import Cache
from bookmaker.model import Picture
from bookmaker.pictures.packing import pack, recall

FINEST_DPI = 450
"""More than this at the printed size is brought down to ``AIM_DPI``."""

AIM_DPI = 300
VERSION = 1
_MM_PER_INCH = 25.4


def dpi(picture: Picture, width_mm: float) -> float:
    """Pixels per inch where the whole picture is ``width_mm`` wide; infinite for vector art."""
    if picture.format == "svg":
        return math.inf
    return picture.width / width_mm * _MM_PER_INCH


def at_size(picture: Picture, width_mm: float, *, cache: Cache | None = None) -> Picture:
    """The picture as it is to be printed with its whole width ``width_mm`` wide.

    Vector art, and a raster of at most 450 dpi there, is given back as it is; a finer one is
    brought down to 300 dpi, upright and in sRGB.
    """
    if picture.format == "svg" or dpi(picture, width_mm) <= FINEST_DPI:
        return picture
    scale = max(1, math.ceil(width_mm / _MM_PER_INCH * AIM_DPI)) / picture.width
    made = _brought_down(picture, scale, cache)
    if cache is None:
        return made
    stored = _Again(len(made.data), lambda: _brought_down(picture, scale, cache))
    return replace(made, stored=stored)


def small(picture: Picture, pixels: int, *, cache: Cache | None = None) -> Picture:
    """A copy of at most ``pixels`` along its longer side; the picture itself if it is no larger."""
    longest = max(picture.width, picture.height)
    if picture.format == "svg" or longest <= pixels:
        return picture
    return _brought_down(picture, pixels / longest, cache)


def standing_alone(picture: Picture) -> tuple[str, bytes]:
    """Format and bytes of the picture for a viewer that knows nothing else of it.

    A JPEG that lies on its side, is in CMYK or has a profile of its own is redrawn.
    """
    if picture.orientation == 1 and picture.colours != 4 and not picture.icc:
        return picture.format, picture.data
    redrawn = _brought_down(picture, 1.0, cache=None)
    return redrawn.format, redrawn.data


@dataclass(frozen=True, slots=True)
class _Again:
    """Bytes that a cache keeps, or that are made again where it has forgotten them."""

    size: int
    make: Callable[[], Picture]

    def read(self) -> bytes:
        return self.make().data


def _brought_down(picture: Picture, scale: float, cache: Cache | None) -> Picture:
    width = max(1, round(picture.width * scale))
    height = max(1, round(picture.height * scale))

    def compute() -> Picture:
        from bookmaker.pictures.resample import resample

        return resample(picture, width, height)

    key = f"scaled {VERSION} {picture.digest} {picture.orientation} {width}x{height}"
    return _kept(cache, key, compute)


def _kept(cache: Cache | None, key: str, compute: Callable[[], Picture]) -> Picture:
    kept = recall(cache, key) if cache else None
    if kept:
        return kept
    picture = compute()
    if cache:
        cache.put(key, pack(picture))
    return picture
