"""A picture that has been taken in: safe bytes and what layout must know of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle: ``x``, ``y`` of its top left, ``width`` and ``height``."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        return self.x + self.width

    @property
    def bottom(self) -> float:
        return self.y + self.height


@dataclass(frozen=True, slots=True)
class Picture:
    """Art, upright and safe to print.

    ``width`` and ``height`` are those a viewer shows (pixels, or SVG user units); ``trim`` is the
    part that is not blank border, in fractions (0 to 1) of them. ``data`` is a screened SVG
    (``format`` "svg"), a JPEG without metadata ("jpeg"; its pixels lie as ``orientation``, the
    EXIF value 1 to 8, says) or a PNG ("png"; grey or RGB, upright, no alpha). ``digest`` is the
    SHA-256 of ``data`` in hexadecimal. ``notes`` are warnings in words.
    """

    format: Literal["svg", "jpeg", "png"]
    width: float
    height: float
    trim: Box
    data: bytes
    digest: str
    orientation: int = 1
    notes: tuple[str, ...] = ()
