"""Proofs for the teacher's eye: a grid over the bare picture, and the gaps that are tight."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise, product, takewhile

from bookmaker.layout.setting import PlacedPuzzle
from bookmaker.model import (
    Box,
    Disc,
    Item,
    Line,
    Page,
    Picture,
    PlacedArt,
    PlacedLink,
    PlacedPage,
    PlacedSpot,
    PlacedTag,
    Point,
    Rule,
    Spot,
)
from bookmaker.placement import Sizes, TreePlacement, widest_text
from bookmaker.typeset import Sheet, ascent

GRID_SIZE = 9.0
GUTTER = 8.0
TIGHT = 1.6
"""A gap is tight up to this many times what it must be."""
PIECES = 60


def lay_out_grid(picture: Picture, paper: str, spots: Sequence[Spot] = ()) -> PlacedPage:
    """The whole picture, untrimmed, under lines at every five per cent, and ``spots`` over it.

    Tens have numbers and an edge to be seen on anything, fifties are stronger.
    """
    sheet = Sheet(paper, recto=True)
    area = sheet.area
    frame = Box(area.x + GUTTER, area.y + GUTTER, area.width - GUTTER, area.height - GUTTER)
    scale = min(frame.width / picture.width, frame.height / picture.height)
    box = Box(frame.x, frame.y, picture.width * scale, picture.height * scale)
    items: list[Item] = [PlacedArt(picture.digest, box, box)]
    for per_cent in range(5, 100, 10):
        items += _fine_line(box, per_cent)
    for per_cent in range(0, 101, 10):
        items += _grid_line(box, per_cent)
    for spot in spots:
        items += _set_already(box, spot, Sizes.of(paper, 2).radius)
    return PlacedPage("grid", *sheet.size, tuple(items))


def _fine_line(box: Box, per_cent: int) -> Iterator[Item]:
    x, y = box.x + box.width * per_cent / 100, box.y + box.height * per_cent / 100
    yield Rule((x, box.y), (x, box.bottom), "grid-fine")
    yield Rule((box.x, y), (box.right, y), "grid-fine")


def _set_already(box: Box, spot: Spot, radius: float) -> Iterator[Item]:
    """A spot's ring without its disc, as large as on the page, its middle and its name."""
    x, y = box.x + box.width * spot.x / 100, box.y + box.height * spot.y / 100
    for role in ("tight-edge", "tight"):
        yield Disc(x, y, radius, role)
        yield Disc(x, y, 0.5, role)
    yield Line(x, y - 2, spot.name.replace("_", " "), GRID_SIZE, "strong", "middle", "accent")


def _grid_line(box: Box, per_cent: int) -> Iterator[Item]:
    x = box.x + box.width * per_cent / 100
    y = box.y + box.height * per_cent / 100
    role = "grid-strong" if per_cent % 50 == 0 else "grid"
    for start, end in (((x, box.y), (x, box.bottom)), ((box.x, y), (box.right, y))):
        yield Rule(start, end, "grid-edge")
        yield Rule(start, end, role)
    middle = y + ascent("strong", GRID_SIZE) / 2
    yield Line(x, box.y - 2, str(per_cent), GRID_SIZE, "strong", "middle", "quiet")
    yield Line(box.x - 2, middle, str(per_cent), GRID_SIZE, "strong", "end", "quiet")


@dataclass(frozen=True, slots=True)
class _Gap:
    """Two places that are near each other, ``room`` mm apart where ``least`` must be."""

    start: Point
    end: Point
    room: float
    least: float


def tight_gaps(placed: PlacedPuzzle, page: Page) -> tuple[Item, ...]:
    """A short line across each gap that is tight, with its width in millimetres beside it."""
    tree, sizes = placed.tree, Sizes.of(placed.sheet.paper, widest_text(page))
    gaps = [*_between_spots(tree, sizes), *_about_links(tree, sizes), *_about_tags(tree, sizes)]
    tight = [gap for gap in gaps if gap.room <= gap.least * TIGHT]
    return tuple(item for gap in tight for item in _marked(gap))


