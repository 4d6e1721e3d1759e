"""Marks: the few kinds of ink that a page is made of, in millimetres, in the order of printing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import singledispatch
from itertools import takewhile
from typing import Literal

from bookmaker.model import (
    Anchor,
    Box,
    Description,
    Disc,
    Face,
    Frame,
    InternalLink,
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
from bookmaker.pdf.inks import Ink, Paint

HAIR = 0.2
TAG_CORNER = 2.0
"""Radius of a tag's corners in millimetres."""


@dataclass(frozen=True, slots=True)
class Segment:
    """A step of a path: ``M`` and ``L`` take one point, ``C`` three, ``Z`` none."""

    step: Literal["M", "L", "C", "Z"]
    points: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True)
class Path:
    segments: tuple[Segment, ...]
    paint: Paint


@dataclass(frozen=True, slots=True)
class Circle:
    x: float
    y: float
    radius: float
    paint: Paint


@dataclass(frozen=True, slots=True)
class Rect:
    box: Box
    corner: float
    paint: Paint


@dataclass(frozen=True, slots=True)
class TextRun:
    """A line of text: ``size`` in points, anchored at ``(x, y)`` on its baseline."""

    text: str
    x: float
    y: float
    size: float
    face: Face
    anchor: Anchor
    colour: str
    tag: str
    joins: bool


@dataclass(frozen=True, slots=True)
class ArtMark:
    """A picture's place: the whole lies in ``box``, what is shown is inside ``window``."""

    picture: str
    box: Box
    window: Box
    alt: str
    small: bool
    paled: float = 0.0
    ornament: bool = False


@dataclass(frozen=True, slots=True)
class AltText:
    """No ink: what is drawn in ``window``, in words."""

    window: Box
    alt: str


Mark = Path | Circle | Rect | TextRun | ArtMark | AltText


@dataclass(frozen=True, slots=True)
class Group:
    """Marks that belong together; ``kind`` and ``data`` name them for whoever measures a page."""

    kind: str
    marks: tuple[Mark, ...]
    data: tuple[tuple[str, str], ...] = ()


def draw_all(pages: Sequence[PlacedPage], ink: Ink) -> list[tuple[Group, ...]]:
    """``draw`` for every side of a document; what a side begins with just as the one before it did
    is a running header there."""
    befores = (None, *pages[:-1])
    return [draw(_continued(*both), ink) for both in zip(befores, pages, strict=True)]


def _continued(before: PlacedPage | None, page: PlacedPage) -> PlacedPage:
    pairs = zip(_lines(before), _lines(page), strict=False) if before else iter(())
    running = [line for _, line in takewhile(lambda pair: pair[0].text == pair[1].text, pairs)]
    if not running or running[0].tag != "H1":
        return page
    titled = set(running)
    items = (
        replace(item, tag="Header") if isinstance(item, Line) and item in titled else item
        for item in page.items
    )
    return replace(page, items=tuple(items))


def _lines(page: PlacedPage) -> list[Line]:
    return [item for item in page.items if isinstance(item, Line)]


def draw(page: PlacedPage, ink: Ink) -> tuple[Group, ...]:
    """Translate the items of ``page`` into marks, one group an item, in the same order."""
    return tuple(_marks(item, ink) for item in page.items if not isinstance(item, InternalLink))


@singledispatch
def _marks(item: Item, ink: Ink) -> Group:
    raise TypeError(f"no way to draw {item!r}")


@_marks.register
def _(item: Line, ink: Ink) -> Group:
    mark = TextRun(
        item.text,
        item.x,
        item.y,
        item.size,
        item.face,
        item.anchor,
        ink.words[item.role],
        item.tag,
        item.joins,
    )
    return Group("words", (mark,))


@_marks.register
def _(item: PlacedArt, ink: Ink) -> Group:
    box = item.box
    measures = " ".join(number(value) for value in (box.x, box.y, box.width, box.height))
    mark = ArtMark(item.picture, box, item.window, item.alt, item.small, item.paled, item.ornament)
    return Group("art", (mark,), (("data-box", measures),))


@_marks.register
def _(item: PlacedSpot, ink: Ink) -> Group:
    ring = ink.paints["pale-ring" if item.pale else "ring"].scaled(item.scale)
    return Group("spot", (Circle(item.x, item.y, item.radius, ring),), (("data-spot", item.name),))


@_marks.register
def _(item: PlacedLink, ink: Ink) -> Group:
    start, *rest = item.curve
    step: Literal["L", "C"] = "L" if len(rest) == 1 else "C"
    line = (Segment("M", (start,)), Segment(step, tuple(rest)))
    roles = ("pale-link-stroke",) if item.pale else ("link-stroke-edge", "link-stroke")
    paints = (ink.paints[role].scaled(item.scale) for role in roles)
    return Group("link", tuple(Path(line, paint) for paint in paints), (("data-link", item.name),))


@_marks.register
def _(item: PlacedTag, ink: Ink) -> Group:
    paint = ink.paints["pale-tag" if item.pale else "tag"].scaled(item.scale)
    box = Rect(item.box, TAG_CORNER * item.scale, paint)
    return Group("tag", (box,), (("data-link", item.link),))


@_marks.register
def _(item: Rule, ink: Ink) -> Group:
    line = (Segment("M", (item.start,)), Segment("L", (item.end,)))
    return Group("rule", (Path(line, ink.paints[item.role]),))


@_marks.register
def _(item: Frame, ink: Ink) -> Group:
    return Group("frame", (Rect(item.box, item.radius, ink.paints[item.role]),))


@_marks.register
def _(item: Disc, ink: Ink) -> Group:
    return Group("disc", (Circle(item.x, item.y, item.radius, ink.paints[item.role]),))


@_marks.register
def _(item: Outline, ink: Ink) -> Group:
    segments = [
        segment
        for run in item.runs
        for segment in (
            Segment("M", (run[0],)),
            *(Segment("L", (point,)) for point in run[1:]),
            *((Segment("Z"),) if item.closed else ()),
        )
    ]
    return Group("shape", (Path(tuple(segments), ink.paints[item.role]),))


@_marks.register
def _(item: Description, ink: Ink) -> Group:
    return Group("description", (AltText(item.box, item.text),))


def faded(window: Box) -> Box:
    """What is laid over a picture to fade it: a hair more, so that no edge shines through."""
    return window.grown(HAIR)


def number(value: float) -> str:
    """A coordinate in millimetres, to a hundredth, as short as it can be written."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
