"""Two pictures of one sheet: do they show the same drawing? Which is the better?"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

import numpy as np
from PIL import Image, ImageFilter

from bookmaker.scanning.warp import Floats

SAME = 0.45
"""Likeness from which two pictures show one drawing."""

SIZE = (144, 168)
"""Pixels over the frame at which drawings are compared: some 1.25 mm each."""

COLOURED = 1.0
"""Steps from which a drawing counts as coloured."""

DARKEST = 60.0
"""Steps below white that count: a hand or a black crayon must not drown the rest."""


def likeness(one: Image.Image, other: Image.Image) -> float:
    """Correlation, -1 to 1, of how dark and what colour two drawings of one frame are where.

    RGB both, of any sizes. Two empty frames are alike.
    """
    a, b = _gist(one), _gist(other)
    scale = float(np.sqrt((a * a).sum() * (b * b).sum()))
    if scale == 0:
        return 1.0 if not a.any() and not b.any() else 0.0
    return float((a * b).sum() / scale)


def same_drawing(one: Image.Image, other: Image.Image) -> bool:
    """Whether two pictures of one sheet show one drawing."""
    return likeness(one, other) >= SAME


class Measured(Protocol):
    """A picture of a sheet as far as it was measured: taken just now, or as the review has it."""

    @property
    def faults(self) -> Sequence[str]: ...

    @property
    def blur(self) -> float: ...

    @property
    def dpi(self) -> float: ...


def has_lost_colour(one: Image.Image, other: Image.Image) -> bool:
    """Whether ``one`` is a copy without the colours that ``other`` (RGB both) has."""
    colour = _colour(other)
    return colour > COLOURED and _colour(one) < colour / 4


def better(one: Measured, other: Measured) -> bool:
    """Whether ``one`` is the better picture: nothing lies on it, fewer faults, then sharper."""
    return _flaws(one) < _flaws(other)


def _flaws(taken: Measured) -> tuple[bool, int, float]:
    covered = bool({"corner-covered", "edge-covered"} & set(taken.faults))
    return covered, len(taken.faults), _softness(taken)


def _softness(taken: Measured) -> float:
    """Millimetres that the picture smears, lens and pixels together."""
    return float(np.hypot(taken.blur, 25.4 / taken.dpi / 2))


def _colour(drawing: Image.Image) -> float:
    """Steps of 255 by which the colours of a place lie apart, averaged over the frame: some 7 and
    more with crayons, a tenth with pencil, none in a copy in black and white."""
    small = np.asarray(drawing.resize(SIZE, Image.Resampling.BOX), np.float32)
    return float((small.max(2) - small.min(2)).mean())


def _gist(drawing: Image.Image) -> Floats:
    """(rows, columns, 3): how much darker each place is than what lies some 8 mm about it."""
    small = drawing.resize(SIZE, Image.Resampling.BOX)
    capped = small.point([round(max(255 - DARKEST, value)) for value in range(256)] * 3)
    fine = np.asarray(capped.filter(ImageFilter.GaussianBlur(0.7)), np.float32)
    about = np.asarray(capped.filter(ImageFilter.GaussianBlur(5)), np.float32)
    return np.asarray(about - fine)
