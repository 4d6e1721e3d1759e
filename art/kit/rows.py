"""Rows of scales, feathers and other small papers, laid along a body and kept inside it."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence

from art.kit.curves import Curve, Point, along, length, step

Maker = Callable[[Point, float, int, int], Curve]
"""Makes one small paper: where, which way the row runs there, number of the row and in the row."""


def row(curve: Curve, spacing: float, make: Maker, number: int = 0) -> list[Curve]:
    """Small papers along a curve, ``spacing`` apart; every other row starts half a step on."""
    count = max(2, round(2 * length(curve) / spacing) + 1)
    places = along(curve, count)[number % 2 :: 2]
    return [make(point, angle, number, i) for i, (point, angle) in enumerate(places)]


def beside(curve: Curve, offset: float, count: int = 40) -> Curve:
    """The curve that runs ``offset`` units to the right of another (left where negative)."""
    points = [step(point, angle + 90, offset) for point, angle in along(curve, count)]
    return Curve(tuple((a, a, b, b) for a, b in itertools.pairwise(points)), False)


def rows(
    body: Curve, spine: Curve, offsets: Sequence[float], spacing: float, make: Maker
) -> list[Curve]:
    """Rows beside ``spine``, one for each offset; only papers wholly inside ``body`` stay."""
    laid = [
        paper
        for number, offset in enumerate(offsets)
        for paper in row(beside(spine, offset) if offset else spine, spacing, make, number)
    ]
    return [paper for paper in laid if body.holds(paper)]


def clear_of(papers: Sequence[Curve], *shapes: Curve) -> list[Curve]:
    """The papers of which no part lies in one of ``shapes``: keeps eyes and fins free."""
    return [
        paper
        for paper in papers
        if not any(shape.contains(point) for shape in shapes for point in paper.polygon)
    ]
