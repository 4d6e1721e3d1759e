"""The frame as it was photographed in, the drawing alone on white out.

Light is divided out; the pale ink is dropped; what is left of bare paper goes to white by how dark
its surroundings are, so that a faint stroke keeps its edges.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bookmaker.model import Box
from bookmaker.scanning.drop import drop_pale
from bookmaker.scanning.light import Light
from bookmaker.scanning.pale import PaleMarks
from bookmaker.scanning.warp import Picture

FRAME_INSIDE = 0.45
"""Millimetres from the frame's edge to where its own line surely ends, but for its blur."""

BAND = 64
"""Rows that are worked on at once: they stay in the processor's own memory."""


@dataclass(frozen=True)
class Lens:
    """What a picture does to fine things: ``scale`` of the flat frame in pixels a millimetre,
    ``blur`` in millimetres, ``noise`` of bare paper as a part of its light."""

    scale: float
    blur: float
    noise: float


def even_out(flat: Picture, light: Light, box: Box) -> Picture:
    """(height, width, 3) of ``box``, with the paper's light divided out: paper is 255."""
    even = np.empty_like(flat)
    for rows, gain in light.gain(box, (flat.shape[1], flat.shape[0])):
        gain *= flat[rows]
        even[rows] = np.minimum(gain, 255, out=gain)
    return even


def clean(even: Picture, marks: PaleMarks, lens: Lens) -> Picture:
    """The drawing alone: pale marks dropped, the frame's line too, paper white."""
    inside = _without_frame(even, lens)
    return whiten(drop_pale(inside, marks, lens.scale, lens.blur, lens.noise), lens)


def whiten(even: Picture, lens: Lens) -> Picture:
    """Paper to 255. A pixel stays as it is where it or its neighbours are darker than noise."""
    near = _averaged(darkest(even), max(1, round(0.17 * lens.scale)))
    kept, white = _kept(lens.noise), np.empty_like(even)
    for top in range(0, len(even), BAND):
        band = even[top : top + BAND]
        part, ink = kept.take(near[top : top + BAND]), np.empty(band.shape, np.uint16)
        for channel in range(3):
            ink[..., channel] = part
        ink *= ~band  # 255 less each byte
        ink >>= 8
        np.invert(ink.astype(np.uint8), out=white[top : top + BAND])
    return white


def _kept(noise: float) -> NDArray[np.uint16]:
    """(256,): of how light a pixel's neighbourhood is, how much of its ink stays, 0 to 256."""
    light = 255 * min(0.06, max(0.012, 0.75 * noise))
    dark = 2.2 * light
    part = ((255 - np.arange(256) - light) / (dark - light)).clip(0, 1)
    return np.asarray((256 * part * part * (3 - 2 * part)).round(), np.uint16)


def darkest(pixels: Picture) -> Picture:
    """(height, width): the darkest channel of each pixel."""
    least = np.empty(pixels.shape[:2], np.uint8)
    for top in range(0, len(pixels), BAND):
        band, done = pixels[top : top + BAND], least[top : top + BAND]
        np.minimum(band[..., 0], band[..., 1], out=done)
        np.minimum(done, band[..., 2], out=done)
    return least


def _averaged(plane: Picture, reach: int) -> Picture:
    """(height, width): the average of all within ``reach`` rows and columns of each pixel."""
    side, (height, width) = 2 * reach + 1, plane.shape
    padded = np.pad(plane, reach, mode="edge")
    averaged = np.empty_like(plane)
    for top in range(0, height, BAND):
        tall = min(BAND, height - top)
        rows = padded[top : top + tall + 2 * reach].astype(np.uint16)
        high, total = rows[:tall].copy(), np.zeros((tall, width), np.uint16)
        for step in range(1, side):
            high += rows[step : step + tall]
        for step in range(side):
            total += high[:, step : step + width]
        averaged[top : top + tall] = total * np.float32(1 / side**2) + np.float32(0.5)
    return averaged


def _without_frame(even: Picture, lens: Lens) -> Picture:
    """The frame's line painted over with what is drawn just inside it."""
    rim = round((FRAME_INSIDE + 2.5 * lens.blur) * lens.scale)
    done = even.copy()
    done[:rim], done[-rim:] = even[rim], even[-rim - 1]
    done[:, :rim] = done[:, rim : rim + 1]
    done[:, -rim:] = done[:, -rim - 1 : -rim]
    return done
