"""Placed items moved and made smaller as a whole."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import singledispatch
from typing import Any, TypeVar

from bookmaker.model import (
    Box,
    Description,
    Disc,
    Frame,
    InternalLink,
    Item,
    Line,
    Outline,
    PlacedArt,
    PlacedLink,
    PlacedSpot,
    PlacedTag,
    Point,
    Rule,
)

T = TypeVar("T", bound=Item)


@dataclass(frozen=True, slots=True)
class Move:
    """First scaled about the paper's top left, then shifted by ``dx`` and ``dy`` millimetres."""

    dx: float
    dy: float
    scale: float = 1.0

    def point(self, point: Point) -> Point:
        return (point[0] * self.scale + self.dx, point[1] * self.scale + self.dy)

    def box(self, box: Box) -> Box:
        x, y = self.point((box.x, box.y))
        return Box(x, y, box.width * self.scale, box.height * self.scale)


def moved(items: Iterable[T], move: Move) -> tuple[T, ...]:
    """``items`` in their new places; strokes are scaled by drawing, which is told the scale."""
    return tuple(_moved(item, move) for item in items)


@singledispatch
def _moved(item: Item, move: Move) -> Any:  # an item of the same kind
    raise TypeError(f"no way to move {item!r}")


@_moved.register
def _(item: Line, move: Move) -> Item:
    x, y = move.point((item.x, item.y))
    return replace(item, x=x, y=y, size=item.size * move.scale)


@_moved.register
def _(item: PlacedArt, move: Move) -> Item:
    return replace(item, box=move.box(item.box), window=move.box(item.window))


@_moved.register
def _(item: PlacedSpot, move: Move) -> Item:
    x, y = move.point((item.x, item.y))
    return replace(item, x=x, y=y, radius=item.radius * move.scale, scale=item.scale * move.scale)


@_moved.register
def _(item: PlacedLink, move: Move) -> Item:
    curve = tuple(move.point(point) for point in item.curve)
    return replace(item, curve=curve, scale=item.scale * move.scale)


@_moved.register
def _(item: PlacedTag, move: Move) -> Item:
    return replace(item, box=move.box(item.box), scale=item.scale * move.scale)


@_moved.register
def _(item: Rule, move: Move) -> Item:
    return replace(item, start=move.point(item.start), end=move.point(item.end))


@_moved.register
def _(item: Frame, move: Move) -> Item:
    return replace(item, box=move.box(item.box), radius=item.radius * move.scale)


@_moved.register
def _(item: Disc, move: Move) -> Item:
    x, y = move.point((item.x, item.y))
    return replace(item, x=x, y=y, radius=item.radius * move.scale)


@_moved.register
def _(item: Outline, move: Move) -> Item:
    runs = tuple(tuple(move.point(point) for point in run) for run in item.runs)
    return replace(item, runs=runs)


@_moved.register
def _(item: InternalLink, move: Move) -> Item:
    return replace(item, box=move.box(item.box))


@_moved.register
def _(item: Description, move: Move) -> Item:
    return replace(item, box=move.box(item.box))
