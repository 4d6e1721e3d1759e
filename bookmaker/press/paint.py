"""Marks painted onto a cairo context: the same marks that ``drawing.svg`` writes down."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import singledispatch
from typing import Any, Final

from bookmaker.colour import channels
from bookmaker.drawing import ArtMark, Circle, Group, Mark, Paint, Path, Rect, Unseen, Words
from bookmaker.model import Box
from bookmaker.typeset import FACES, POINT, width

Context = Any
"""A cairocffi context, scaled so that user units are millimetres from the top left."""

FIGURE: Final = "Figure"
"""The tag of a picture."""


def paint_groups(context: Context, groups: Iterable[Group]) -> None:
    """Paint everything but pictures, tagged in the order of the page for screen readers."""
    for tag, marks in _runs(mark for group in groups for mark in group.marks):
        if tag:
            context.tag_begin(tag)
        for mark in marks:
            _paint(mark, context)
        if tag:
            context.tag_end(tag)


def _runs(marks: Iterable[Mark]) -> Iterator[tuple[str, list[Mark]]]:
    """Marks with the tag they stand under; the lines of one paragraph stand together."""
    run: list[Mark] = []
    tag = ""
    for mark in marks:
        if run and isinstance(mark, Words) and mark.joins and mark.tag == tag:
            run[-1] = _spaced(run[-1])
            run.append(mark)
            continue
        if run:
            yield tag, run
        run, tag = [mark], _tag(mark)
    if run:
        yield tag, run


def _spaced(mark: Mark) -> Mark:
    """A line that goes on in the next one, with the space that a reader puts there."""
    if not isinstance(mark, Words) or mark.anchor != "start":
        return mark
    return replace(mark, text=f"{mark.text} ")


def _tag(mark: Mark) -> str:
    if isinstance(mark, Words):
        return mark.tag
    return FIGURE if isinstance(mark, ArtMark | Unseen) and mark.alt else ""


@singledispatch
def _paint(mark: Mark, context: Context) -> None:
    raise TypeError(f"no way to paint {mark!r}")


@_paint.register
def _(mark: ArtMark, context: Context) -> None:
    """A picture lies under the page's other ink; here it only leaves its place in the order."""
    context.rectangle(mark.window.x, mark.window.y, 0, 0)
    context.fill()


@_paint.register
def _(mark: Unseen, context: Context) -> None:
    """It has words, which the finished file gets, and no ink."""


@_paint.register
def _(mark: Circle, context: Context) -> None:
    context.new_sub_path()
    context.arc(mark.x, mark.y, mark.radius, 0, 2 * math.pi)
    context.close_path()
    _ink(context, mark.paint)


@_paint.register
def _(mark: Rect, context: Context) -> None:
    _rectangle(context, mark.box, mark.corner)
    _ink(context, mark.paint)


def _rectangle(context: Context, box: Box, corner: float) -> None:
    if not corner:
        context.rectangle(box.x, box.y, box.width, box.height)
        return
    context.new_sub_path()
    for turn, (x, y) in enumerate(
        (
            (box.right - corner, box.y + corner),
            (box.right - corner, box.bottom - corner),
            (box.x + corner, box.bottom - corner),
            (box.x + corner, box.y + corner),
        )
    ):
        context.arc(x, y, corner, (turn - 1) * math.pi / 2, turn * math.pi / 2)
    context.close_path()


@_paint.register
def _(mark: Path, context: Context) -> None:
    for segment in mark.segments:
        numbers = [value for point in segment.points for value in point]
        match segment.step:
            case "M":
                context.move_to(*numbers)
            case "L":
                context.line_to(*numbers)
            case "C":
                context.curve_to(*numbers)
            case "Z":
                context.close_path()
    _ink(context, mark.paint)


@_paint.register
def _(mark: Words, context: Context) -> None:
    face = FACES[mark.face]
    context.select_font_face(face.family, int(face.italic), int(face.bold))
    context.set_font_size(mark.size * POINT)
    context.set_source_rgb(*channels(mark.colour))
    share = {"start": 0.0, "middle": 0.5, "end": 1.0}[mark.anchor]
    context.move_to(mark.x - share * width(mark.text, mark.face, mark.size), mark.y)
    context.show_text(mark.text)


def _ink(context: Context, paint: Paint) -> None:
    if paint.fill:
        context.set_source_rgb(*channels(paint.fill))
        (context.fill_preserve if paint.stroke else context.fill)()
    if paint.stroke:
        context.set_source_rgb(*channels(paint.stroke))
        context.set_line_width(paint.width)
        context.set_line_cap(1 if paint.round else 0)
        context.set_line_join(1)
        context.set_dash(list(paint.dash))
        context.stroke()
    context.new_path()
