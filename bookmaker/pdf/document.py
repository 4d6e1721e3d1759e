"""One PDF from many placed pages: their marks as content, pictures under them once each, and what
a reader is told."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence

from pikepdf import Array, Dictionary, Name, Object, Page, Pdf, Stream

from bookmaker.cache import Cache
from bookmaker.model import Face, Picture, PlacedPage
from bookmaker.pdf.embedding import Subset, font, subset
from bookmaker.pdf.inks import Ink
from bookmaker.pdf.laid_art import ArtStore
from bookmaker.pdf.marks import ArtMark, Group, TextRun, draw_all
from bookmaker.pdf.metadata import Document, describe
from bookmaker.pdf.navigation import links, points, titles, write_places
from bookmaker.pdf.painting import PaintedPage, paint_page
from bookmaker.pdf.pressed import Pressed, with_rasters
from bookmaker.pdf.structure import Element, elements_of, structured, write_structure


def press(
    pages: Sequence[PlacedPage],
    ink: Ink,
    pictures: Mapping[str, Picture],
    document: Document,
    cache: Cache,
) -> Pressed:
    """Print ``pages`` and give the PDF's pieces: the same input gives the same bytes.

    ``pictures`` by digest; what is dear to compute is kept in ``cache``.
    """
    drawn = draw_all(pages, ink)
    subsets = _subsets(drawn, cache)
    with Pdf.new() as pdf:
        store = ArtStore(pdf, pictures, ink, _longest(drawn), cache)
        fonts = {face: font(pdf, found) for face, found in subsets.items()}
        elements: list[Element] = []
        told = titles(pages)
        objects: list[Object] = []
        for side, (page, groups) in enumerate(zip(pages, drawn, strict=True)):
            painted = paint_page(page.height, groups, subsets, store)
            resources = _fonts(painted, fonts) | store.resources(_art(groups))
            objects.append(_page(pdf, page, painted, resources, ink))
            leading = links(pdf, page, told)
            if leading:
                objects[-1].Annots = Array(leading)
            elements += elements_of(side, painted.tagged, leading)
        write_places(pdf, pages, objects)
        heights = [page.height for page in pages]
        write_structure(pdf, structured(elements), list(zip(objects, heights, strict=True)))
        describe(pdf, document)
        finished = io.BytesIO()
        # The identifier is made from the content (ISO 32000-1, 14.4), so that builds repeat.
        pdf.save(finished, deterministic_id=True, force_version="1.7", compress_streams=True)
    return with_rasters(finished.getvalue(), store.rasters)


def _subsets(drawn: Sequence[Sequence[Group]], cache: Cache) -> dict[Face, Subset]:
    """The faces that are printed, each with all of its letters."""
    letters: dict[Face, set[str]] = {}
    for groups in drawn:
        for group in groups:
            for mark in group.marks:
                if isinstance(mark, TextRun):
                    letters.setdefault(mark.face, {" "}).update(mark.text)
    return {face: subset(face, found, cache) for face, found in sorted(letters.items())}


def _art(groups: Sequence[Group]) -> list[ArtMark]:
    return [mark for group in groups for mark in group.marks if isinstance(mark, ArtMark)]


def _longest(drawn: Sequence[Sequence[Group]]) -> dict[tuple[str, bool], float]:
    """The longer side, mm, of each picture's largest print in full, and small (True)."""
    found: dict[tuple[str, bool], float] = {}
    for groups in drawn:
        for mark in _art(groups):
            key = (mark.picture, mark.small)
            found[key] = max(found.get(key, 0.0), mark.box.width, mark.box.height)
    return found


def _fonts(painted: PaintedPage, fonts: Mapping[Face, Object]) -> dict[str, Object]:
    used = {f"/{face}": fonts[face] for face in sorted(painted.faces)}
    return {"/Font": Dictionary(used)} if used else {}


def _page(
    pdf: Pdf, placed: PlacedPage, painted: PaintedPage, resources: dict[str, Object], ink: Ink
) -> Object:
    """A page with its content, added to ``pdf``. Colours are blended in those of the ink."""
    space = Name.DeviceGray if ink.grey else Name.DeviceRGB
    page = Dictionary(
        Type=Name.Page,
        MediaBox=Array([0, 0, points(placed.width), points(placed.height)]),
        Resources=Dictionary(resources),
        Contents=Stream(pdf, painted.content),
        Group=Dictionary(S=Name.Transparency, CS=space),
        Tabs=Name.S,
    )
    pdf.pages.append(Page(page))
    return pdf.pages[-1].obj
