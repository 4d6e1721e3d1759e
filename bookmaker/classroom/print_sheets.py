"""Drawing sheets: a class's manifest in, its sheets, its hand-out list and its register out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from bookmaker.cache import MemoryCache
from bookmaker.classroom.forgotten import read_forgotten
from bookmaker.classroom.hand_out import list_pages
from bookmaker.classroom.issuing import NoSuchSheet, Wish, issue
from bookmaker.classroom.keeping import refuse_another_class
from bookmaker.classroom.made import Made, read_made
from bookmaker.classroom.moving import Move, moves_of
from bookmaker.classroom.redaction import redacted
from bookmaker.classroom.register import NAME, read_register, write_register
from bookmaker.classroom.review import Reviewed, read_rows
from bookmaker.classroom.sheet_page import sheet_page
from bookmaker.compile import Prepared, prepare
from bookmaker.context import BuildContext, BuildOptions
from bookmaker.layout import refusal, tree_for_sheet
from bookmaker.model import Classroom, Drawn, InputProblems, PlacedPage, Problem, SheetEntry
from bookmaker.pdf import INKS, Document, check_pdf, press
from bookmaker.placement import NoCleanLayout
from bookmaker.reading import read_class
from bookmaker.scanning.sheet_plan import new_class_code, sheet_plan
from bookmaker.typeset import missing_in_names, sheet_of
from bookmaker.words import load

LETTER = ("letter", "half-letter")
"""Papers of a book whose drawing sheets are on letter; those of all others are on A4."""


@dataclass(frozen=True, slots=True)
class PrintedSheets:
    """What is to be written: the sheets' PDF, the list's, the register's bytes; and what is to be
    told: which sheets are new, which are in the PDF (``printed``), warnings. ``moves`` are
    drawings on copied sheets that get a number of their own."""

    classroom: Classroom
    sheets: bytes
    hand_out: bytes
    register: bytes
    entries: tuple[SheetEntry, ...]
    new: tuple[int, ...]
    problems: tuple[Problem, ...]
    made: tuple[Made, ...]
    moves: tuple[Move, ...]
    printed: tuple[int, ...]


def read_classroom(manifest: Path, *, whole: bool = True) -> tuple[Classroom, tuple[Problem, ...]]:
    """A class with the warnings about it; raises InputProblems where something is wrong."""
    reading = read_class(manifest, whole=whole)
    if reading.classroom is None:
        raise InputProblems(reading.problems)
    return reading.classroom, reading.problems


def print_sheets(
    manifest: Path, wish: Wish, context: BuildContext, new_alone: bool = False
) -> PrintedSheets:
    """Give every pupil of the class a sheet, and print all sheets of the register, or the new ones.

    ``wish.paper`` may be "": the sheets' paper then goes with the book's. Raises InputProblems,
    NoSuchSheet.
    """
    classroom, told = read_classroom(manifest)
    if not classroom.pupils:
        message = "the class has no roster, so nobody is there to have a sheet"
        mend = 'Write a line like roster = "roster.csv", and the pupils into that table.'
        raise InputProblems([Problem(classroom.file, 0, "", "missing-key", message, mend)])
    prepared = prepare(classroom.book, BuildOptions(), context)
    if prepared.ordered is None or not prepared.is_sound:
        raise InputProblems((*told, *prepared.problems))
    book = prepared.ordered
    register = read_register(classroom.folder / NAME)
    reviewed = [row for rows in read_rows(classroom.folder) for row in rows]
    refuse_another_class(classroom.folder, register, reviewed)
    _check_copies(wish, reviewed)
    made = read_made(classroom.folder)
    wish = replace(wish, paper=wish.paper or ("letter" if book.paper in LETTER else "a4"))
    code = register[0].class_code if register else new_class_code()
    highest = max([0, *(row.sheet for row in register), *(n for one in made for n in one.sheets)])
    tree_of = _trees(prepared, wish.paper)
    issued = issue(classroom, prepared.ordered.pages, register, wish, (code, highest), tree_of)
    problems = (*told, *missing_in_names(classroom), *issued.problems)
    problems += _of_another_book(classroom, prepared, register)
    if any(problem.severity == "problem" for problem in problems):
        raise InputProblems(problems)
    words = load(book.language)
    titles = {page.id: page.name for page in prepared.ordered.pages}
    listed = list_pages(issued.register, titles, wish.paper, words)
    copied = {number for _, number in issued.copies} | {r.sheet for r in reviewed if r.copied}
    printed = [e for e in issued.register if e.sheet not in copied]
    printed = [e for e in printed if e.sheet in issued.new] if new_alone else printed
    sheets = [sheet_page(entry, words) for entry in printed]
    title = redacted(classroom, read_forgotten(classroom.folder))[0].title or book.title
    document = Document(title, book.language, date=context.date)
    return PrintedSheets(
        classroom,
        _pressed(sheets, document, context) if sheets else b"",
        _pressed(listed, document, replace(context, cache=MemoryCache())),  # names
        write_register(issued.register),
        issued.register,
        issued.new,
        problems,
        made,
        moves_of(classroom, issued.copies, issued.register),
        tuple(entry.sheet for entry in printed),
    )


def _check_copies(wish: Wish, reviewed: Sequence[Reviewed]) -> None:
    """Raises NoSuchSheet for a drawing that is not there."""
    known = {row.drawing for row in reviewed}
    for drawing, _ in wish.copies:
        if drawing not in known:
            raise NoSuchSheet(f"There is no drawing {drawing} in review.csv.")


def _pressed(pages: Sequence[PlacedPage], document: Document, context: BuildContext) -> bytes:
    """In full ink always: pale marks must vanish later, and codes be read."""
    pdf = bytes(press(pages, INKS["full"], {}, document, context.cache))
    check_pdf(pdf, pages)
    return pdf


def _trees(prepared: Prepared, paper: str) -> Callable[[str], Drawn | Problem]:
    """Lays a page out for a sheet on ``paper``, by the page's id."""
    assert prepared.ordered is not None
    book = prepared.ordered
    pages = {page.id: page for page in prepared.ordered.pages}
    frame = sheet_plan(paper).frame
    words = load(book.language)

    def tree_of(page_id: str) -> Drawn | Problem:
        page = pages[page_id]
        shape = (frame.width, frame.height)
        try:
            return tree_for_sheet(page, shape, sheet_of(book), words)
        except NoCleanLayout as refused:
            return refusal(page, refused)

    return tree_of


def _of_another_book(
    classroom: Classroom, prepared: Prepared, register: Sequence[SheetEntry]
) -> tuple[Problem, ...]:
    assert prepared.ordered is not None
    known = {page.id for page in prepared.ordered.pages}
    pages = {row.page for row in register if ":" not in row.page}
    if not pages or pages & known:
        return ()
    file = str(classroom.folder / NAME)
    message = f"the register is of another book: none of its pages is in {classroom.book}"
    mend = "Name that book in class.toml, or move the register away to begin a new class."
    return (Problem(file, 0, "", "bad-register", message, mend),)
