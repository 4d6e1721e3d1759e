"""The light on a sheet: the sheet flattened small in, the paper's own brightness everywhere out.

Paper is found block by block: even, of the colour that the bare rim of the sheet has, and not far
darker than it. A shadow passes that test, crayon and pencil do not; behind them the light is filled
in from the paper about them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from bookmaker.model import Box
from bookmaker.scanning.sheet_plan import SheetPlan
from bookmaker.scanning.warp import Floats, Picture, Warp, flatten

SCALE = 2.0
"""Pixels a millimetre of the small flat sheet."""

BLOCK = 5
"""Its pixels along a block's side: 2.5 mm."""

RIM = 8.0
"""Millimetres along the paper's edge that nothing is printed on."""


@dataclass(frozen=True)
class Light:
    """``paper`` (rows, columns, 3): what white paper has in the picture, 0 to 255, by blocks of
    ``pitch`` millimetres from the sheet's top left; ``noise`` is the standard deviation of bare
    paper as a part of its light."""

    paper: Floats
    pitch: float
    noise: float

    def gain(self, box: Box, size: tuple[int, int]) -> Iterator[tuple[slice, Floats]]:
        """By what each channel over ``box``, (width, height) in pixels, is multiplied to make paper
        255: bands of rows that lie between the same blocks, (rows, width, 3) each."""
        columns, right = self._between(box.x, box.width, size[0], self.paper.shape[1])
        rows, down = self._between(box.y, box.height, size[1], self.paper.shape[0])
        small = 255 / np.maximum(self.paper[rows[0] : rows[-1] + 2], 8)
        right = right.repeat(3, 1)
        wide = small.take(columns, 1) * (1 - right)
        wide += small.take(columns + 1, 1) * right
        rise = np.diff(wide, axis=0)
        starts = np.flatnonzero(np.diff(rows, prepend=-1)).tolist()
        for start, stop in pairwise((*starts, size[1])):
            above = rows[start] - rows[0]
            gain = down[start:stop, None] * rise[above]
            gain += wide[above]
            yield slice(start, stop), gain

    def _between(
        self, start: float, length: float, pixels: int, blocks: int
    ) -> tuple[NDArray[np.intp], Floats]:
        """For each pixel along a line, after which block's middle it lies, (n,), and how far, 0 to
        1, (n, 1)."""
        step = length / pixels
        at = (start + (np.arange(pixels) + 0.5) * step) / self.pitch - 0.5
        at = at.clip(0, blocks - 1)
        before = np.minimum(at.astype(np.intp), blocks - 2)
        return before, (at - before).astype(np.float32)[:, None]


def find_light(picture: Image.Image, warp: Warp, plan: SheetPlan, frame: Picture) -> Light:
    """The light on the whole sheet in an RGB ``picture``, whose ``frame`` is flattened already, at
    any scale."""
    blocks = _blocks(_small(picture, warp, plan, frame))
    level = blocks.mean((0, 1))
    grey = (blocks[..., 0] + blocks[..., 1] + blocks[..., 2]) / 3
    spread = _unevenness(grey) / np.maximum(grey.mean((0, 1)), 8)
    rim = _rim(plan, level.shape[:2])
    inside = level.min(2) > 12
    noise = float(np.median(spread[rim & inside])) if (rim & inside).any() else 0.05
    paper = _paper(level, spread, rim & inside, noise) & inside
    brightest = blocks.max(0).mean(0) * (1 - 1.2 * noise)  # of five: 1.16 deviations up
    return Light(_raised(_fill(level, paper), level, paper, brightest), BLOCK / SCALE, noise)


def _small(picture: Image.Image, warp: Warp, plan: SheetPlan, frame: Picture) -> Picture:
    """The whole sheet at SCALE pixels a millimetre: what lies about the frame is flattened, of the
    frame every so many pixels are taken."""
    wide, high = round(plan.width * SCALE), round(plan.height * SCALE)
    box = plan.frame
    left, top = math.ceil(box.x * SCALE), math.ceil(box.y * SCALE)
    right, bottom = math.floor(box.right * SCALE), math.floor(box.bottom * SCALE)
    small = np.empty((high, wide, 3), np.uint8)
    for x0, y0, x1, y1 in (
        (0, 0, wide, top),
        (0, top, left, bottom),
        (right, top, wide, bottom),
        (0, bottom, wide, high),
    ):
        area = (x0 / SCALE, y0 / SCALE, (x1 - x0) / SCALE, (y1 - y0) / SCALE)
        small[y0:y1, x0:x1] = flatten(picture, warp, area, SCALE, most_out=0.3)
    rows = ((np.arange(top, bottom) + 0.5) / SCALE - box.y) * (len(frame) / box.height)
    columns = ((np.arange(left, right) + 0.5) / SCALE - box.x) * (frame.shape[1] / box.width)
    small[top:bottom, left:right] = frame[rows.astype(int)].take(columns.astype(int), 1)
    return small


