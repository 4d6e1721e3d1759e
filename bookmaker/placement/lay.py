"""Laying out a page in standard form: spots first, then ever greater efforts for its links."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from bookmaker.model import Box, Point
from bookmaker.placement import spot_moves as moving
from bookmaker.placement.clearance import Breach, Laid, breaches
from bookmaker.placement.curves import Bends, gentle, straight, ways, wild
from bookmaker.placement.refine import Field, ease, refine
from bookmaker.placement.repair import mend
from bookmaker.placement.search import Search
from bookmaker.placement.sizes import EASE, STROKE, Sizes
from bookmaker.placement.spot_moves import Edge


class Refused(Exception):
    """There is no clean placing, or none was found; ``code`` is a problem's code."""

    def __init__(self, breach: Breach, code: str = "no-clean-layout") -> None:
        self.breach, self.code = breach, code


def lay(wanted: tuple[Point, ...], edges: tuple[Edge, ...], bounds: Box, sizes: Sizes) -> Laid:
    """Gentle curves if they will do, then wilder ones, then spots moved to make room for these."""
    settled = Field(_settle(wanted, edges, bounds, sizes), edges, bounds, sizes)
    if not edges:
        return Laid(np.array(settled.places), (), np.empty((0, 4, 2)), np.empty((0, 2)))
    blame: list[int] = []
    for effort in EFFORTS:
        field = replace(settled, places=_spread_out(wanted, settled)) if effort.moves else settled
        if effort.moves and field == settled:
            continue
        found = _attempt(field, effort)
        if isinstance(found, Laid):
            return found
        blame = found or blame
    raise Refused(_reason(wanted, settled, blame))


@dataclass(frozen=True, slots=True)
class Effort:
    """How much is tried: which bends, how long a search and a mending, how fine at the end.

    ``moves`` has spots moved as far apart as they may be.
    """

    bends: Callable[[], Bends]
    nodes: int
    steps: int
    turns: tuple[float, ...]
    moves: bool = False


_FINELY = (16.0, 8.0, 4.0)
EFFORTS = (
    Effort(straight, 1, 0, ()),
    Effort(gentle, 40, 12, (4.0,)),
    Effort(partial(wild, 40), 0, 15, _FINELY),
    Effort(partial(wild, 1200), 0, 22, _FINELY),
    Effort(partial(wild, 600), 0, 15, _FINELY, moves=True),
)


