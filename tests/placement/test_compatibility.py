"""What goes together, against shapely: nothing that touches is ever let through."""

from __future__ import annotations

import math

import numpy as np
from shapely.geometry import LineString, Point, box

from bookmaker.placement.compatibility import Fits
from bookmaker.placement.curves import gentle, wild
from bookmaker.placement.refine import Field
from tests.layout import sets


def tables(count: int, family) -> list[Fits]:  # type: ignore[no-untyped-def]
    found = []
    for case in sets.anatomical(count, "a4", seed=4):
        places = tuple((x, y) for _, x, y in case.spots)
        rank = {name: i for i, (name, _, _) in enumerate(case.spots)}
        edges = tuple((rank[a], rank[b]) for a, b in case.links)
        found.append(Field(places, edges, case.frame, case.sizes).fits([family] * len(edges)))
    return found


def test_curves_and_tags_that_come_too_near_are_never_let_through() -> None:
    looked = 0
    for fits in tables(4, gentle()):
        fine = [LineString(points) for points in fits.ways.points]
        for curve in range(0, len(fine), 7):
            row = fits.row(curve)
            for other in np.nonzero(row.any(axis=1))[0]:
                if fits.ways.link[other] == fits.ways.link[curve]:
                    continue
                looked += 1
                assert fine[curve].distance(fine[other]) >= 3.0
                for x, y in fits.seats.centres[other, row[other]]:
                    tag = box(x - 7.5, y - 6, x + 7.5, y + 6)
                    assert fine[curve].distance(tag) >= 2.0
    assert looked > 300


def test_little_that_is_clear_is_refused() -> None:
    refused = clear = 0
    for fits in tables(3, gentle()):
        fine = [LineString(points) for points in fits.ways.points]
        for curve in range(0, len(fine), 9):
            curves = fits._curves(np.array([curve]))[0]
            for other in range(len(fine)):
                if fits.ways.link[other] != fits.ways.link[curve] and apart(fits, curve, other):
                    far = fine[curve].distance(fine[other])
                    clear += far > 4.5
                    refused += far > 4.5 and not curves[other]
    assert clear > 300
    assert refused < 0.01 * clear


def apart(fits: Fits, one: int, other: int) -> bool:
    """Whether two curves leave a shared spot at more than the least angle, or share none."""
    for k, spot in enumerate(fits.ways.edges[fits.ways.link[one]]):
        for m, like in enumerate(fits.ways.edges[fits.ways.link[other]]):
            if spot == like:
                along = float(fits.ways.leaving[one, k] @ fits.ways.leaving[other, m])
                return math.degrees(math.acos(max(-1.0, min(1.0, along)))) > 25.5
    return True


def test_seats_show_their_link_and_keep_from_every_spot() -> None:
    for fits in tables(3, wild(40)):
        ends = fits.ways.edges
        spots = {tuple(point) for point in fits.ways.controls[:, 0].round(6)}
        assert spots and ends
        for curve, points in enumerate(fits.ways.points):
            line = LineString(points)
            for x, y in fits.seats.centres[curve, fits.seats.good[curve]]:
                tag = box(x - 7.5, y - 6, x + 7.5, y + 6)
                # A link that grazes its tag is hidden there or not by a hundredth of a millimetre.
                for hair in (-0.05, 0.0, 0.05):
                    pieces = list(getattr(line.difference(tag.buffer(hair)), "geoms", []))
                    assert len(pieces) == 2
                    assert min(piece.length for piece in pieces) >= 3.0
                for start in (points[0], points[-1]):
                    assert tag.distance(Point(start)) >= 1.9


def test_working_rows_out_together_or_singly_is_the_same() -> None:
    one, other = tables(1, gentle())[0], tables(1, gentle())[0]
    curves = list(range(0, len(one.ways.link), 5))
    one.work_out(curves)
    assert all((one.row(curve) == other.row(curve)).all() for curve in curves)
