"""The worked example's creature: a snail of a few forms, in millimetres, drawn for this book."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from bookmaker.model import Box, Item, Outline, Point

WIDTH, HEIGHT = 160.0, 104.0

SPOTS: Final[Mapping[str, Point]] = {
    "left": (17.0, 16.0),
    "right": (66.0, 14.0),
    "head": (38.0, 62.0),
    "shell": (98.0, 48.0),
    "tail": (144.0, 87.0),
}
"""Where the example's spots may be: both horns, the head, the shell, the tail."""

_BODY: Final = (
    *((157, 101), (120, 102), (60, 102), (28, 101), (18, 88), (19, 66), (28, 49), (42, 46)),
    *((55, 53), (64, 70), (90, 80), (118, 81), (140, 88)),
)
_SHELL: Final = (98.0, 48.0)
_SHELL_RADIUS = 38.0
_TURNS = 2.3


def snail() -> tuple[Item, ...]:
    """The snail with its top left at the origin."""
    horns = tuple(
        ((base, 52.0), ((base + x) / 2 + bend, (52.0 + y) / 2), (x, y))
        for base, bend, (x, y) in ((32.0, 4.0, SPOTS["left"]), (46.0, -4.0, SPOTS["right"]))
    )
    ground = (((2.0, 102.6), (158.0, 102.6)),)
    return (
        Outline(ground, "snail-ground", closed=False),
        Outline(tuple(_smooth(horn, closed=False) for horn in horns), "snail-horn", closed=False),
        Outline((_smooth(_BODY),), "snail-body"),
        Outline((_round(_SHELL, _SHELL_RADIUS),), "snail-shell"),
        Outline((_spiral(),), "snail-line", closed=False),
    )


BOUNDS: Final = Box(0.0, 0.0, WIDTH, HEIGHT)


def _round(centre: Point, radius: float) -> tuple[Point, ...]:
    angles = (2 * math.pi * i / 48 for i in range(48))
    return tuple(
        (centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles
    )


def _spiral() -> tuple[Point, ...]:
    """From the shell's rim inwards."""
    x, y = _SHELL
    steps = 90
    points = []
    for i in range(steps + 1):
        angle = 0.65 * math.pi + 2 * math.pi * _TURNS * i / steps
        radius = _SHELL_RADIUS * (1 - i / steps) ** 0.85
        points.append((x + radius * math.cos(angle), y + radius * math.sin(angle)))
    return tuple(points)


def _smooth(points: tuple[Point, ...], closed: bool = True) -> tuple[Point, ...]:
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
