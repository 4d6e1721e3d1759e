"""One PDF from many placed pages: ink on one cairo surface, pictures laid under it once each."""

from __future__ import annotations

import hashlib
import io
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from pypdf import PdfWriter
from pypdf.generic import (
    ArrayObject,
    BooleanObject,
    ByteStringObject,
    DictionaryObject,
    NameObject,
    TextStringObject,
    create_string_object,
)

from bookmaker.drawing import ArtMark, Group, Ink, draw
from bookmaker.model import Jump, Picture, PlacedPage
from bookmaker.pictures import grey_pdf
from bookmaker.press.art import ArtStore
from bookmaker.press.fonts import load_cairo
from bookmaker.press.paint import FIGURE, Context, paint_groups

MM = 72 / 25.4
"""One millimetre in points."""

PRODUCER = "bookmaker"


@dataclass(frozen=True, slots=True)
class Document:
    """What a PDF says of itself. ``date`` is None where the file shall carry no date."""

    title: str
    language: str
    author: str = ""
    subject: str = ""
    date: datetime | None = None


def press(
    pages: Sequence[PlacedPage],
    ink: Ink,
    pictures: Mapping[str, Picture],
    document: Document,
    fonts: Path,
    tick: Callable[[], None] = lambda: None,
) -> bytes:
    """Print ``pages`` and give the PDF's bytes: the same input gives the same bytes.

    ``pictures`` by digest; ``fonts`` is a folder for the font list; ``tick`` is called once a
    page. Raises PressPartMissing where cairo is not installed.
    """
    drawn = [draw(page, ink) for page in pages]
    inked = _ink_pdf(pages, drawn, fonts, tick)
    inked = grey_pdf(inked) if ink.grey else inked
    writer = PdfWriter(clone_from=io.BytesIO(inked))
    writer.pdf_header = "%PDF-1.7"
    store = ArtStore(writer, pictures, ink, _widest(drawn))
    for page, placed, groups in zip(writer.pages, pages, drawn, strict=True):
        store.lay_under(page, placed.height, _art(groups))
    _describe_figures(writer, [mark.alt for groups in drawn for mark in _art(groups) if mark.alt])
    _describe(writer, document)
    writer._ID = _identifier(inked, pictures)
    finished = io.BytesIO()
    writer.write(finished)
    return finished.getvalue()


def _art(groups: tuple[Group, ...]) -> list[ArtMark]:
    return [mark for group in groups for mark in group.marks if isinstance(mark, ArtMark)]


def _widest(drawn: Sequence[tuple[Group, ...]]) -> dict[str, float]:
    """The greatest width in millimetres at which each picture is printed in full."""
    widths: dict[str, float] = {}
    for groups in drawn:
        for mark in _art(groups):
            if not mark.small:
                widths[mark.picture] = max(widths.get(mark.picture, 0.0), mark.box.width)
    return widths


def _ink_pdf(
    pages: Sequence[PlacedPage],
    drawn: Sequence[tuple[Group, ...]],
    fonts: Path,
    tick: Callable[[], None],
) -> bytes:
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
        tick()
    surface.finish()
    return stream.getvalue()


def _jump(context: Context, jump: Jump) -> None:
    box = jump.box
    corners = f"{box.x:.2f} {box.y:.2f} {box.width:.2f} {box.height:.2f}"
    context.tag_begin("Link", f"rect=[{corners}] dest='{jump.target}'")
    context.tag_end("Link")


def _describe_figures(writer: PdfWriter, texts: list[str]) -> None:
    """Give each picture its alternative text; cairo writes the tags but knows no texts for them."""
    root = writer.root_object.get("/StructTreeRoot")
    if root is None or not texts:
        return
    waiting = iter(texts)
    pending = [root.get_object()]
    while pending:
        element = pending.pop(0)
        if element.get("/S") == f"/{FIGURE}":
            element[NameObject("/Alt")] = create_string_object(next(waiting))
        kids = element.get("/K")
        kids = kids.get_object() if kids is not None else []
        if isinstance(kids, DictionaryObject):
            kids = [kids]
        if isinstance(kids, ArrayObject | list):
            inner = [kid.get_object() for kid in kids]
            pending = [kid for kid in inner if isinstance(kid, DictionaryObject)] + pending


def _describe(writer: PdfWriter, document: Document) -> None:
    root = writer.root_object
    root[NameObject("/Lang")] = TextStringObject(document.language)
    root[NameObject("/PageLayout")] = NameObject("/SinglePage")
    root[NameObject("/PageMode")] = NameObject("/UseOutlines")
    root[NameObject("/ViewerPreferences")] = DictionaryObject(
        {
            NameObject("/DisplayDocTitle"): BooleanObject(True),
            NameObject("/PrintScaling"): NameObject("/None"),
        }
    )
    facts = {
        "/Title": document.title,
        "/Author": document.author,
        "/Subject": document.subject,
        "/Producer": PRODUCER,
        "/Creator": PRODUCER,
        "/CreationDate": _pdf_date(document.date) if document.date else "",
    }
    writer.metadata = None
    writer.add_metadata({key: value for key, value in facts.items() if value})


def _pdf_date(date: datetime) -> str:
    """ISO 32000-1, 7.9.4, in universal time."""
    return date.astimezone(UTC).strftime("D:%Y%m%d%H%M%SZ")


def _identifier(ink: bytes, pictures: Mapping[str, Picture]) -> ArrayObject:
    """A file identifier made from the content (ISO 32000-1, 14.4), so that builds repeat."""
    mark = hashlib.sha256(ink + "".join(sorted(pictures)).encode()).digest()[:16]
    return ArrayObject((ByteStringObject(mark), ByteStringObject(mark)))
