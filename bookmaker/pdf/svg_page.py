"""Marks written down as SVG: user units are millimetres."""

from __future__ import annotations

import base64
from collections.abc import Mapping
from typing import Any

import svgwrite
from svgwrite.base import BaseElement

from bookmaker.model import Box, PlacedPage
from bookmaker.pdf.inks import Ink, Paint
from bookmaker.pdf.marks import (
    AltText,
    ArtMark,
    Circle,
    Group,
    Mark,
    Path,
    Rect,
    Segment,
    TextRun,
    draw,
    faded,
    number,
)
from bookmaker.typeset import FACES, POINT

_MEDIA = {"svg": "image/svg+xml", "jpeg": "image/jpeg", "png": "image/png"}


Art = Mapping[str, tuple[str, bytes, float]]
"""A picture's format ("svg", "jpeg", "png"; upright), bytes and ink cover, by its digest."""


def page_svg(page: PlacedPage, ink: Ink, art: Art) -> str:
    """The page as an SVG document that stands alone.

    Pictures that are not in ``art`` are left out and keep their place.
    """
    width, height = number(page.width), number(page.height)
    drawing = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"),
        viewBox=f"0 0 {width} {height}",
        debug=False,  # svgwrite's validator knows no data-* attributes
    )
    drawing.add(drawing.rect((0, 0), (width, height), fill="#ffffff"))
    for place, group in enumerate(draw(page, ink)):
        drawing.add(_group(drawing, group, place, ink, art))
    return str(drawing.tostring())


def _group(
    drawing: svgwrite.Drawing,
    group: Group,
    place: int,
    ink: Ink,
    art: Art,
) -> BaseElement:
    element = drawing.g(class_=group.kind)
    for key, value in group.data:
        element[key] = value
    for mark in group.marks:
        if isinstance(mark, ArtMark):
            _add_art(drawing, element, mark, f"window-{place}", ink, art)
        elif isinstance(mark, AltText):
            element.set_desc(title=mark.alt)
        else:
            element.add(_element(drawing, mark))
    return element


def _add_art(
    drawing: svgwrite.Drawing,
    element: BaseElement,
    mark: ArtMark,
    name: str,
    ink: Ink,
    art: Art,
) -> None:
    if mark.picture not in art:
        return
    kind, data, _ = art[mark.picture]
    clip = drawing.clipPath(id=name)
    clip.add(drawing.rect(**_box(mark.window)))
    drawing.defs.add(clip)
    source = f"data:{_MEDIA[kind]};base64,{base64.b64encode(data).decode()}"
    image = drawing.image(source, preserveAspectRatio="none", **_box(mark.box))
    clipped = drawing.g(clip_path=f"url(#{name})")
    clipped.add(image)
    if mark.alt:
        clipped.set_desc(title=mark.alt)
    element.add(clipped)
    fade = ink.fade(mark.paled, mark.ornament)
    if fade:
        over = drawing.rect(fill="#ffffff", fill_opacity=number(fade), **_box(faded(mark.window)))
        element.add(over)


def _box(box: Box) -> dict[str, Any]:
    return {
        "insert": (number(box.x), number(box.y)),
        "size": (number(box.width), number(box.height)),
    }


def _element(drawing: svgwrite.Drawing, mark: Mark) -> BaseElement:
    if isinstance(mark, Circle):
        centre = (number(mark.x), number(mark.y))
        return drawing.circle(centre, number(mark.radius), **_paint(mark.paint))
    if isinstance(mark, Rect):
        corner = number(mark.corner)
        return drawing.rect(rx=corner, ry=corner, **_box(mark.box), **_paint(mark.paint))
    if isinstance(mark, Path):
        return drawing.path(_path_data(mark.segments), **_paint(mark.paint))
    if isinstance(mark, TextRun):
        return _text(drawing, mark)
    raise TypeError(f"no way to write {mark!r}")


def _path_data(segments: tuple[Segment, ...]) -> str:
    return " ".join(
        segment.step + " ".join(f"{number(x)},{number(y)}" for x, y in segment.points)
        for segment in segments
    )


def _paint(paint: Paint) -> dict[str, Any]:
    style: dict[str, Any] = {"fill": paint.fill or "none"}
    if paint.stroke:
        cap = "round" if paint.round else "butt"
        style |= {"stroke": paint.stroke, "stroke_width": number(paint.width)}
        style |= {"stroke_linecap": cap, "stroke_linejoin": "round"}
    if paint.dash:
        style["stroke_dasharray"] = " ".join(number(length) for length in paint.dash)
    return style


def _text(drawing: svgwrite.Drawing, mark: TextRun) -> BaseElement:
    face = FACES[mark.face]
    style: dict[str, Any] = {"font_family": face.family, "fill": mark.colour}
    style["font_size"] = f"{mark.size * POINT:.4f}"
    if face.bold:
        style["font_weight"] = "bold"
    if face.italic:
        style["font_style"] = "italic"
    if mark.anchor != "start":
        style["text_anchor"] = mark.anchor
    return drawing.text(mark.text, insert=(number(mark.x), number(mark.y)), **style)
