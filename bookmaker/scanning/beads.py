"""The beads round the frame: a rough warp in, their true places in the picture out.

Each bead's surroundings are flattened, so that it is a disc of known size near a known place; it
is found by how much darker it is than the paper about it, and placed by its centre of darkness.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from bookmaker.scanning.sheet_plan import BEAD_RADIUS, SheetPlan
from bookmaker.scanning.warp import Floats, Warp

Wholes = NDArray[np.integer[Any]]

CLEAREST = 0.35
"""How much darker than the paper about it a bead must be, as a part of the paper's light."""

COARSE, FINE = 3.0, 8.0
"""Pixels a millimetre at which a bead is looked for, and at most placed."""

RING = 1.9
"""The paper about a bead reaches to this many of its radii."""

PROFILE_STEP, PROFILE = 0.1, 20
"""Millimetres and number of the steps in which a bead's edge is followed out to the paper."""


@dataclass(frozen=True)
class Beads:
    """Those seen: (n, 2) ``sheet`` in millimetres and ``picture`` in pixels; ``seen`` (of all) says
    which. ``patches`` (n, s, s) are what lies about them at ``scale`` pixels a millimetre, and
    ``middles`` (n, 2) where in those they are."""

    sheet: Floats
    picture: Floats
    seen: tuple[bool, ...]
    patches: Floats
    middles: Floats
    scale: float

    @cached_property
    def blur(self) -> float:
        """Standard deviation in millimetres of what blurs their edges."""
        return _blur(self.patches, self.middles, self.scale) if len(self.sheet) else 9.9


def find_beads(grey: Image.Image, warp: Warp, plan: SheetPlan, reach: float) -> Beads:
    """Look within ``reach`` millimetres of where ``warp`` expects each bead."""
    places = np.array([(bead.x, bead.y) for bead in plan.beads])
    native = float(np.median(warp.scale_at(places)))
    scale = COARSE if reach > 2 else float(np.clip(native, COARSE, FINE))
    half = reach + RING * BEAD_RADIUS
    corners = _corners(warp, places, half)
    patches = _patches(grey, corners, round(2 * half * scale))
    middles, clear = _discs(patches, scale)
    seen = clear > CLEAREST
    picture = _between(corners[seen], middles[seen] / patches.shape[1])
    shown = tuple(map(bool, seen))
    return Beads(places[seen], picture, shown, patches[seen], middles[seen], scale)


def _corners(warp: Warp, places: Floats, half: float) -> Floats:
    """(n, 4, 2) pixels: where the squares of 2 * ``half`` millimetres about ``places`` have their
    top left, bottom left, bottom right and top right."""
    square = half * np.array([(-1, -1), (-1, 1), (1, 1), (1, -1)])
    return warp.to_picture((places[:, None, :] + square).reshape(-1, 2)).reshape(-1, 4, 2)


def _patches(grey: Image.Image, corners: Floats, side: int) -> Floats:
    """(n, ``side``, ``side``): what lies between each four corners, bilinear."""
    quads = corners.reshape(-1, 8).tolist()
    mesh = [((0, n * side, side, (n + 1) * side), tuple(quad)) for n, quad in enumerate(quads)]
    size = (side, side * len(corners))
    strip = grey.transform(size, Image.Transform.MESH, mesh, Image.Resampling.BILINEAR)
    return np.asarray(strip, np.float32).reshape(len(corners), side, side)


def _between(corners: Floats, parts: Floats) -> Floats:
    """(n, 2) pixels: the places ``parts`` (n, 2), 0 to 1 along and down, of the way between each
    four ``corners``, as a patch was made of them."""
    along, down = parts[:, :1], parts[:, 1:]
    left = corners[:, 0] * (1 - down) + corners[:, 1] * down
    right = corners[:, 3] * (1 - down) + corners[:, 2] * down
    return np.asarray(left * (1 - along) + right * along)


