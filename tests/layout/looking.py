"""Looking at a placed page: what its items cover, what leaves an area, what collides."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from bookmaker.model import (
    Box,
    Disc,
    Frame,
    Item,
    Line,
    Outline,
    PlacedArt,
    PlacedLink,
    PlacedPage,
    PlacedSpot,
    PlacedTag,
    Point,
    Rule,
)
from bookmaker.typeset import POINT, width

ASCENT, DESCENT = 0.72, 0.22
"""Parts of a line's size above and below its baseline that hold ink (Fira Sans, Rowdies)."""
SLACK = 0.15
"""Millimetres that outlines may leave the area by: half a hair."""


def line_box(line: Line) -> Box:
    wide = width(line.text, line.face, line.size)
    shift = {"start": 0.0, "middle": wide / 2, "end": wide}[line.anchor]
    high = line.size * POINT
    return Box(line.x - shift, line.y - ASCENT * high, wide, (ASCENT + DESCENT) * high)


def box_of(item: Item) -> Box | None:
    """What an item covers, or None for what leaves no ink."""
    match item:
        case Line():
            return line_box(item)
        case PlacedArt(window=box) | PlacedTag(box=box) | Frame(box=box):
            return box
        case PlacedSpot(x=x, y=y, radius=r) | Disc(x=x, y=y, radius=r):
            return Box(x - r, y - r, 2 * r, 2 * r)
        case PlacedLink(curve=points):
            return around(points)
        case Rule(start=start, end=end):
            return around((start, end))
        case Outline(runs=runs):
            return around([point for run in runs for point in run])
    return None


def around(points: Sequence[Point]) -> Box:
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


def overlap(one: Box, other: Box) -> float:
    """How deep two boxes lie in each other, in millimetres."""
    across = min(one.right, other.right) - max(one.x, other.x)
    down = min(one.bottom, other.bottom) - max(one.y, other.y)
    return min(across, down)


def outside(page: PlacedPage, area: Box) -> list[str]:
    found = []
    for item in page.items:
        box = box_of(item)
        if box is None or (isinstance(item, Line) and not item.text):
            continue
        over = max(area.x - box.x, area.y - box.y, box.right - area.right, box.bottom - area.bottom)
        if over > SLACK:
            found.append(f"{over:.2f} mm: {item}")
    return found


def collisions(page: PlacedPage) -> list[str]:
    lines = [item for item in page.items if isinstance(item, Line) and item.text.strip()]
    found = [
        f"{one.text!r} and {other.text!r}"
        for one, other in combinations(lines, 2)
        if overlap(line_box(one), line_box(other)) > 0.05
    ]
    art = [item for item in page.items if isinstance(item, PlacedArt)]
    written = [line for line in lines if line.role not in ("given", "solved")]
    found += [
        f"{line.text!r} on a picture"
        for line in written
        for picture in art
        if overlap(line_box(line), picture.window) > 0.05
    ]
    found += [
        "two pictures"
        for one, other in combinations(art, 2)
        if overlap(one.window, other.window) > 0.05
    ]
    return found
