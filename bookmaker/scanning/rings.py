"""Rings that a child drew on a free sheet: the drawing in, where its spots are meant to be out.

A ring is a dark, more or less round line that closes. It is looked for at every place and of every
likely size, then followed once round. A wheel or a big eye may be taken for one, so a teacher looks
at what is found.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageFilter

from bookmaker.scanning.warp import Floats

Waves = NDArray[np.complexfloating[Any, Any]]

SCALE = 2.0
"""Pixels a millimetre at which rings are looked for."""

SIZES = tuple(float(size) for size in np.arange(6.0, 15.0, 0.75))
"""Radii in millimetres; the sheet shows one of 10."""

WIDE = 0.22
"""How far from round a ring may be, as a part of its radius."""

DIRECTIONS = 60
CLOSED = 0.9
"""The part of its way round on which a ring's line must be seen."""


@dataclass(frozen=True)
class Ring:
    """A ring's middle and radius in millimetres from the frame's top left, and the part of its way
    round on which its line was seen."""

    x: float
    y: float
    radius: float
    closed: float


def find_rings(drawing: Image.Image, scale: float, count: int) -> tuple[Ring, ...]:
    """At most ``count`` rings in an RGB ``drawing`` of ``scale`` pixels a millimetre, the clearest
    first. Fewer than ``count`` where no more can be told from the rest of the drawing."""
    lines = _lines(drawing, scale)
    found: list[Ring] = []
    for row, column, radius in _likely(lines, 12 * count + 24):
        ring = _followed(lines, row, column, radius)
        if ring.closed >= CLOSED:
            found.append(ring)
    found.sort(key=lambda ring: -ring.closed)
    kept: list[Ring] = []
    for ring in found:
        if all(np.hypot(ring.x - k.x, ring.y - k.y) > ring.radius + k.radius for k in kept):
            kept.append(ring)
    return tuple(kept[:count])


def _lines(drawing: Image.Image, scale: float) -> Floats:
    """How dark each place is against what lies about it, 0 to 1: lines stay, filled areas go."""
    size = (round(drawing.width * SCALE / scale), round(drawing.height * SCALE / scale))
    small = drawing.convert("L").resize(size, Image.Resampling.BOX)
    about = np.asarray(small.filter(ImageFilter.GaussianBlur(2.5 * SCALE)), np.float32)
    return np.asarray(((about - np.asarray(small, np.float32) - 12) / 60).clip(0, 1))


def _likely(lines: Floats, count: int) -> list[tuple[int, int, float]]:
    """The ``count`` places (row, column) and radii at which most of a circle is dark."""
    margin = round(SIZES[-1] * SCALE)
    padded = np.pad(lines, margin)
    seen = np.fft.rfft2(padded)
    scores = np.stack([_round_sums(seen, padded.shape, radius) for radius in SIZES])
    best, which = scores.max(0), scores.argmax(0)
    places = []
    for _ in range(count):
        row, column = np.unravel_index(int(best.argmax()), best.shape)
        places.append((int(row) - margin, int(column) - margin, SIZES[which[row, column]]))
        near = round(2 * SCALE)
        best[max(0, row - near) : row + near + 1, max(0, column - near) : column + near + 1] = 0
    return places


def _round_sums(seen: Waves, shape: tuple[int, ...], radius: float) -> Floats:
    """The average of a picture (given by its transform) over a soft circle about each place."""
    y, x = (np.minimum(np.arange(n), n - np.arange(n)) / SCALE for n in shape)
    far = np.hypot(y[:, None], x[None, :]) - radius
    circle = np.exp(-((far / (0.08 * radius)) ** 2) / 2)
    return np.asarray(np.fft.irfft2(seen * np.fft.rfft2(circle / circle.sum()), shape))


def _followed(lines: Floats, row: int, column: int, radius: float) -> Ring:
    """The ring about a place: where its line is in each direction, and its middle from that."""
    x, y = (column + 0.5) / SCALE, (row + 0.5) / SCALE
    turn = np.arange(DIRECTIONS) * 2 * np.pi / DIRECTIONS
    closed = 0.0
    for _ in range(3):
        far = radius * np.linspace(1 - WIDE, 1 + WIDE, 25)
        xs = x + far[:, None] * np.cos(turn)
        ys = y + far[:, None] * np.sin(turn)
        columns = (xs * SCALE).astype(int).clip(0, lines.shape[1] - 1)
        rows = (ys * SCALE).astype(int).clip(0, lines.shape[0] - 1)
        dark = lines[rows, columns]
        weight = dark**2 + 1e-6
        at = (weight * far[:, None]).sum(0) / weight.sum(0)
        there = dark.max(0) > 0.3
        steady = np.abs(at - np.roll(at, 1)) < 0.12 * radius
        closed = float((there & steady).mean())
        x += 2 * float((at * np.cos(turn) * there).sum()) / max(1, there.sum())
        y += 2 * float((at * np.sin(turn) * there).sum()) / max(1, there.sum())
        radius = float(np.median(at[there])) if there.any() else radius
    return Ring(round(x, 2), round(y, 2), round(radius, 2), closed)