def _blocks(flat: Picture) -> Floats:
    """(BLOCK, BLOCK, rows, columns, 3): each pixel of all blocks, then the next, which is the order
    in which they are quickly added up."""
    rows, columns = (-(-side // BLOCK) for side in flat.shape[:2])
    tall, wide = rows * BLOCK - flat.shape[0], columns * BLOCK - flat.shape[1]
    flat = np.pad(flat, ((0, tall), (0, wide), (0, 0)), mode="edge")
    cut = flat.reshape(rows, BLOCK, columns, BLOCK, 3).transpose(1, 3, 0, 2, 4)
    return np.ascontiguousarray(cut, np.float32)


def _unevenness(grey: Floats) -> Floats:
    """Standard deviation in each block after a slope has been taken out: (rows, columns)."""
    along = np.arange(BLOCK, dtype=np.float32) - (BLOCK - 1) / 2
    rest = grey - grey.mean((0, 1))
    down = np.tensordot(along, rest.mean(1), 1)
    across = np.tensordot(along, rest.mean(0), 1)
    slope = (down**2 + across**2) / float((along**2).sum() * BLOCK)
    return np.asarray(np.sqrt(np.maximum((rest**2).mean((0, 1)) - slope, 0)))


def _rim(plan: SheetPlan, shape: tuple[int, int]) -> NDArray[np.bool_]:
    rows, columns = np.indices(shape) * (BLOCK / SCALE)
    end = BLOCK / SCALE
    far = np.minimum(
        np.minimum(rows, columns),
        np.minimum(plan.height - rows - end, plan.width - columns - end),
    )
    return np.asarray((far >= 1.0) & (far + end <= RIM))


def _paper(
    level: Floats, spread: Floats, rim: NDArray[np.bool_], noise: float
) -> NDArray[np.bool_]:
    """Which blocks are bare paper."""
    colour = level / np.maximum(level.sum(2, keepdims=True), 1)
    even = spread < 1.6 * noise + 0.004
    sure = rim & even
    if not sure.any():
        sure = rim if rim.any() else np.ones_like(rim)
    bare = np.median(colour[sure], axis=0)
    brightest = float(np.percentile(level[sure].mean(1), 95))
    tinted = np.abs(colour - bare).max(2)
    return np.asarray(even & (tinted < 0.006) & (level.mean(2) > 0.3 * brightest))


def _fill(level: Floats, paper: NDArray[np.bool_]) -> Floats:
    """``level`` where there is paper; elsewhere drawn in from the paper about, finest first."""
    if not paper.any():
        return np.broadcast_to(level.reshape(-1, 3).max(0), level.shape).astype(np.float32)
    weight = paper.astype(np.float32)
    total = level * weight[..., None]
    filled = _pull(total, weight)
    near = weight[..., None]
    return np.asarray(level * near + filled * (1 - near), np.float32)


def _raised(filled: Floats, level: Floats, paper: NDArray[np.bool_], brightest: Floats) -> Floats:
    """``filled``, but nowhere darker than what was seen: no crayon makes paper brighter, and most
    leave one channel nearly alone. What is raised so counts as paper when the rest is drawn in."""
    above = (brightest / np.maximum(filled, 8)).max(2)
    known = ~paper & (above > 1.015) & (above < 2.5)
    return _fill(np.where(known[..., None], filled * above[..., None], level), paper | known)


def _pull(total: Floats, weight: Floats) -> Floats:
    """Weighted averages over ever larger neighbourhoods, until there is some paper in each."""
    if min(weight.shape) < 2:
        mean = total.sum((0, 1)) / max(float(weight.sum()), 1e-6)
        return np.broadcast_to(mean, total.shape).astype(np.float32)
    wide = _pull(_quarter(total), _quarter(weight))
    for _ in range(2):  # rows, columns
        wide = _twice(wide).swapaxes(0, 1)
    wide = wide[: weight.shape[0], : weight.shape[1]]
    here = np.minimum(weight, 1.0)[..., None]
    own = total / np.maximum(weight, 1e-6)[..., None]
    return np.asarray(own * here + wide * (1 - here), np.float32)


def _quarter(field: Floats) -> Floats:
    """Sums over squares of two by two (the last row or column alone where it is odd)."""
    tall, wide = field.shape[0] % 2, field.shape[1] % 2
    pad = ((0, tall), (0, wide)) + ((0, 0),) * (field.ndim - 2)
    even = np.pad(field, pad)
    return even[::2, ::2] + even[1::2, ::2] + even[::2, 1::2] + even[1::2, 1::2]


def _twice(field: Floats) -> Floats:
    """Twice as many rows, straight between the middles of those there are."""
    half = np.concatenate([field[:1], field, field[-1:]]) * np.float32(0.25)
    own = 3 * half[1:-1]
    return np.stack([half[:-2] + own, own + half[2:]], 1).reshape(-1, *field.shape[1:])
