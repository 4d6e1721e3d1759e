"""A proof: one page as it will print, as a picture for the teacher's eye."""

from __future__ import annotations

import io
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from bookmaker.compile import Prepared, prepare
from bookmaker.context import BuildContext, BuildOptions
from bookmaker.layout import Setting, lay_out, lay_out_grid, tight_gaps
from bookmaker.model import (
    BoundBook,
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
from bookmaker.reading import is_called, sketch
from bookmaker.words import load

DPI = 150


@dataclass(frozen=True, slots=True)
class Proof:
    """A proof's file name (without its folder), its PNG, and warnings found on the way.

    ``arts`` are the pictures that were read, ``marked`` says whether a gap was found tight.
    """

    name: str
    png: bytes
    arts: tuple[Path, ...]
    problems: tuple[Problem, ...] = ()
    marked: bool = False


def proof_page(
    manifest: Path, page: str, paper: str | None, clearances: bool, context: BuildContext
) -> Proof:
    """One page of a book or chapter as it will print, its tight gaps marked if asked for.

    Raises NotInBook, or InputProblems where the page itself has problems.
    """
    prepared = prepare(manifest, BuildOptions(paper), context)
    ordered = _page_alone(prepared, page)
    certified = ordered.pages[0]
    page_id = certified.id
    mine = [p for p in prepared.problems if p.page == certified.name]
    if page_id not in prepared.puzzles:
        raise InputProblems(mine)
    side = Side(page_id, "", True, Puzzle(certified))
    bound = BoundBook(ordered, (side,))
    words = load(ordered.language)
    setting = Setting(ordered.paper, words, bound, prepared.pictures, prepared.puzzles)
    placed = lay_out(side, setting)
    gaps = tight_gaps(prepared.puzzles[page_id], certified) if clearances else ()
    placed = replace(placed, items=(*placed.items, *gaps))
    pictures = {picture.digest: picture for picture in prepared.pictures.values()}
    name = _file_name(page_id, "clearances" if clearances else "", prepared)
    png = _png(placed, pictures, context)
    return Proof(name, png, tuple(prepared.pictures), tuple(mine), bool(gaps))


def _file_name(page_id: str, kind: str, prepared: Prepared) -> str:
    """What is a variant says so in its name, and never overwrites another."""
    assert prepared.book is not None
    paper = prepared.book.paper if prepared.book.paper != prepared.own_paper else ""
    words = [word for word in (kind, paper) if word]
    return file_name(page_id, words, {page.id for page in prepared.book.pages}) + ".png"


def _page_alone(prepared: Prepared, page: str) -> OrderedBook:
    if prepared.ordered is None:
        raise InputProblems(prepared.problems)
    told = [p for p in prepared.problems if is_called(p.page, page)]
    if told and not any(is_called(found.name, page) for found in prepared.ordered.pages):
        raise InputProblems(told)
    return take_part(prepared.ordered, Part(pages=(page,)))[0]


def proof_grid(manifest: Path, page: str, paper: str | None, context: BuildContext) -> Proof:
    """The bare picture of a page under a grid of per cents, to read coordinates off.

    The page needs a name and art, nothing else. Raises NotInBook and InputProblems.
    """
    found = sketch(manifest, page)
    picture = take_in([found.art], cache=context.cache)[found.art]
    if isinstance(picture, PictureFault):
        fault = Problem(
            found.file, found.line, found.name, picture.code, picture.message, picture.mend
        )
        raise InputProblems([fault])
    placed = lay_out_grid(picture, paper or "a4")
    name = f"{file_name(found.id, ('grid',), found.pages)}.png"
    return Proof(name, _png(placed, {picture.digest: picture}, context), (found.art,))


def _png(placed: PlacedPage, pictures: Mapping[str, Picture], context: BuildContext) -> bytes:
    """The page printed, and the print turned into a picture."""
    import pypdfium2  # slow to import

    document = Document(placed.name, "en")
    printed = press([placed], INKS["full"], pictures, document, context.cache)
    pdf = pypdfium2.PdfDocument(bytes(printed))
    try:
        image = pdf[0].render(scale=DPI / 72).to_pil()
    finally:
        pdf.close()
    stream = io.BytesIO()
    image.save(stream, "PNG", dpi=(DPI, DPI))
    return stream.getvalue()
