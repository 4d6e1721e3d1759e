"""SVG in, a picture out: screened source and one vector page. Runs in the worker alone."""

from __future__ import annotations

from dataclasses import replace
from typing import Any
from xml.etree import ElementTree

import cairocffi
from cairosvg.parser import Tree
from cairosvg.surface import PDFSurface, Surface

from bookmaker.model import PDF_SIDE, Picture
from bookmaker.pictures.inside import decode_uri
from bookmaker.pictures.limits import SAVE_AGAIN, Limits, Unfit
from bookmaker.pictures.look import draw_small
from bookmaker.pictures.mending import EVEN_ODD_MARK
from bookmaker.pictures.packing import make
from bookmaker.pictures.screen import Element, screen
from bookmaker.pictures.trim import blank_notes, trim_box
from bookmaker.pictures.viewport import Viewport, length, viewport_of

_POINTS_PER_PIXEL = 0.75
_BENT = 1.02
_LOOK = 400
"""Longer side, pixels, of the look that tells where the blank border of a drawing ends."""
_DAY = "2000-01-01T00:00:00Z"
_NOMINAL = Viewport(0.0, 0.0, 300.0, 150.0)
"""The size of a replaced element that says none (CSS 2.2, 10.3.2)."""


def draw(data: bytes, limits: Limits) -> Picture:
    """Screen and draw one SVG (or svgz); raises Unfit, or whatever cairosvg raises."""
    return _drawn(*screen(data, limits))


def _drawn(root: Element, notes: tuple[str, ...]) -> Picture:
    view = viewport_of(root)
    if view is None:
        view = _drawn_extent(root)
        notes = (*notes, f"says no size of its own and is taken as {view.size}, what it draws")
    if _stretch(root, view) > _BENT:
        notes = (*notes, "has a size of another shape than its viewBox, which is what is printed")
    source = _framed(root, view)
    page = _page(source, view)
    made = make("svg", view.width, view.height, source)
    image = draw_small(page, "RGB", _LOOK)
    try:
        trim, notes = trim_box(image), (*notes, *blank_notes(image))
    finally:
        image.close()
    return replace(made, pdf=page, trim=trim, notes=notes)


def _page(source: bytes, view: Viewport) -> bytes:
    scale = PDF_SIDE / _POINTS_PER_PIXEL / view.longer
    page: bytes = PdfPage.convert(source, scale=scale, url_fetcher=_fetch_nothing)
    return page


def _stretch(root: Element, view: Viewport) -> float:
    """How much wider or higher its width and height are than its viewBox, 1 for not at all."""
    width, height = (length(root.get(side, "")) for side in ("width", "height"))
    if not width or not height or min(width, height) <= 0:
        return 1.0
    ratio = width / height * view.height / view.width
    return max(ratio, 1 / ratio)


class _Context(cairocffi.Context):  # type: ignore[misc]
    """A context whose next clip goes by the even-odd rule where that is asked for."""

    even_odd = False

    def clip(self) -> None:
        if self.even_odd:
            self.set_fill_rule(cairocffi.FILL_RULE_EVEN_ODD)
            self.even_odd = False
        super().clip()


class PdfPage(PDFSurface):  # type: ignore[misc]
    """cairosvg's PDF surface, with a creation date that does not change from run to run, and with
    clip paths that keep to their rule."""

    @property
    def context(self) -> _Context:
        return self._context

    @context.setter
    def context(self, plain: cairocffi.Context) -> None:
        self._context = _Context(plain.get_target())

    def draw(self, node: Any) -> None:
        super().draw(node)
        if not self.stroke_and_fill and "id" in node and EVEN_ODD_MARK in node:
            self.context.even_odd = True  # what was drawn is the path of the clip to come

    def _create_surface(self, width: float, height: float) -> tuple[Any, float, float]:
        surface = cairocffi.PDFSurface(self.output, width, height)
        surface.set_metadata(cairocffi.PDF_METADATA_CREATE_DATE, _DAY)
        return surface, width, height


class _Extent(Surface):  # type: ignore[misc]
    """A surface without bounds that only remembers where ink falls."""

    device_units_per_user_units = 1

    def _create_surface(self, width: float, height: float) -> tuple[Any, float, float]:
        return cairocffi.RecordingSurface(cairocffi.CONTENT_COLOR_ALPHA, None), width, height

    def finish(self) -> None:
        self.extent = self.cairo.ink_extents()


def _drawn_extent(root: Element) -> Viewport:
    """From the origin to the far ends of what is drawn, for art that says no size."""
    source = _framed(root, _NOMINAL, overflow="visible")
    surface = _Extent(Tree(bytestring=source, url_fetcher=_fetch_nothing), None, 96)
    surface.finish()
    x, y, width, height = surface.extent
    if x + width <= 0 or y + height <= 0:
        raise Unfit("draws nothing", SAVE_AGAIN)
    return Viewport(0.0, 0.0, x + width, y + height)


def _framed(root: Element, view: Viewport, **attributes: str) -> bytes:
    """The SVG as bytes, exactly its viewport large, one pixel to a user unit, from 0, 0.

    Readers that draw an SVG inside another (cairosvg is one) may forget where its viewBox begins.
    """
    style = f"{root.get('style', '')};width:{view.width:.9g}px;height:{view.height:.9g}px"
    frame = {
        **root.attrib,
        "xmlns": "http://www.w3.org/2000/svg",
        "width": f"{view.width:.9g}",
        "height": f"{view.height:.9g}",
        "viewBox": f"0 0 {view.width:.9g} {view.height:.9g}",
        "style": style.lstrip(";"),
        **attributes,
    }
    framed = ElementTree.Element("svg", frame)
    moved = framed
    if view.x or view.y:
        shift = {"transform": f"translate({-view.x:.9g} {-view.y:.9g})"}
        moved = ElementTree.SubElement(framed, "g", shift)
    moved.text = root.text
    moved.extend(root)
    source: bytes = ElementTree.tostring(framed, encoding="utf-8")
    return source


def _fetch_nothing(url: str, kind: str) -> bytes:
    """Only pictures that the screen itself wrote into the source are ever looked up."""
    return decode_uri(url) or b'<svg width="1" height="1"/>'
