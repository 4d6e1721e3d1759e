"""One PDF from many placed pages: ink on one cairo surface, pictures laid under it once each."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from pikepdf import Dictionary, Name, Pdf

from bookmaker.cache import Cache
from bookmaker.drawing import ArtMark, Group, Ink, draw
from bookmaker.model import Jump, Picture, PlacedPage
from bookmaker.pictures import grey_pdf
from bookmaker.press.art import ArtStore
from bookmaker.press.fonts import load_cairo
from bookmaker.press.paint import Context, paint_groups
from bookmaker.press.pressed import Pressed, with_rasters
from bookmaker.press.tags import finish_structure, with_artifacts
from bookmaker.press.units import MM

PRODUCER = "bookmaker"


@dataclass(frozen=True, slots=True)
class Document:
    """What a PDF says of itself. ``date`` is None where the file shall carry no date."""

    title: str
    language: str
    author: str = ""
    date: datetime | None = None


@dataclass(frozen=True, slots=True)
class PressShop:
    """What the press is handed: a folder for its list of faces, and a cache."""

    fonts: Path
    cache: Cache


def press(
    pages: Sequence[PlacedPage],
    ink: Ink,
    pictures: Mapping[str, Picture],
    document: Document,
    shop: PressShop,
) -> Pressed:
    """Print ``pages`` and give the PDF's pieces: the same input gives the same bytes.

    ``pictures`` by digest. Raises PressPartMissing where cairo is not installed.
    """
    drawn = [draw(page, ink) for page in pages]
    inked = _ink_pdf(pages, drawn, shop.fonts)
    inked = grey_pdf(inked) if ink.grey else inked
    with Pdf.open(io.BytesIO(inked)) as pdf:
        store = ArtStore(pdf, pictures, ink, _longest(drawn), shop.cache)
        for page, placed, groups in zip(pdf.pages, pages, drawn, strict=True):
            tags = with_artifacts(pdf, page, groups)
            store.lay_under(page, placed.height, _art(groups), tags)
        finish_structure(pdf, pages, drawn)
        _describe(pdf, document)
        finished = io.BytesIO()
        # The identifier is made from the content (ISO 32000-1, 14.4), so that builds repeat.
        pdf.save(finished, deterministic_id=True, force_version="1.7", compress_streams=True)
    return with_rasters(finished.getvalue(), store.rasters)


def _art(groups: tuple[Group, ...]) -> list[ArtMark]:
    return [mark for group in groups for mark in group.marks if isinstance(mark, ArtMark)]


def _longest(drawn: Sequence[tuple[Group, ...]]) -> dict[tuple[str, bool], float]:
    """The longer side, mm, of each picture's largest print in full, and small (True)."""
    found: dict[tuple[str, bool], float] = {}
    for groups in drawn:
        for mark in _art(groups):
            key = (mark.picture, mark.small)
            found[key] = max(found.get(key, 0.0), mark.box.width, mark.box.height)
    return found


def _ink_pdf(pages: Sequence[PlacedPage], drawn: Sequence[tuple[Group, ...]], fonts: Path) -> bytes:
    """Everything but the pictures: one surface, so that each face is subset once for all."""
    cairo = load_cairo(fonts)
    stream = io.BytesIO()
    surface = cairo.PDFSurface(stream, pages[0].width * MM, pages[0].height * MM)
    surface.set_metadata(cairo.PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z")
    context = cairo.Context(surface)
    parents: list[int] = []
    for page, groups in zip(pages, drawn, strict=True):
        surface.set_size(page.width * MM, page.height * MM)
        context.save()
        context.scale(MM, MM)
        context.tag_begin("cairo.dest", f"name='{page.name}'")
        context.tag_end("cairo.dest")
        paint_groups(context, groups)
        for item in page.items:
            if isinstance(item, Jump):
                _jump(context, item)
        context.restore()
        surface.set_page_label(page.label)
        if page.bookmark:
            level, text = page.bookmark
            parent = parents[level - 1] if level else cairo.PDF_OUTLINE_ROOT
            entry = surface.add_outline(parent, text, f"dest='{page.name}'", 0)
            parents = [*parents[:level], entry]
        surface.show_page()
    surface.finish()
    return stream.getvalue()


def _jump(context: Context, jump: Jump) -> None:
    box = jump.box
    corners = f"{box.x:.2f} {box.y:.2f} {box.width:.2f} {box.height:.2f}"
    context.tag_begin("Link", f"rect=[{corners}] dest='{jump.target}'")
    context.tag_end("Link")


def _describe(pdf: Pdf, document: Document) -> None:
    root = pdf.Root
    root.Lang = document.language
    root.MarkInfo = Dictionary(Marked=True)  # readers heed the tags only where this says so
    root.PageLayout = Name.SinglePage
    root.PageMode = Name.UseOutlines
    root.ViewerPreferences = Dictionary(DisplayDocTitle=True, PrintScaling=Name("/None"))
    facts = {
        "/Title": document.title,
        "/Author": document.author,
        "/Producer": PRODUCER,
        "/Creator": PRODUCER,
        "/CreationDate": _pdf_date(document.date) if document.date else "",
    }
    pdf.trailer.Info = pdf.make_indirect(
        Dictionary({key: value for key, value in facts.items() if value})
    )


def _pdf_date(date: datetime) -> str:
    """ISO 32000-1, 7.9.4, in universal time."""
    return date.astimezone(UTC).strftime("D:%Y%m%d%H%M%SZ")