def _marked(gap: _Gap) -> Iterator[Item]:
    x, y = ((a + b) / 2 for a, b in zip(gap.start, gap.end, strict=True))
    yield Rule(gap.start, gap.end, "tight-edge")
    yield Rule(gap.start, gap.end, "tight")
    yield Line(x + 1.5, y - 1.5, f"{gap.room:.1f}", GRID_SIZE, "strong", "start", "accent")


def _between_spots(tree: TreePlacement, sizes: Sizes) -> Iterator[_Gap]:
    for one, other in combinations(tree.spots, 2):
        away = math.dist((one.x, one.y), (other.x, other.y))
        start = _toward((one.x, one.y), (other.x, other.y), one.radius)
        end = _toward((other.x, other.y), (one.x, one.y), other.radius)
        yield _Gap(start, end, away - one.radius - other.radius, sizes.spot_gap)


def _about_links(tree: TreePlacement, sizes: Sizes) -> Iterator[_Gap]:
    for link in tree.links:
        points = _sampled(link)
        for spot in tree.spots:
            if spot.name not in link.name.split("-"):
                yield _to_spot(_nearest(points, spot), spot, sizes.link_gap)

    for one, other in combinations(tree.links, 2):
        pairs = product(_sampled(one), _sampled(other))
        start, end = min(pairs, key=lambda pair: math.dist(*pair))
        yield _Gap(start, end, math.dist(start, end), sizes.cord_gap)


def _about_tags(tree: TreePlacement, sizes: Sizes) -> Iterator[_Gap]:
    for one, other in combinations(tree.tags, 2):
        start, end = _between_boxes(one.box, other.box)
        yield _Gap(start, end, math.dist(start, end), sizes.tag_gap)
    for tag in tree.tags:
        link = next(link for link in tree.links if link.name == tag.link)
        for points in (_sampled(link), _sampled(link)[::-1]):
            yield _shown(points, tag.box, sizes.visible)
        for spot in tree.spots:
            yield _to_spot(_clamped((spot.x, spot.y), tag.box), spot, sizes.tag_gap)
        for link in tree.links:
            if link.name != tag.link:
                yield _tag_to_link(tag, link, sizes.tag_gap)


def _tag_to_link(tag: PlacedTag, link: PlacedLink, least: float) -> _Gap:
    pairs = ((_clamped(point, tag.box), point) for point in _sampled(link))
    start, end = min(pairs, key=lambda pair: math.dist(*pair))
    return _Gap(start, end, math.dist(start, end), least)


def _shown(points: Sequence[Point], tag: Box, least: float) -> _Gap:
    """What shows of a link from its end to its tag."""
    shown = [points[0], *takewhile(lambda point: _clamped(point, tag) != point, points)]
    end = _clamped(shown[-1], tag)
    along = sum(map(math.dist, shown, shown[1:])) + math.dist(shown[-1], end)
    return _Gap(shown[0], end, along, least)


def _between_boxes(one: Box, other: Box) -> tuple[Point, Point]:
    """The two points at which boxes are nearest each other."""
    start = _clamped(other.middle, one)
    end = _clamped(start, other)
    return _clamped(end, one), end


def _to_spot(point: Point, spot: PlacedSpot, least: float) -> _Gap:
    end = _toward((spot.x, spot.y), point, spot.radius)
    return _Gap(point, end, math.dist(point, (spot.x, spot.y)) - spot.radius, least)


def _toward(start: Point, end: Point, length: float) -> Point:
    away = math.dist(start, end) or 1.0
    return (
        start[0] + (end[0] - start[0]) * length / away,
        start[1] + (end[1] - start[1]) * length / away,
    )


def _clamped(point: Point, box: Box) -> Point:
    return (min(max(point[0], box.x), box.right), min(max(point[1], box.y), box.bottom))


def _nearest(points: Sequence[Point], spot: PlacedSpot) -> Point:
    return min(points, key=lambda point: math.dist(point, (spot.x, spot.y)))


def _sampled(link: PlacedLink) -> list[Point]:
    """Points along a link, by de Casteljau's construction."""
    return [_on_curve(link.curve, step / PIECES) for step in range(PIECES + 1)]


def _on_curve(points: Sequence[Point], at: float) -> Point:
    while len(points) > 1:
        points = [
            (a[0] + (b[0] - a[0]) * at, a[1] + (b[1] - a[1]) * at) for a, b in pairwise(points)
        ]
    return points[0]
