"""Where a sheet lies in a picture: points on paper and in the picture in, a ``Warp`` out.

A homography (pinhole camera, flat paper) after a bend on the sheet's own plane. The bend is a
polynomial of the terms x^i y^j with min(i, j) <= 1. Marks round the frame fix exactly those terms,
and what a lens's barrel and a curl of the paper do to the inside, they do by those terms (a
transfinite blend of four edges, after Coons 1967, has the same ones).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image

Floats = NDArray[np.floating[Any]]
Picture = NDArray[np.uint8]

MOST_OUT = 0.04
"""Millimetres by which the mesh that flattens may be out between its points, where it is
bilinear: as much as one of 10 mm is at 35 degrees."""

TRIAL = 20.0
LEAST_STEP, MOST_STEP = 4.0, 60.0
"""Millimetres between the points of a mesh: of the one that is tried, and at all."""

HOLD, ROUNDS = 0.05, 8
"""How firmly each higher term of a bend is held back, and how often its weights are settled."""

FINEST = 0.15
"""Millimetres: marks are not told apart from wrong ones below this."""


@dataclass(frozen=True)
class Warp:
    """Sheet to picture. ``homography`` (3, 3) takes millimetres to pixels; ``bend`` (terms, 2)
    holds millimetres by which the sheet's points move first; ``size`` is the paper's."""

    homography: Floats
    bend: Floats
    degree: int
    size: tuple[float, float]

    def to_picture(self, points: Floats) -> Floats:
        """(n, 2) millimetres on the sheet to (n, 2) pixels."""
        return project(self.homography, self.bent(points))

    def bent(self, points: Floats) -> Floats:
        return points + terms(points, self.size, self.degree) @ self.bend

    def scale_at(self, points: Floats) -> Floats:
        """(n,) pixels a millimetre, in the direction where they are fewest."""
        right, down = np.array([1.0, 0.0]), np.array([0.0, 1.0])
        x = (self.to_picture(points + right) - self.to_picture(points - right)) / 2
        y = (self.to_picture(points + down) - self.to_picture(points - down)) / 2
        square = (x**2).sum(1) + (y**2).sum(1)
        area = x[:, 0] * y[:, 1] - x[:, 1] * y[:, 0]
        longest = (square + np.sqrt(np.maximum(square**2 - 4 * area**2, 0))) / 2
        return np.asarray(np.abs(area) / np.sqrt(longest))


def fit_homography(sheet: Floats, picture: Floats) -> Floats:
    """(3, 3), least squares over (n, 2) pairs, n >= 4. Normalised direct linear transform
    (Hartley and Zisserman, Multiple View Geometry, 2nd ed., algorithm 4.2)."""
    to_unit, from_unit = _unit(sheet), _unit(picture)
    a, b = project(to_unit, sheet), project(from_unit, picture)
    one, nought = np.ones(len(a)), np.zeros((len(a), 3))
    ahead = np.column_stack([a, one])
    rows = np.concatenate(
        [
            np.hstack([ahead, nought, -b[:, :1] * ahead]),
            np.hstack([nought, ahead, -b[:, 1:] * ahead]),
        ]
    )
    solved = np.linalg.svd(rows)[2][-1].reshape(3, 3)
    found = np.linalg.inv(from_unit) @ solved @ to_unit
    return np.asarray(found / found[2, 2])


def project(homography: Floats, points: Floats) -> Floats:
    """(n, 2) points through a (3, 3) homography."""
    seen = np.column_stack([points, np.ones(len(points))]) @ homography.T
    return np.asarray(seen[:, :2] / seen[:, 2:])


def flat_warp(homography: Floats, size: tuple[float, float]) -> Warp:
    """A warp without any bend."""
    return Warp(homography, np.zeros((len(_powers(0)), 2)), 0, size)


def fit_bend(
    homography: Floats,
    size: tuple[float, float],
    sheet: Floats,
    picture: Floats,
    weight: Floats,
    degree: int,
) -> Warp:
    """The warp through (n, 2) pairs, each with a weight; robust against some wrong pairs.

    Iterated least squares with Tukey's weights (Beaton and Tukey 1974); higher terms are held
    back a little, so that a gap in the marks does not let them swing.
    """
    wanted = project(np.linalg.inv(homography), picture) - sheet
    matrix = terms(sheet, size, degree)
    hold = np.array([HOLD * max(0, i + j - 1) for i, j in _powers(degree)])
    trust = weight.copy()
    for _ in range(ROUNDS):
        rows = np.concatenate([matrix * trust[:, None], np.diag(hold)])
        goal = np.concatenate([wanted * trust[:, None], np.zeros((len(hold), 2))])
        bend = np.linalg.lstsq(rows, goal, rcond=None)[0]
        miss = np.hypot(*(wanted - matrix @ bend).T)
        limit = max(4.7 * 1.48 * float(np.median(miss)), FINEST)
        trust = weight * np.clip(1 - (miss / limit) ** 2, 0, None)
    return Warp(homography, bend, degree, size)


def terms(points: Floats, size: tuple[float, float], degree: int) -> Floats:
    """(n, k) values of the bend's terms at (n, 2) millimetres; the sheet runs from -1 to 1."""
    x, y = (2 * points / size - 1).T
    along, down = [np.ones_like(x)], [np.ones_like(y)]
    for _ in range(degree):  # multiplied up: raising to a power takes far longer
        along.append(along[-1] * x)
        down.append(down[-1] * y)
    return np.stack([along[i] * down[j] for i, j in _powers(degree)], axis=1)


