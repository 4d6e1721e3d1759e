"""The worked example's creature: a snail of cut papers, in millimetres, drawn for this book.

It is made as the demo's pictures are (``art/README.md``): a few quiet papers that lie on each
other's shadows, and one small cut, a slit, in rows that follow the body.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from typing import Final

from bookmaker.model import Box, Item, Outline, Point

WIDTH, HEIGHT = 160.0, 104.0
BOUNDS: Final = Box(0.0, 0.0, WIDTH, HEIGHT)

SPOTS: Final[Mapping[str, Point]] = {
    "left": (17.0, 16.0),
    "right": (66.0, 14.0),
    "head": (38.0, 62.0),
    "shell": (98.0, 48.0),
    "tail": (144.0, 87.0),
}
"""Where the example's spots may be: both horns, the head, the shell, the tail."""

Run = tuple[Point, ...]

_BODY: Final = (
    *((153, 98), (120, 98), (60, 98), (27, 97), (15, 87), (14, 70), (21, 55), (35, 47)),
    *((50, 48), (61, 53), (74, 62), (92, 72), (118, 78), (140, 87)),
)
_SOLE: Final = (
    *((154, 99.5), (150, 96.5), (120, 95), (60, 95), (32, 94), (17, 90), (20, 98), (34, 101)),
    *((90, 101), (130, 102)),
)
_GROUND: Final = (
    *((3, 102), (20, 98), (48, 99), (84, 97), (118, 99), (142, 98), (157, 102)),
    *((140, 103.6), (80, 103.8), (20, 103.6)),
)
_FEELERS: Final = (((17, 76), (9, 80), (6, 87)), ((23, 80), (18, 87), (17, 93)))
_NECK: Final = (
    *((24, 62, 62), (28, 74, 70), (23, 84, 60), (36, 83, 40), (49, 62, 62), (55, 75, 48)),
    *((48, 86, 20), (64, 87, 22), (110, 89, -4), (124, 90, 4), (94, 90, 6), (79, 89, 14)),
)
"""Slits of the skin: their middles, and their slopes in degrees."""
_GRASS: Final = tuple((x, 101.3, 60 + 22 * (i % 3)) for i, x in enumerate(range(15, 150, 9)))
_SHELL: Final = (98.0, 48.0)
_SHELL_RADIUS = 38.0
_TURNS = 2.3
_SHADOW: Final = (1.3, 1.9)
"""How far a shadow falls: the light comes from the upper left."""


def snail() -> tuple[Item, ...]:
    """The snail with its top left at the origin, its lowest paper first."""
    horns = [_horn(SPOTS["left"], (30.0, 56.0), 3.0), _horn(SPOTS["right"], (47.0, 56.0), -3.0)]
    skin = [*horns, *(_taper(_smooth(feeler, False), 3.6, 1.8) for feeler in _FEELERS)]
    body, shell = _smooth(_BODY), _round(_SHELL, _SHELL_RADIUS)
    slits = (_slit((x, y), 5.0, 1.5, slope) for x, y, slope in _NECK)
    blades = (_slit((x, y), 4.4, 1.3, slope) for x, y, slope in _GRASS)
    return (
        _paper("ground", [_smooth(_GROUND)]),
        _paper("blades", blades),
        _paper("shadow", _shaded([*skin, body])),
        _paper("sole", [_smooth(_SOLE)]),
        _paper("body", [*skin, body]),
        _paper("slits", slits),
        _paper("shade", _shaded([shell])),
        _paper("shell", [shell]),
        _paper("whorl", [_band(-1.0, 0.0, 0.34)]),
        _paper("seam", [_band(0.0, -0.045, 0.045)]),
        _paper("cuts", _cuts()),
    )


def _paper(role: str, runs: Iterable[Run]) -> Outline:
    """Runs that all go round the same way: where two overlap, there is no hole."""
    return Outline(
        tuple(run if _area(run) > 0 else run[::-1] for run in runs),
        f"snail-{role}",
    )


def _area(run: Run) -> float:
    """The area in ``run``, negative if it goes round the other way."""
    beside = (*run[1:], run[0])
    return sum(x * v - u * y for (x, y), (u, v) in zip(run, beside, strict=True)) / 2


def _shaded(runs: Iterable[Run]) -> Iterable[Run]:
    dx, dy = _SHADOW
    return (tuple((x + dx, y + dy) for x, y in run) for run in runs)