def _attempt(field: Field, effort: Effort) -> Laid | list[int]:
    """A clean placing, or the links that stood in the way."""
    count = len(field.edges)
    fits = field.fits([effort.bends()] * count)
    found = Search(fits, effort.nodes).run() if effort.nodes else None
    blame: list[int] = []
    if not found and effort.steps:
        found, blame = mend(fits, effort.steps * max(1, count // 6))
    if not found:
        return blame
    bends = fits.ways.bends[ease(fits, ease(fits, found.curves))]
    fits, found = refine(field, bends, effort.turns) or (fits, found)
    curves, tags = list(found.curves), list(found.seats)
    centres = fits.seats.centres[curves, tags]
    laid = Laid(np.array(field.places), field.edges, fits.ways.controls[curves], centres)
    left = breaches(laid, field.bounds, field.sizes)
    return sorted({link for breach in left for link in breach.links}) if left else laid


def _spread_out(wanted: tuple[Point, ...], field: Field) -> tuple[Point, ...]:
    """Spots moved so that there is as much room between them, and along the edges, as can be."""
    sizes = _to_settle(field.sizes)
    inner = _for_middles(field.bounds, sizes)
    roomy = replace(sizes, spot_gap=sizes.spot)
    far_in = inner.grown(-sizes.reach)
    spread = moving.settle(field.places, (moving.gaps(roomy),), sizes.reach, far_in).places
    # Not all of that may be had at once; what every page needs comes before it.
    firm = (moving.gaps(sizes), moving.lengths(_straight_limits(field), sizes))
    places = moving.settle(spread, firm, sizes.reach, inner).places
    return tuple(
        _no_farther(home, place, sizes.reach) for home, place in zip(wanted, places, strict=True)
    )


def _straight_limits(field: Field) -> list[tuple[Edge, float]]:
    return [((a, b), _length(field.places, a, b)) for a, b in field.edges]


def _no_farther(home: Point, place: Point, reach: float) -> Point:
    far = math.dist(home, place)
    share = min(1.0, reach / far) if far else 1.0
    return (home[0] + (place[0] - home[0]) * share, home[1] + (place[1] - home[1]) * share)


def _settle(
    wanted: tuple[Point, ...], edges: tuple[Edge, ...], bounds: Box, sizes: Sizes
) -> tuple[Point, ...]:
    """Spots with their gaps, and with room for tags as far as that can be had."""
    inner = _for_middles(bounds, sizes)
    closest = max(_too_close(wanted, sizes), key=lambda row: row.short, default=None)
    if closest and closest.short > 2 * sizes.reach:
        short = closest.short - 2 * sizes.reach
        raise Refused(Breach("spot-spot", short, closest.spots), "spots-too-close")
    settled = _settled(wanted, edges, inner, sizes)
    if settled.worst is None:
        return settled.places
    beside = moving.zigzag(wanted, sizes.reach / 2)
    again = _settled(wanted, edges, inner, sizes, beside) if sizes.reach else settled
    if again.worst is None:
        return again.places
    raise _unsettled(wanted, settled, inner, sizes)


def _settled(
    wanted: tuple[Point, ...],
    edges: tuple[Edge, ...],
    inner: Box,
    sizes: Sizes,
    start: tuple[Point, ...] = (),
) -> moving.Settled:
    """Where the spots come to rest, the last resort being without room for tags."""
    apart = moving.gaps(_to_settle(sizes))
    limits = {edge: float("inf") for edge in edges}
    for _ in range(3):
        room = moving.lengths(limits.items(), _to_settle(sizes))
        settled = moving.settle(wanted, (apart, room), sizes.reach, inner, start)
        if settled.worst is None:
            return settled
        limits = {(a, b): _length(settled.places, a, b) - 0.3 for a, b in edges}
    return moving.settle(wanted, (apart,), sizes.reach, inner, start)


def _unsettled(
    wanted: tuple[Point, ...], settled: moving.Settled, inner: Box, sizes: Sizes
) -> Refused:
    """A spot that is too near the edge from the start, else the two spots most too close."""
    for k, (x, y) in enumerate(wanted):
        out = math.hypot(
            max(inner.x - x, x - inner.right, 0.0), max(inner.y - y, y - inner.bottom, 0.0)
        )
        if out > sizes.reach + moving.SLACK:
            return Refused(Breach("spot-edge", out - sizes.reach, (k,)))
    left = {row.spots: row.short for row in moving.gaps(sizes)(settled.places)}
    close = _too_close(wanted, sizes)
    worst = max(close, key=lambda row: left.get(row.spots, 0.0), default=settled.worst)
    pair = worst.spots if worst else ()
    # What is missing shows at the two spots, or where they have been pushed to.
    missing = max(left.get(pair, 0.0), settled.worst.short if settled.worst else 0.0)
    return Refused(Breach("spot-spot", missing, pair), "spots-too-close")


def _to_settle(sizes: Sizes) -> Sizes:
    """The sizes by which spots are moved: a straight link between them is clean beyond doubt.

    Where nothing may move, what just keeps its gap is good.
    """
    return sizes.roomier(EASE + moving.SLACK) if sizes.reach else sizes


def _too_close(places: tuple[Point, ...], sizes: Sizes) -> list[moving.Row]:
    """Pairs of spots that stand nearer than their gap."""
    return [row for row in moving.gaps(sizes)(places) if row.short > moving.SLACK]


def _for_middles(bounds: Box, sizes: Sizes) -> Box:
    """Where spots' middles may be, so that their rings' ink is inside the bounds."""
    return bounds.grown(-(sizes.radius + STROKE))


def _length(places: Sequence[Point], a: int, b: int) -> float:
    return math.dist(places[a], places[b])


def _reason(wanted: tuple[Point, ...], field: Field, blame: Sequence[int]) -> Breach:
    """Two spots that had to be pushed apart, if there are any: that is to be mended first.

    Else the worst breach at the links in the way, were all straight with their tags midway.
    """
    close = _too_close(wanted, field.sizes)
    if close:
        closest = max(close, key=lambda row: row.short)
        return Breach("spot-spot", closest.short, closest.spots)
    lines = ways(field.places, field.edges, [straight()] * len(field.edges), field.sizes)
    laid = Laid(np.array(field.places), field.edges, lines.controls, lines.points.mean(axis=1))
    found = breaches(laid, field.bounds, field.sizes)
    here = [breach for breach in found if set(breach.links) & set(blame)]
    unknown = Breach("link-link", 0.0, (), tuple(blame))
    return max(here, key=lambda breach: breach.missing, default=unknown)
