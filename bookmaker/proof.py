"""Proofs: pages as they will print, or bare under a grid, as pictures for the teacher's eye."""

from __future__ import annotations

import io
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from PIL import Image
from PIL.PngImagePlugin import PngInfo

from bookmaker.classroom.class_book import Edition
from bookmaker.compile import Prepared, prepare
from bookmaker.context import BuildContext, BuildOptions
from bookmaker.layout import Setting, lay_out, lay_out_grid, tight_gaps
from bookmaker.model import (
    BoundBook,
    CertifiedPage,
    InputProblems,
    OrderedBook,
    Picture,
    PlacedPage,
    Problem,
    Puzzle,
    Side,
)
from bookmaker.ordering import Part, file_name, take_part
from bookmaker.pdf import INKS, Document, press
from bookmaker.pictures import PictureFault, take_in
from bookmaker.pictures.folder import MAKER
from bookmaker.reading import Sketch, is_called, sketch, sketches
from bookmaker.words import load

DPI = 150
SMALL = 320
"""Longer side of a page on a contact sheet, pixels."""
GAP = 12
MOST_ACROSS = 8
TABLE = (120, 116, 108)
"""What the pages of a contact sheet lie on."""


@dataclass(frozen=True, slots=True)
class Asked:
    """Of which page (None: of all), on which paper, "grid" or "clearances", in one picture, with
    which class's drawings?"""

    page: str | None = None
    paper: str | None = None
    kind: str = ""
    sheet: bool = False
    edition: Edition | None = None


@dataclass(frozen=True, slots=True)
class Proofs:
    """Files' names (without their folder) and PNGs, and warnings found on the way.

    ``arts`` are the pictures that were read, ``marked`` says whether a gap was found tight,
    ``sheets`` are those whose drawings are in them.
    """

    files: tuple[tuple[str, bytes], ...]
    arts: tuple[Path, ...]
    problems: tuple[Problem, ...] = ()
    marked: bool = False
    sheets: tuple[int, ...] = ()


def proofs(manifest: Path, asked: Asked, context: BuildContext) -> Proofs:
    """Pages of a book or a chapter, each a picture, or all on one contact sheet.

    For a grid a page needs a name and art, nothing else. Raises NotInBook, NoSketch, or
    InputProblems where the page itself, or one of all pages, has problems.
    """
    laid = (
        _grids(manifest, asked, context)
        if asked.kind == "grid"
        else _pages(manifest, asked, context)
    )
    context = context.for_edition(asked.edition)
    images = _printed([page for _, page in laid.pages], laid.pictures, context, asked.sheet)
    names = [name for name, _ in laid.pages]
    if asked.sheet:
        names = [file_name(laid.name, _words(asked, "sheet"), laid.ids)]
        images = iter([_sheet(list(images))])
    made = tuple((f"{name}.png", _png(image)) for name, image in zip(names, images, strict=True))
    return Proofs(made, laid.arts, laid.problems, laid.marked, laid.sheets)


@dataclass(frozen=True, slots=True)
class _Laid:
    """Placed pages with the names of their files, and what they are printed with."""

    name: str
    pages: tuple[tuple[str, PlacedPage], ...]
    ids: frozenset[str]
    pictures: Mapping[str, Picture]
    arts: tuple[Path, ...]
    problems: tuple[Problem, ...] = ()
    marked: bool = False
    sheets: tuple[int, ...] = ()


def _words(asked: Asked, *words: str) -> tuple[str, ...]:
    room = asked.edition.manifest.resolve().parent.name if asked.edition else ""
    return tuple(word for word in (room, *words, asked.kind) if word)


def _pages(manifest: Path, asked: Asked, context: BuildContext) -> _Laid:
    """Pages as they will print, their tight gaps marked if asked for."""
    prepared = prepare(manifest, BuildOptions(asked.paper, edition=asked.edition), context)
    ordered = _wanted(prepared, asked.page)
    mine = {page.name for page in ordered.pages} if asked.page else set()
    told = tuple(p for p in prepared.problems if not mine or p.page in mine)
    if any(page.id not in prepared.puzzles for page in ordered.pages):
        raise InputProblems(told)
    assert prepared.book is not None
    ids = frozenset(page.id for page in prepared.book.pages)
    other = prepared.book.paper if prepared.book.paper != prepared.own_paper else ""
    pages, marked = [], False
    for page in ordered.pages:
        placed = _placed(page, ordered, prepared)
        gaps = tight_gaps(prepared.puzzles[page.id], page) if asked.kind == "clearances" else ()
        marked = marked or bool(gaps)
        words = (*_words(asked), other) if other else _words(asked)
        name = file_name(page.id, words, ids)
        pages.append((name, replace(placed, items=(*placed.items, *gaps))))
    pictures = {picture.digest: picture for picture in prepared.pictures.values()}
    arts = tuple(prepared.pictures)
    sheets = tuple(sorted({page.sheet for page in ordered.pages if page.sheet}))
    return _Laid(prepared.book.name, tuple(pages), ids, pictures, arts, told, marked, sheets)