def _horn(tip: Point, base: Point, bend: float) -> Run:
    middle = ((base[0] + tip[0]) / 2 + bend, (base[1] + tip[1]) / 2)
    return _taper(_smooth((base, middle, tip), False), 7.0, 3.4)


def _taper(line: Run, first: float, last: float) -> Run:
    """A strip along ``line``, ``first`` wide where it begins and ``last`` where it ends."""
    left: list[Point] = []
    right: list[Point] = []
    for i, (x, y) in enumerate(line):
        (x0, y0), (x1, y1) = line[max(i - 1, 0)], line[min(i + 1, len(line) - 1)]
        half = (first + (last - first) * i / (len(line) - 1)) / 2 / math.hypot(x1 - x0, y1 - y0)
        across = ((y0 - y1) * half, (x1 - x0) * half)
        left.append((x + across[0], y + across[1]))
        right.append((x - across[0], y - across[1]))
    return (*left, *reversed(right))


def _slit(middle: Point, length: float, wide: float, slope: float) -> Run:
    """A lens with two sharp ends."""
    cos, sin = math.cos(math.radians(slope)), math.sin(math.radians(slope))
    edge = [(i / 4 - 1, 1 - (i / 4 - 1) ** 2) for i in range(9)]
    lens = (*edge, *((u, -v) for u, v in reversed(edge[1:-1])))
    x, y = middle
    return tuple(
        (
            x + u * length / 2 * cos - v * wide / 2 * sin,
            y + u * length / 2 * sin + v * wide / 2 * cos,
        )
        for u, v in lens
    )


def _round(centre: Point, radius: float) -> Run:
    angles = (2 * math.pi * i / 60 for i in range(60))
    return tuple(
        (centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles
    )


def _on_shell(turn: float, across: float) -> Point:
    """A place on the whorl after so many turns; ``across`` it, 0 is outside and 1 inside.

    The whorl begins with nothing at the mouth, at turn -1, and is inside of itself from 0 on.
    """
    radius = _radius(turn) + (_radius(turn + 1) - _radius(turn)) * across
    angle = 0.65 * math.pi + 2 * math.pi * turn
    return _SHELL[0] + radius * math.cos(angle), _SHELL[1] + radius * math.sin(angle)


def _radius(turn: float) -> float:
    left = 1 - min(max(turn / _TURNS, 0.0), 1.0)
    return _SHELL_RADIUS * math.pow(left, 0.85)


def _band(first: float, outer: float, inner: float) -> Run:
    """A paper that winds inwards along the whorl from turn ``first`` on."""
    turns = [first + (_TURNS - first) * i / 140 for i in range(141)]
    rim = [_on_shell(turn, outer) for turn in turns]
    return (*rim, *(_on_shell(turn, inner) for turn in reversed(turns)))


def _cuts() -> Iterable[Run]:
    """Slits across the whorl, closer and shorter towards its middle."""
    turn = -0.62
    while turn < _TURNS - 0.55:
        middle, beside = _on_shell(turn, 0.6), _on_shell(turn + 0.03, 0.8)
        slope = math.degrees(math.atan2(beside[1] - middle[1], beside[0] - middle[0]))
        length = (_radius(turn) - _radius(turn + 1)) * 0.42
        yield _slit(middle, length, length * 0.26, slope)
        turn += 1.8 / max(_radius(turn), 9.0)


def _smooth(points: tuple[Point, ...], closed: bool = True) -> Run:
    """A curve through ``points`` (Catmull and Rom 1974), eight steps from each to the next."""
    count = len(points)
    curve: list[Point] = []
    for i in range(count if closed else count - 1):
        around = [
            points[(i + k) % count] if closed else points[min(max(i + k, 0), count - 1)]
            for k in (-1, 0, 1, 2)
        ]
        curve += [_between(around, step / 8) for step in range(8)]
    return tuple(curve) if closed else (*curve, points[-1])


def _between(around: list[Point], t: float) -> Point:
    weights = (
        -0.5 * t**3 + t**2 - 0.5 * t,
        1.5 * t**3 - 2.5 * t**2 + 1,
        -1.5 * t**3 + 2 * t**2 + 0.5 * t,
        0.5 * t**3 - 0.5 * t**2,
    )
    x = sum(weight * point[0] for weight, point in zip(weights, around, strict=True))
    y = sum(weight * point[1] for weight, point in zip(weights, around, strict=True))
    return x, y
