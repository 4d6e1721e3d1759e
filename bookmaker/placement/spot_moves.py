"""Moving spots: the least total squared shift that gives every wanted clearance.

Each clearance is a smooth function of the places that must not be negative. Linearised where the
spots stand, all of them together are a quadratic programme with a unique answer; it is solved
and linearised again until the places rest (sequential quadratic programming). The programme
itself is solved by Hildreth's method: dual coordinate ascent, one multiplier a clearance
(Hildreth 1957, Naval Research Logistics Quarterly 4, 79-85).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from bookmaker.model import Box, Point
from bookmaker.placement.sizes import Sizes

Edge = tuple[int, int]
Rule = Callable[[Sequence[Point]], Iterator["Row"]]
"""Gives, for spots that stand somewhere, the clearances that are short or nearly so."""

ROUNDS = 24
SWEEPS = 250
PATIENCE = 6
"""After how many programmes without an answer the places are taken as they are."""
NEAR = 3.0
"""Millimetres of room beyond which a clearance is not worth a row."""
REST = 1e-3
FIRM = 40.0
"""The most that one clearance may push, mm: contradictions then end in a compromise."""
SLACK = 0.02
"""How much of a clearance may be missing for the places still to count as good, mm."""


@dataclass(frozen=True, slots=True)
class Row:
    """A linearised clearance: the sum of ``pulls`` (spot, x, y) times its shift is >= ``short``.

    ``short`` is in millimetres: how much of the clearance is missing where the spots stand;
    ``spots`` are those that the clearance is about.
    """

    pulls: tuple[tuple[int, float, float], ...]
    short: float
    spots: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Settled:
    """Where the spots came to rest, and the row that is short by most (None: all is well)."""

    places: tuple[Point, ...]
    worst: Row | None


def settle(
    wanted: Sequence[Point],
    rules: Sequence[Rule],
    reach: float,
    bounds: Box,
    start: Sequence[Point] = (),
) -> Settled:
    """Move spots from ``wanted`` as little as ``rules`` need, at most ``reach``, inside ``bounds``.

    All lengths in mm; ``bounds`` is for the spots' middles. What can't be had shows as ``worst``.
    The way there begins at ``start``, at ``wanted`` itself if that is empty.
    """
    # A clearance may be short by the slack, and this one must not be.
    limits = (_within(bounds), _no_farther(wanted, max(reach - 2 * SLACK, 0.0)))
    places = tuple(start or wanted)
    hopeless = 0
    for _ in range(ROUNDS if reach > 0 else 0):
        rows = [row for rule in (*rules, *limits) for row in rule(places)]
        new, solved = _project(wanted, places, rows)
        rested = max(map(math.dist, new, places), default=0.0) < REST
        places = new
        hopeless += not solved
        if rested or hopeless == PATIENCE:
            break
    rows = [row for rule in (*rules, *limits) for row in rule(places)]
    worst = max(rows, key=lambda row: row.short, default=None)
    return Settled(places, worst if worst and worst.short > SLACK else None)


def zigzag(places: Sequence[Point], by: float) -> tuple[Point, ...]:
    """Each of the places shifted by ``by``, to one side and the other in turn, across their length.

    Places on one line only ever push each other along it: to leave it, they must begin beside it.
    """
    count = len(places)
    mx, my = sum(x for x, _ in places) / count, sum(y for _, y in places) / count
    wide = sum((x - mx) ** 2 - (y - my) ** 2 for x, y in places)
    slant = sum((x - mx) * (y - my) for x, y in places)
    turn = math.atan2(2 * slant, wide) / 2
    ux, uy = math.cos(turn), math.sin(turn)
    order = sorted(range(count), key=lambda k: (places[k][0] * ux + places[k][1] * uy, k))
    side = {k: by if i % 2 else -by for i, k in enumerate(order)}
    return tuple((x - uy * side[k], y + ux * side[k]) for k, (x, y) in enumerate(places))


def gaps(sizes: Sizes) -> Rule:
    """Every two spots keep their gap."""
    need = sizes.spot + sizes.spot_gap

    def rule(places: Sequence[Point]) -> Iterator[Row]:
        for a in range(len(places)):
            for b in range(a + 1, len(places)):
                far = math.dist(places[a], places[b])
                if far < need + NEAR:
                    ux, uy = _toward(places[a], places[b])
                    yield Row(((b, ux, uy), (a, -ux, -uy)), need - far, (a, b))

    return rule


def lengths(edges: Iterable[tuple[Edge, float]], sizes: Sizes) -> Rule:
    """Linked spots are far enough apart for a straight link with its tag.

    Each edge comes with a limit of its own in mm, beyond which it need not be pushed.
    """
    known = tuple(edges)

    def rule(places: Sequence[Point]) -> Iterator[Row]:
        for (a, b), most in known:
            far = math.dist(places[a], places[b])
            ux, uy = _toward(places[a], places[b])
            turn = math.atan2(uy, ux)
            need = straight_length(turn, sizes)
            if far > min(need, most) + NEAR:
                continue
            step = 1e-4
            slope = (straight_length(turn + step, sizes) - need) / step / max(far, 1.0)
            if need > most:
                need, slope = most, 0.0
            px, py = ux + slope * uy, uy - slope * ux
            yield Row(((b, px, py), (a, -px, -py)), need - far, (a, b))

    return rule


def straight_length(turn: float, sizes: Sizes) -> float:
    """How far apart linked spots stand at least, mm, for a straight link with its tag midway.

    ``turn`` is the link's direction in radians.
    """
    c, s = abs(math.cos(turn)), abs(math.sin(turn))
    wide, high = sizes.tag_width / 2, sizes.tag_height / 2
    covered = min(wide / max(c, 1e-9), high / max(s, 1e-9))
    shown = sizes.radius + sizes.visible + covered
    round_corner = sizes.radius + sizes.tag_gap
    if s * (wide + round_corner) <= c * high:
        clear = (wide + round_corner) / c
    elif c * (high + round_corner) <= s * wide:
        clear = (high + round_corner) / s
    else:
        along = wide * c + high * s
        clear = along + math.sqrt(max(along**2 - wide**2 - high**2 + round_corner**2, 0.0))
    return 2 * max(shown, clear)


def _within(bounds: Box) -> Rule:
    def rule(places: Sequence[Point]) -> Iterator[Row]:
        for k, (x, y) in enumerate(places):
            for px, py, short in (
                (1.0, 0.0, bounds.x - x),
                (-1.0, 0.0, x - bounds.right),
                (0.0, 1.0, bounds.y - y),
                (0.0, -1.0, y - bounds.bottom),
            ):
                if short > -NEAR:
                    yield Row(((k, px, py),), short, (k,))

    return rule


def _no_farther(wanted: Sequence[Point], reach: float) -> Rule:
    def rule(places: Sequence[Point]) -> Iterator[Row]:
        for k, (at, home) in enumerate(zip(places, wanted, strict=True)):
            far = math.dist(at, home)
            if far > reach / 2:
                ux, uy = _toward(at, home)
                yield Row(((k, ux, uy),), far - reach, (k,))

    return rule


def _project(
    wanted: Sequence[Point], places: Sequence[Point], rows: Sequence[Row]
) -> tuple[tuple[Point, ...], bool]:
    """The places nearest to ``wanted`` at which every row, linearised at ``places``, holds.

    And whether they do: rows that contradict each other end in a compromise.
    """
    x = [at[0] for at in wanted]
    y = [at[1] for at in wanted]
    # Rows speak of shifts from ``places``; here they are told of the places themselves.
    floors = [
        row.short + sum(px * places[k][0] + py * places[k][1] for k, px, py in row.pulls)
        for row in rows
    ]
    weights = [sum(px * px + py * py for _, px, py in row.pulls) or 1.0 for row in rows]
    forces = [0.0] * len(rows)
    changed = math.inf
    for _ in range(SWEEPS):
        changed = 0.0
        for i, row in enumerate(rows):
            short = floors[i] - sum(px * x[k] + py * y[k] for k, px, py in row.pulls)
            force = min(max(0.0, forces[i] + short / weights[i]), FIRM)
            step = force - forces[i]
            if step:
                forces[i] = force
                changed = max(changed, abs(step))
                for k, px, py in row.pulls:
                    x[k] += step * px
                    y[k] += step * py
        if changed < REST / 10:
            break
    return tuple(zip(x, y, strict=True)), changed < REST and max(forces, default=0.0) < FIRM


def _toward(a: Point, b: Point) -> Point:
    far = math.dist(a, b)
    # Spots on one point part sideways: any fixed direction will do.
    return ((b[0] - a[0]) / far, (b[1] - a[1]) / far) if far > 1e-9 else (1.0, 0.0)
