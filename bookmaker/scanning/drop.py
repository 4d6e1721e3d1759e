"""The pale ink dropped out: a frame in even light in, the same without spots, links and tags out.

Where they were printed is known, so the ink is divided out there (a stroke drawn over it stays as
it was) and what is left of its blurred edges is cleared.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from bookmaker.model import Box, Point
from bookmaker.scanning.pale import PaleMarks
from bookmaker.scanning.sheet_plan import PALE_INK, PALE_STROKE, TAG_CORNER
from bookmaker.scanning.warp import Floats, Picture

Region = tuple[slice, slice]
Places = tuple[NDArray[np.intp], NDArray[np.intp]]

REACH = PALE_STROKE / 2 + 0.55
"""Millimetres from the middle of a pale line to where its blurred edge ends."""

STEPS = 256
"""How finely the way there is looked at."""

ENOUGH = 10_000
"""Colours that tell their middle well enough."""

MOST_SHADE = 0.4
"""A printer or copier that makes the pale ink darker than this is not to be reckoned with."""

DOTS = 0.18
"""Millimetres about a pixel over which the dots that printers make a pale ink of even out."""


def drop_pale(even: Picture, marks: PaleMarks, scale: float, blur: float, noise: float) -> Picture:
    """(height, width, 3) without the pale ink. ``scale`` in pixels a millimetre, ``blur`` in
    millimetres, ``noise`` of bare paper as a part of its light."""
    shape, reach = (even.shape[0], even.shape[1]), max(1, round(scale * DOTS))
    rows, columns, cover = pale_cover(marks, shape, scale, blur)
    if not len(rows):
        return even
    places = rows * even.shape[1] + columns
    seen: Floats = even.reshape(-1, 3).take(places, 0) / np.float32(255)
    core = cover[:, 0] > 0.85 * cover.max()
    paper = seen[cover[:, 0] <= np.percentile(cover, 12)]
    shade = pale_shade(seen[core], cover[core], paper)
    averaged = _about(even, rows[core], columns[core], reach)
    smooth = pale_shade(averaged, cover[core], paper)
    if smooth.sum() > 1.3 * shade.sum():  # dots: most pixels are lighter than their average
        seen, shade = _about(even, rows, columns, reach), smooth
        cover = pale_cover(marks, shape, scale, math.hypot(blur, 0.6 * DOTS))[2]
    drawn = seen / (1 - cover * shade)
    done = even.copy()
    done.reshape(-1, 3)[places] = _bytes(drawn)
    stays = _stays(1 - _about(done, rows, columns, reach), shade, max(0.008, 0.7 * noise))
    done.reshape(-1, 3)[places] = _bytes(1 - (1 - drawn) * stays)
    return done


def pale_cover(
    marks: PaleMarks, shape: tuple[int, int], scale: float, blur: float
) -> tuple[NDArray[np.intp], NDArray[np.intp], Floats]:
    """Pixels on and about pale lines: rows (n,), columns (n,), how much of each is ink (n, 1)."""
    cover = np.zeros(shape, np.float32)
    about = np.zeros(shape, bool)
    ink_at = _profile(math.hypot(blur, 0.29 / scale))  # a pixel's own width blurs, too
    for place, signed in _distances(marks, shape, scale):
        step = np.minimum(np.abs(signed) * (STEPS / REACH), STEPS).astype(np.intp)
        ink = ink_at[step]
        cover[place] = np.where(signed < 0, ink, np.maximum(cover[place], ink))
        about[place] |= step < STEPS
    places = np.flatnonzero(about)
    rows, columns = np.divmod(places, shape[1])
    return rows, columns, cover.reshape(-1)[places, None]


def _profile(sigma: float) -> Floats:
    """How much is ink at STEPS distances from the middle of a line blurred by ``sigma``
    millimetres, up to REACH; nothing at the last."""
    half, root = PALE_STROKE / 2, sigma * math.sqrt(2)
    steps = [(step + 0.5) * REACH / STEPS for step in range(STEPS)]
    ink = [(math.erf((half - d) / root) + math.erf((half + d) / root)) / 2 for d in steps]
    return np.array([*ink, 0], np.float32)


def pale_shade(seen: Floats, cover: Floats, paper: Floats) -> Floats:
    """How much light the pale ink takes in this picture: (3,).

    ``seen`` (n, 3) is the middle of its lines, ``cover`` (n, 1) how much of that is ink, ``paper``
    (m, 3) what lies beside them. Of both the lightest third counts, which fewest drew over; where
    there is too little the ink is taken as it was meant.
    """
    meant = 1 - np.array(PALE_INK, np.float32) / 255
    if min(len(seen), len(paper)) < 100:
        return meant
    shades = (1 - seen / np.maximum(_lightest(paper), 0.05)) / cover
    shade = 1 - _lightest(1 - shades)
    if shade.max() > MOST_SHADE:
        return meant
    return np.asarray(np.clip(shade, 0.01, 1), np.float32)


def _lightest(colours: Floats) -> Floats:
    """The middle of the lightest third of (n, 3) colours; of many a part is looked at."""
    colours = colours[:: 1 + len(colours) // ENOUGH]
    total = colours @ np.ones(3, np.float32)
    return np.asarray(np.median(colours[total >= np.percentile(total, 65)], axis=0))


def _about(
    pixels: Picture, rows: NDArray[np.intp], columns: NDArray[np.intp], reach: int
) -> Floats:
    """Averages, 0 to 1, of all within ``reach`` rows and columns of the given pixels: (n, 3)."""
    height, width = pixels.shape[:2]
    flat = pixels.reshape(-1, 3)
    total = np.zeros((len(rows), 3), np.uint16)
    steps = range(-reach, reach + 1)
    for down in steps:
        start = (rows + down).clip(0, height - 1) * width
        for across in steps:
            total += np.take(flat, start + (columns + across).clip(0, width - 1), axis=0)
    return np.asarray(total / np.float32(255 * len(steps) ** 2))


def _stays(left: Floats, shade: Floats, tell: float) -> Floats:
    """(n, 1), 0 to 1: is what is ``left`` a drawing? It is where it is of another colour than the
    ink, or much of its colour."""
    along = left @ shade / float(shade @ shade)
    across = np.abs(left - along[:, None] * shade).T
    across = np.maximum(np.maximum(across[0], across[1]), across[2])
    stays = _smooth(across / tell - 1) + _smooth(np.abs(along) / 0.3 - 1)
    return np.asarray(np.minimum(stays, 1)[:, None])


def _distances(
    marks: PaleMarks, shape: tuple[int, int], scale: float
) -> Iterator[tuple[Region | Places, Floats]]:
    """For each mark, in the order in which they are drawn, pixels of the frame, and there the
    millimetres to the middle of its line: less than 0 inside a tag or spot, which are filled with
    paper and hide what was drawn before them."""
    for link in marks.links:
        yield _along(_run(link.curve), shape, scale)
    for tag in marks.tags:
        box = tag.box
        region, x, y = _region(box, shape, scale)
        dx = np.abs(x - box.x - box.width / 2) - box.width / 2 + TAG_CORNER
        dy = np.abs(y - box.y - box.height / 2) - box.height / 2 + TAG_CORNER
        outside = np.hypot(np.maximum(dx, 0), np.maximum(dy, 0))
        yield region, outside + np.minimum(np.maximum(dx, dy), 0) - TAG_CORNER
    for spot in marks.spots:
        side = 2 * spot.radius
        area = Box(spot.x - spot.radius, spot.y - spot.radius, side, side)
        region, x, y = _region(area, shape, scale)
        yield region, np.hypot(x - spot.x, y - spot.y) - spot.radius


def _region(area: Box, shape: tuple[int, int], scale: float) -> tuple[Region, Floats, Floats]:
    """The pixels about ``area``, and their places in millimetres: x (1, w) and y (h, 1)."""
    top, bottom = (area.y - REACH) * scale, (area.bottom + REACH) * scale
    left, right = (area.x - REACH) * scale, (area.right + REACH) * scale
    rows = slice(max(0, int(top)), min(shape[0], max(0, int(bottom) + 2)))
    columns = slice(max(0, int(left)), min(shape[1], max(0, int(right) + 2)))
    y = (np.arange(rows.start, max(rows.start, rows.stop), dtype=np.float32) + 0.5) / scale
    x = (np.arange(columns.start, max(columns.start, columns.stop), dtype=np.float32) + 0.5) / scale
    return (rows, columns), x[None, :], y[:, None]


def _along(points: list[Point], shape: tuple[int, int], scale: float) -> tuple[Places, Floats]:
    """The pixels near a run of straight pieces, and the millimetres from each to it."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    area = Box(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))
    (down, across), x, y = _region(area, shape, scale)
    near = Image.new("L", (x.size, y.size))
    at = [((px - x[0, 0]) * scale, (py - y[0, 0]) * scale) for px, py in points]
    ImageDraw.Draw(near).line(at, 1, round(2 * (REACH + 0.5) * scale), "curve")
    rows, columns = np.divmod(np.flatnonzero(np.asarray(near)), x.size)
    px, py = x[0, columns], y[rows, 0]
    least = np.full(len(rows), 99, np.float32)
    for (ax, ay), (bx, by) in pairwise(points):
        ux, uy = bx - ax, by - ay
        part = ((px - ax) * ux + (py - ay) * uy) / max(ux * ux + uy * uy, 1e-6)
        part = part.clip(0, 1)
        np.minimum(least, np.hypot(px - ax - part * ux, py - ay - part * uy), out=least)
    return (rows + down.start, columns + across.start), least


def _run(curve: tuple[Point, ...]) -> list[Point]:
    """Points along a link: two are a straight line, four a cubic Bezier."""
    if len(curve) == 2:
        return list(curve)
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = curve
    points = []
    for step in range(25):
        t = step / 24
        a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
        points.append((a * ax + b * bx + c * cx + d * dx, a * ay + b * by + c * cy + d * dy))
    return points


def _smooth(part: Floats) -> Floats:
    part = part.clip(0, 1)
    return np.asarray(part * part * (3 - 2 * part))


def _bytes(part: Floats) -> Picture:
    return np.asarray((part * 255 + 0.5).clip(0, 255)).astype(np.uint8)