def flatten(
    picture: Image.Image,
    warp: Warp,
    box: tuple[float, float, float, float],
    scale: float,
    most_out: float = MOST_OUT,
) -> Picture:
    """What ``box`` (x, y, width, height in millimetres) of the sheet shows, at ``scale`` pixels a
    millimetre: (round(height * scale), round(width * scale)[, 3]). Outside the picture is 0. No
    place is farther than ``most_out`` millimetres from where ``warp`` has it."""
    x0, y0, width, height = box
    columns, rows = round(width * scale), round(height * scale)
    step = mesh_step(warp, box, most_out)
    xs = np.linspace(0, columns, max(2, round(width / step)) + 1).round().astype(int)
    ys = np.linspace(0, rows, max(2, round(height / step)) + 1).round().astype(int)
    grid = np.stack(np.meshgrid(xs / scale + x0, ys / scale + y0), -1)
    found = warp.to_picture(grid.reshape(-1, 2)).reshape(len(ys), len(xs), 2).tolist()
    across, down = xs.tolist(), ys.tolist()
    mesh = [
        (
            (across[i], down[j], across[i + 1], down[j + 1]),
            (*found[j][i], *found[j + 1][i], *found[j + 1][i + 1], *found[j][i + 1]),
        )
        for j in range(len(down) - 1)
        for i in range(len(across) - 1)
    ]
    flat = picture.transform((columns, rows), Image.Transform.MESH, mesh, Image.Resampling.BILINEAR)
    return np.asarray(flat)


def mesh_step(warp: Warp, box: tuple[float, float, float, float], most_out: float) -> float:
    """How many millimetres wide the pieces of a mesh over ``box`` may be. In its middle a piece is
    farthest from the warp, by the square of its width."""
    x0, y0, width, height = box
    starts = np.meshgrid(np.arange(0, width, TRIAL) + x0, np.arange(0, height, TRIAL) + y0)
    at = np.stack(starts, -1).reshape(-1, 1, 2)
    square = TRIAL * np.array([(0, 0), (0, 1), (1, 1), (1, 0), (0.5, 0.5)])
    seen = warp.to_picture((at + square).reshape(-1, 2)).reshape(-1, 5, 2)
    out = np.hypot(*(seen[:, 4] - seen[:, :4].mean(1)).T) / warp.scale_at(at[:, 0] + TRIAL / 2)
    step = TRIAL * np.sqrt(most_out / np.maximum(out.max(), 1e-9))
    return float(np.clip(step, LEAST_STEP, MOST_STEP))


def _powers(degree: int) -> list[tuple[int, int]]:
    return [
        (i, total - i)
        for total in range(degree + 1)
        for i in range(total, -1, -1)
        if min(i, total - i) <= 1
    ]


def _unit(points: Floats) -> Floats:
    """The similarity that brings points about the origin, about 1 away."""
    middle = points.mean(0)
    far = float(np.hypot(*(points - middle).T).mean()) or 1.0
    return np.array([[1 / far, 0, -middle[0] / far], [0, 1 / far, -middle[1] / far], [0, 0, 1]])
