"""Small papers that come again and again: leaves, slits, feathers, stones, reeds, ripples."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from art.kit.curves import Curve, Knot, along, closed, ellipse, line, ribbon, step


def slit(at: Knot, size: float, angle: float = 0, fat: float = 0.3) -> Curve:
    """A lens, pointed at both ends, centred on ``at``: the set's own mark."""
    tip, end = step(at, angle, size / 2), step(at, angle + 180, size / 2)
    up, down = step(at, angle - 90, size * fat / 2), step(at, angle + 90, size * fat / 2)
    return closed((*tip, 0), down, (*end, 0), up)


def drop(at: Knot, size: float, angle: float = 0, fat: float = 0.5) -> Curve:
    """A drop: round at ``at``, its point ``size`` away in the direction of ``angle``."""
    half = size * fat / 2
    back = step(at, angle + 180, half * 0.9)
    shoulder = step(at, angle, size * 0.25)
    return closed(
        (*step(at, angle, size), 0),
        step(shoulder, angle + 90, half * 0.8),
        step(at, angle + 90, half),
        back,
        step(at, angle - 90, half),
        step(shoulder, angle - 90, half * 0.8),
    )


def crescent(at: Knot, radius: float, angle: float = 0, fat: float = 0.3) -> Curve:
    """A sickle bulging towards ``angle``; ``fat`` is its thickness in radii."""
    one, two = step(at, angle - 75, radius), step(at, angle + 75, radius)
    outer = [step(at, angle + a, radius) for a in (-38, 0, 38)]
    inner = [
        step(at, angle + a, radius * (1 - fat * c)) for a, c in ((34, 0.8), (0, 1), (-34, 0.8))
    ]
    return closed((*one, 0), *outer, (*two, 0), *inner)


def feather(root: Knot, size: float, angle: float, fat: float = 0.34, tip: float = 0.8) -> Curve:
    """A feather from ``root``, broadest at ``tip`` of its length, blunt at its end."""
    half = size * fat / 2
    knots = [(0.0, 0.35), (0.35, 0.8), (tip, 1.0), (0.94, 0.62)]
    left = [step(step(root, angle, size * a), angle - 90, half * w) for a, w in knots]
    right = [step(step(root, angle, size * a), angle + 90, half * w) for a, w in knots]
    return closed(*left, step(root, angle, size), *reversed(right))


def scale(at: Knot, size: float, angle: float, fat: float = 0.9) -> Curve:
    """A fish's scale or a small feather: half round, its bulge towards ``angle``."""
    half = size * fat / 2
    back = step(at, angle + 180, size * 0.45)
    one, two = step(back, angle - 90, half * 0.75), step(back, angle + 90, half * 0.75)
    return closed(
        (*one, 0),
        step(at, angle - 90, half),
        step(at, angle, size * 0.55),
        step(at, angle + 90, half),
        (*two, 0),
    )


def leaf(root: Knot, size: float, angle: float, fat: float = 0.32, bend: float = 0.0) -> Curve:
    """A pointed leaf or blade from ``root``, bent sideways by ``bend`` of its length."""
    half = size * fat / 2
    middle = step(step(root, angle, size * 0.45), angle + 90, -bend * size)
    return closed(
        (*root, 0),
        step(middle, angle - 90, half),
        (*step(root, angle, size), 0),
        step(middle, angle + 90, half),
    )


def frond(spine: Sequence[Knot], size: float, pairs: int, fat: float = 0.34) -> list[Curve]:
    """A fern: a stalk and ``pairs`` of leaflets, smaller towards the tip."""
    places = along(line(*spine), pairs + 2)[1:]
    pieces = [ribbon(spine, [size * 0.05, size * 0.035, 0])]
    for i, (point, angle) in enumerate(places):
        reach = size * (1 - 0.78 * i / pairs) * (0.72 if i == 0 else 1)
        pieces += [leaf(point, reach, angle + side * 62, fat, side * 0.08) for side in (-1, 1)]
    return pieces


def stone(centre: Knot, rx: float, ry: float, rng: Random, angle: float = 0) -> Curve:
    """A water-worn stone: an ellipse that is not quite one."""
    rim = ellipse(centre, rx, ry).polygon
    count = 8
    knots = []
    for i in range(count):
        x, y = rim[int(len(rim) * i / count)]
        k = 1 + rng.uniform(-0.09, 0.09)
        knots.append((centre[0] + (x - centre[0]) * k, centre[1] + (y - centre[1]) * k))
    return closed(*knots).turned(angle, centre)


def ring(centre: Knot, radius: float, fat: float = 0.3) -> list[Curve]:
    """A disc with a hole: to be glued as one piece, for the hole is a disc cut the other way."""
    return [ellipse(centre, radius), ellipse(centre, radius * (1 - fat)).flipped(centre[0])]


def bubble(centre: Knot, radius: float) -> list[Curve]:
    """A ring and its glint."""
    return [*ring(centre, radius, 0.22), slit(step(centre, -50, radius * 0.45), radius * 0.5, 40)]


def ripple(spine: Sequence[Knot], fat: float) -> Curve:
    """A strip of moving water, pointed at both ends."""
    return ribbon(spine, [0, fat, fat * 0.8, fat, 0])


def wave(at: Knot, reach: float, angle: float = 0, fat: float = 0.1) -> Curve:
    """A small plain ripple centred on ``at``, ``reach`` long to either side: six knots alone."""
    rear, tip = step(at, angle + 180, reach), step(at, angle, reach)
    up = step(step(at, angle + 180, reach / 3), angle - 90, reach / 7)
    down = step(step(at, angle, reach / 3), angle + 90, reach / 7)
    half = reach * fat
    over = [step(point, angle - 90, half) for point in (up, down)]
    under = [step(point, angle + 90, half) for point in (down, up)]
    return closed((*rear, 0), *over, (*tip, 0), *under)


def ripples(centre: Knot, width: float, count: int, rng: Random, fat: float = 5) -> list[Curve]:
    """Level lens-like strips under one another, shorter outwards."""
    pieces = []
    for i in range(count):
        half = width / 2 * (1 - 0.55 * abs(i - (count - 1) / 2) / count) * rng.uniform(0.75, 1)
        x, y = (
            centre[0] + rng.uniform(-0.12, 0.12) * width,
            centre[1] + (i - (count - 1) / 2) * 4.4 * fat,
        )
        knots: list[Knot] = [
            (x - half, y),
            (x - half / 3, y - fat),
            (x + half / 3, y + fat),
            (x + half, y),
        ]
        pieces.append(ripple(knots, fat))
    return pieces


def reed(root: Knot, tip: Knot, width: float, sway: float = 0.0) -> Curve:
    """A reed or grass blade from ``root`` to ``tip``, swayed sideways by ``sway`` units."""
    middle = ((root[0] + tip[0]) / 2 + sway, (root[1] + tip[1]) / 2)
    return ribbon([root, middle, tip], [width * 0.8, width, width * 0.7, 0])


def grain(width: float, height: float, count: int, rng: Random) -> list[Curve]:
    """Fibres of the paper: short bent hairs all over the sheet."""
    pieces = []
    for _ in range(count):
        at = (rng.uniform(0, width), rng.uniform(0, height))
        pieces.append(slit(at, rng.uniform(9, 26), rng.uniform(0, 180), rng.uniform(0.1, 0.18)))
    return pieces