def _placed(page: CertifiedPage, ordered: OrderedBook, prepared: Prepared) -> PlacedPage:
    side = Side(page.id, "", True, Puzzle(page))
    bound = BoundBook(ordered, (side,))
    words = load(ordered.language)
    setting = Setting(ordered.paper, words, bound, prepared.pictures, prepared.puzzles)
    return lay_out(side, setting)


def _wanted(prepared: Prepared, page: str | None) -> OrderedBook:
    if prepared.ordered is None or (page is None and not prepared.is_sound):
        raise InputProblems(prepared.problems)
    if page is None:
        return prepared.ordered
    told = [p for p in prepared.problems if is_called(p.page, page)]
    if told and not any(is_called(found.name, page) for found in prepared.ordered.pages):
        raise InputProblems(told)
    return take_part(prepared.ordered, Part(pages=(page,)))[0]


def _grids(manifest: Path, asked: Asked, context: BuildContext) -> _Laid:
    """Bare pictures under a grid of per cents, with the spots that are set already."""
    found = sketches(manifest) if asked.page is None else (sketch(manifest, asked.page),)
    taken = take_in([each.art for each in found], cache=context.cache)
    faults = [_fault(each, taken[each.art]) for each in found]
    if any(faults):
        raise InputProblems(fault for fault in faults if fault)
    pictures = {art: picture for art, picture in taken.items() if isinstance(picture, Picture)}
    paper, pages = asked.paper or "a4", []
    for each in found:
        placed = lay_out_grid(pictures[each.art], paper, each.spots)
        pages.append((file_name(each.id, ("grid",), each.pages), replace(placed, name=each.id)))
    name = manifest.resolve().parent.name if manifest.stem == "book" else manifest.stem
    by_digest = {picture.digest: picture for picture in pictures.values()}
    return _Laid(name, tuple(pages), found[0].pages, by_digest, tuple(pictures))


def _fault(found: Sketch, taken: Picture | PictureFault) -> Problem | None:
    if isinstance(taken, Picture):
        return None
    return Problem(found.file, found.line, found.name, taken.code, taken.message, taken.mend)


def _printed(
    pages: Sequence[PlacedPage],
    pictures: Mapping[str, Picture],
    context: BuildContext,
    small: bool,
) -> Iterator[Image.Image]:
    """The pages printed, and each print turned into a picture."""
    import pypdfium2  # slow to import

    document = Document(pages[0].name, "en")
    pressed = press(pages, INKS["full"], pictures, document, context.cache)
    pdf = pypdfium2.PdfDocument(bytes(pressed))
    try:
        for page in pdf:
            size = max(page.get_width(), page.get_height())
            yield page.render(scale=SMALL / size if small else DPI / 72).to_pil()
    finally:
        pdf.close()


def _sheet(images: Sequence[Image.Image]) -> Image.Image:
    """All pages side by side, row by row."""
    across = min(MOST_ACROSS, math.ceil(math.sqrt(len(images) * 1.4)))
    wide = max(image.width for image in images) + GAP
    high = max(image.height for image in images) + GAP
    rows = -(-len(images) // across)
    sheet = Image.new("RGB", (across * wide + GAP, rows * high + GAP), TABLE)
    for place, image in enumerate(images):
        row, column = divmod(place, across)
        sheet.paste(image, (column * wide + GAP, row * high + GAP))
    return sheet


def _png(image: Image.Image) -> bytes:
    note = PngInfo()
    note.add_text("Software", MAKER)
    stream = io.BytesIO()
    image.save(stream, "PNG", dpi=(DPI, DPI), pnginfo=note)
    return stream.getvalue()