def _discs(patches: Floats, scale: float) -> tuple[Floats, Floats]:
    """The discs' middles in each patch, (n, 2) as x, y in pixels, and how clear each is, (n,)."""
    radius = BEAD_RADIUS * scale
    inner, gap, outer = (max(1, round(part * radius)) for part in (0.7, 1.25, RING))
    reach = outer
    sums = _sums(patches)
    dark = _square(sums, inner, reach) / (2 * inner + 1) ** 2
    ring = _square(sums, outer, reach) - _square(sums, gap, reach)
    light = ring / ((2 * outer + 1) ** 2 - (2 * gap + 1) ** 2)
    clear = (light - dark) / np.maximum(light, 8.0)
    flat = clear.reshape(len(clear), -1)
    best = flat.argmax(1)
    rows, columns = np.unravel_index(best, clear.shape[1:])
    rows, columns = rows + reach, columns + reach
    lit = light.reshape(len(clear), -1)[np.arange(len(clear)), best]
    return _weigh(patches, rows, columns, lit, radius), flat.max(1)


def _sums(patches: Floats) -> Floats:
    """Running sums over both sides, with a first row and column of noughts: (n, s + 1, s + 1)."""
    running = np.cumsum(np.cumsum(patches, 1), 2)  # whole numbers, which single floats hold exactly
    return np.pad(running, ((0, 0), (1, 0), (1, 0)))


def _square(sums: Floats, half: int, reach: int) -> Floats:
    """Sums over squares of 2 * ``half`` + 1 pixels about every pixel ``reach`` from the edges."""
    side = sums.shape[1] - 1 - 2 * reach
    low, high = reach - half, reach + half + 1
    a, b = slice(low, low + side), slice(high, high + side)
    return sums[:, b, b] - sums[:, a, b] - sums[:, b, a] + sums[:, a, a]


def _weigh(patches: Floats, rows: Wholes, columns: Wholes, light: Floats, radius: float) -> Floats:
    """Centres of darkness near the given pixels: (n, 2) as x, y in pixels from the patch's edge."""
    along = np.arange(patches.shape[1], dtype=np.float32)
    dx = along[None, None, :] - columns[:, None, None].astype(np.float32)
    dy = along[None, :, None] - rows[:, None, None].astype(np.float32)
    near = dx**2 + dy**2 <= (1.6 * radius) ** 2
    dark = np.clip(0.92 * light[:, None, None] - patches, 0, None) * near
    total = np.maximum(dark.sum((1, 2)), 1e-6)
    x = columns + (dark * dx).sum((1, 2)) / total
    y = rows + (dark * dy).sum((1, 2)) / total
    return np.stack([x, y], 1) + 0.5


def _blur(patches: Floats, middles: Floats, scale: float) -> float:
    """Standard deviation, in millimetres, of the slope by which the beads' edges rise to paper."""
    along = np.arange(patches.shape[1], dtype=np.float32) + np.float32(0.5)
    middles = middles.astype(np.float32)
    x = along[None, None, :] - middles[:, 0, None, None]
    y = along[None, :, None] - middles[:, 1, None, None]
    far = np.sqrt(x * x + y * y) / np.float32(scale)
    steps = np.clip((far - 0.3) / PROFILE_STEP, 0, PROFILE).astype(np.intp)
    count = np.bincount(steps.ravel(), minlength=PROFILE + 1)[:PROFILE]
    total = np.bincount(steps.ravel(), patches.ravel(), PROFILE + 1)[:PROFILE]
    profile = total / np.maximum(count, 1)
    low, high = profile[:2].mean(), profile[-3:].mean()
    rise = np.diff(profile) / max(1.0, high - low)
    rise = np.clip(rise, 0, None)
    at = 0.3 + PROFILE_STEP * (np.arange(PROFILE - 1) + 1)
    middle = (rise * at).sum() / max(rise.sum(), 1e-6)
    return float(np.sqrt((rise * (at - middle) ** 2).sum() / max(rise.sum(), 1e-6)))
