"""Smooth curves through points: what every paper's edge is made of.

A point is ``(x, y)``, or ``(x, y, 0)`` where the scissors turn a sharp corner. Coordinates are
picture units, y down; angles are degrees, clockwise as seen, 0 pointing right.
"""

from __future__ import annotations

import itertools
from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property, reduce
from math import atan2, ceil, cos, degrees, hypot, radians, sin
from operator import add

Point = tuple[float, float]
Knot = tuple[float, ...]
Segment = tuple[Point, Point, Point, Point]
BAND = 24
"""Height of the bands in which a shape's edges are looked up, in units."""


@dataclass(frozen=True)
class Curve:
    """A run of cubic Bezier segments, closed into a shape or open."""

    segments: tuple[Segment, ...]
    is_closed: bool = True

    @cached_property
    def d(self) -> str:
        """The SVG path, in relative steps of a tenth of a unit that do not drift."""
        at = _tenths(self.segments[0][0])
        parts = [f"M{_numbers(at)}"]
        for start, one, two, end in self.segments:
            corner = _tenths(end)
            if one == start and two == end:
                parts.append(f"l{_numbers(_minus(corner, at))}")
            else:
                handles = (_minus(_tenths(p), at) for p in (one, two, end))
                parts.append(f"c{_numbers(*handles)}")
            at = corner
        return "".join(parts) + ("z" if self.is_closed else "")

    @cached_property
    def polygon(self) -> tuple[Point, ...]:
        """The curve as points some eight units apart."""
        points = [self.segments[0][0]]
        for segment in self.segments:
            steps = max(1, ceil(_length(segment) / 8))
            points += [_bezier(segment, i / steps) for i in range(1, steps + 1)]
        return tuple(points)

    @cached_property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom."""
        xs, ys = zip(*self.polygon, strict=True)
        return min(xs), min(ys), max(xs), max(ys)

    def contains(self, point: Point) -> bool:
        """Whether a closed curve has ``point`` inside (even-odd rule)."""
        x, y = point
        left, top, right, bottom = self.box
        if not (left <= x <= right and top <= y <= bottom):
            return False
        inside = False
        for ax, ay, bx, by in self._edges[int(y // BAND)]:
            if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
                inside = not inside
        return inside

    @cached_property
    def _edges(self) -> dict[int, list[tuple[float, float, float, float]]]:
        """The polygon's edges by the bands of height that they touch."""
        bands: dict[int, list[tuple[float, float, float, float]]] = defaultdict(list)
        run = self.polygon
        for (ax, ay), (bx, by) in zip(run, (*run[1:], run[0]), strict=True):
            for band in range(int(min(ay, by) // BAND), int(max(ay, by) // BAND) + 1):
                bands[band].append((ax, ay, bx, by))
        return bands

    def holds(self, other: Curve) -> bool:
        """Whether all of ``other`` lies inside this closed curve."""
        return all(self.contains(point) for point in other.polygon)

    def moved(self, dx: float, dy: float) -> Curve:
        return self._mapped(lambda p: (p[0] + dx, p[1] + dy))

    def turned(self, angle: float, about: Knot = (0, 0)) -> Curve:
        c, s = cos(radians(angle)), sin(radians(angle))
        ox, oy = about[:2]
        return self._mapped(
            lambda p: (
                ox + (p[0] - ox) * c - (p[1] - oy) * s,
                oy + (p[0] - ox) * s + (p[1] - oy) * c,
            )
        )

    def scaled(self, sx: float, sy: float | None = None, about: Knot = (0, 0)) -> Curve:
        tall = sx if sy is None else sy
        ox, oy = about[:2]
        return self._mapped(lambda p: (ox + (p[0] - ox) * sx, oy + (p[1] - oy) * tall))

    def flipped(self, axis: float) -> Curve:
        """Mirrored left to right about the upright line ``x = axis``."""
        return self._mapped(lambda p: (2 * axis - p[0], p[1]))

    def _mapped(self, move: Callable[[Point], Point]) -> Curve:
        moved = ((move(a), move(b), move(c), move(d)) for a, b, c, d in self.segments)
        return Curve(tuple(moved), self.is_closed)


def knots(text: str) -> list[Knot]:
    """Rows of numbers written short: ``"12,40 45,35! 88,52"``; ``!`` makes a sharp corner."""
    return [tuple(map(_value, word.replace("!", ",0").split(","))) for word in text.split()]


def closed(*through: Knot) -> Curve:
    """A closed shape through the knots (centripetal Catmull-Rom, Yuksel et al. 2011)."""
    return Curve(_through(through, loop=True))


def line(*through: Knot) -> Curve:
    """An open curve through the knots."""
    return Curve(_through(through, loop=False), is_closed=False)


def polygon(*points: Point) -> Curve:
    """A shape with straight sides."""
    return closed(*((x, y, 0) for x, y in points))


def ellipse(centre: Knot, rx: float, ry: float | None = None, angle: float = 0) -> Curve:
    """An ellipse of four segments; a disc without ``ry``."""
    cx, cy = centre[:2]
    tall = rx if ry is None else ry
    kx, ky = 0.5523 * rx, 0.5523 * tall
    e, s, w, n = (cx + rx, cy), (cx, cy + tall), (cx - rx, cy), (cx, cy - tall)
    shape = Curve(
        (
            (e, (cx + rx, cy + ky), (cx + kx, cy + tall), s),
            (s, (cx - kx, cy + tall), (cx - rx, cy + ky), w),
            (w, (cx - rx, cy - ky), (cx - kx, cy - tall), n),
            (n, (cx + kx, cy - tall), (cx + rx, cy - ky), e),
        )
    )
    return shape.turned(angle, (cx, cy)) if angle else shape


def ribbon(spine: Sequence[Knot], widths: Sequence[float], steps: int = 0) -> Curve:
    """A strip along ``spine``; ``widths`` are half widths, spread evenly from start to end.

    An end of width 0 is a point; any other end is rounded.
    """
    count = steps or 2 * max(len(spine), len(widths)) + 3
    middle = along(line(*spine), count)
    halves = [_spread(widths, i / (count - 1)) for i in range(count)]
    left: list[Knot] = [step(p, a - 90, w) for (p, a), w in zip(middle, halves, strict=True)]
    right = [step(p, a + 90, w) for (p, a), w in zip(middle, halves, strict=True)]
    (first, first_angle), (last, last_angle) = middle[0], middle[-1]
    nose = [step(last, last_angle, 0.8 * halves[-1])] if halves[-1] else []
    tail = [step(first, first_angle + 180, 0.8 * halves[0])] if halves[0] else []
    if not halves[-1]:
        left[-1:] = [(*last, 0)]
        right.pop()
    if not halves[0]:
        left[:1] = [(*first, 0)]
        right.pop(0)
    return closed(*left, *nose, *reversed(right), *tail)


def along(curve: Curve, count: int) -> list[tuple[Point, float]]:
    """``count`` places evenly spaced along a curve, ends included, with the way it runs there."""
    run = curve.polygon
    reach = [0.0]
    for a, b in itertools.pairwise(run):
        reach.append(reach[-1] + hypot(b[0] - a[0], b[1] - a[1]))
    places, at = [], 0
    for i in range(count):
        target = reach[-1] * i / max(1, count - 1)
        while at < len(run) - 2 and reach[at + 1] < target:
            at += 1
        a, b = run[at], run[at + 1]
        part = (target - reach[at]) / ((reach[at + 1] - reach[at]) or 1)
        point = (a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part)
        before, after = run[max(0, at - 2)], run[min(len(run) - 1, at + 3)]
        places.append((point, heading(before, after)))
    return places


def bent(shape: Curve, spine: Curve) -> Curve:
    """``shape``, drawn straight along the x axis, laid along ``spine``.

    Its x is the way from the start of the spine, its y the way to the right of it: a fish is drawn
    lying still and then swims.
    """
    count = 160
    places = along(spine, count)
    pitch = length(spine) / (count - 1)

    def move(point: Point) -> Point:
        place = min(max(point[0] / pitch, 0), count - 1.001)
        i = int(place)
        (a, angle), (b, after) = places[i], places[i + 1]
        angle += ((after - angle + 180) % 360 - 180) * (place - i)
        rest = point[0] - place * pitch
        return step(step(_between(a, b, place - i), angle, rest), angle + 90, point[1])

    fine = tuple(part for segment in shape.segments for part in _split(segment, 60))
    return Curve(fine, shape.is_closed)._mapped(move)


def length(curve: Curve) -> float:
    """Length of a curve, in units."""
    run = curve.polygon
    return added(hypot(b[0] - a[0], b[1] - a[1]) for a, b in itertools.pairwise(run))


def added(values: Iterable[float]) -> float:
    """The values added up from left to right, rounded at each step. ``sum`` carries what rounding
    loses from Python 3.12 on and not before, and a last digit here can turn a scissors' cut."""
    return reduce(add, values, 0.0)


def step(point: Knot, angle: float, distance: float) -> Point:
    """The point ``distance`` away from ``point`` in the direction of ``angle``."""
    return (point[0] + cos(radians(angle)) * distance, point[1] + sin(radians(angle)) * distance)


def heading(start: Knot, end: Knot) -> float:
    """The direction from one point to another."""
    return degrees(atan2(end[1] - start[1], end[0] - start[0]))


def paths(shapes: Iterable[Curve]) -> str:
    """Many shapes as one SVG path."""
    return "".join(shape.d for shape in shapes)


def _value(word: str) -> float:
    return float(word) if "." in word else int(word)


def _through(knots: Sequence[Knot], loop: bool) -> tuple[Segment, ...]:
    count = len(knots)
    points = [(float(k[0]), float(k[1])) for k in knots]
    sharp = [len(k) > 2 for k in knots]
    if not loop:
        sharp[0] = sharp[-1] = True
    segments = []
    for i in range(count if loop else count - 1):
        j = (i + 1) % count
        p1, p2 = points[i], points[j]
        one = None if sharp[i] else _control(points[i - 1], p1, p2)
        two = None if sharp[j] else _control(points[(j + 1) % count], p2, p1)
        if one is None and two is None:
            one, two = p1, p2
        elif one is None:
            one = _between(p1, two, 0.5)  # type: ignore[arg-type]
        elif two is None:
            two = _between(p2, one, 0.5)
        segments.append((p1, one, two, p2))
    return tuple(segments)  # type: ignore[arg-type]


def _control(before: Point, at: Point, after: Point) -> Point:
    """The handle of ``at`` towards ``after``."""
    a = max(1e-3, hypot(at[0] - before[0], at[1] - before[1]) ** 0.5)
    b = max(1e-3, hypot(after[0] - at[0], after[1] - at[1]) ** 0.5)
    weight = 2 * a * a + 3 * a * b + b * b
    return (
        (a * a * after[0] - b * b * before[0] + weight * at[0]) / (3 * a * (a + b)),
        (a * a * after[1] - b * b * before[1] + weight * at[1]) / (3 * a * (a + b)),
    )


def _between(a: Point, b: Point, part: float) -> Point:
    return (a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part)


def _bezier(segment: Segment, t: float) -> Point:
    u = 1 - t
    weights = (u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t)
    return (
        added(w * p[0] for w, p in zip(weights, segment, strict=True)),
        added(w * p[1] for w, p in zip(weights, segment, strict=True)),
    )


def _split(segment: Segment, reach: float) -> list[Segment]:
    """The segment as pieces no longer than ``reach`` (de Casteljau)."""
    start, one, two, end = segment
    if one == start and two == end:
        one, two = _between(start, end, 1 / 3), _between(start, end, 2 / 3)
    parts, pieces = max(1, ceil(_length(segment) / reach)), []
    for left in range(parts, 0, -1):
        t = 1 / left
        a, b, c = _between(start, one, t), _between(one, two, t), _between(two, end, t)
        d, e = _between(a, b, t), _between(b, c, t)
        f = _between(d, e, t)
        pieces.append((start, a, d, f))
        start, one, two = f, e, c
    return pieces


def _length(segment: Segment) -> float:
    pairs = itertools.pairwise(segment)
    return added(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairs)


def _spread(values: Sequence[float], part: float) -> float:
    """A smooth curve through evenly spaced values (Catmull-Rom), never below nought."""
    place = part * (len(values) - 1)
    i = min(int(place), len(values) - 2)
    t = place - i
    p0, p1, p2, p3 = (values[min(max(k, 0), len(values) - 1)] for k in range(i - 1, i + 3))
    bend = (2 * p0 - 5 * p1 + 4 * p2 - p3) * t * t + (3 * p1 - p0 - 3 * p2 + p3) * t * t * t
    return max(0.0, p1 + 0.5 * ((p2 - p0) * t + bend))


def _tenths(point: Point) -> tuple[int, int]:
    return round(point[0] * 10), round(point[1] * 10)


def _minus(a: tuple[int, int], b: tuple[int, int]) -> tuple[int, int]:
    return a[0] - b[0], a[1] - b[1]


def _numbers(*points: tuple[int, int]) -> str:
    words = (f"{value / 10:.1f}".removesuffix(".0") for point in points for value in point)
    return " ".join(words).replace(" -", "-")
