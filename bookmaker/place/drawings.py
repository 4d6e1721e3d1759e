"""A class's drawings: each on its own page, as it would print, with what was found of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from bookmaker.cache import BorrowedCache, Cache
from bookmaker.classroom.drawn_page import drawn_page
from bookmaker.classroom.keeping import Shelf, read_shelf, taken_back
from bookmaker.classroom.print_sheets import read_classroom
from bookmaker.classroom.review import NAME, Reviewed, drawing_file, strip_file
from bookmaker.classroom.sheet_page import rings_of
from bookmaker.classroom.verdicts import quality
from bookmaker.layout import PlacedPuzzle, lowered, place_drawn
from bookmaker.locking import alone_in
from bookmaker.model import Book, CertifiedPage, InputProblems, Page, Picture, Point, Problem
from bookmaker.output import write_all
from bookmaker.pdf import INKS
from bookmaker.pdf.svg_page import page_svg
from bookmaker.pictures import PictureFault, take_in
from bookmaker.place.bench import as_side
from bookmaker.place.edits import Refused
from bookmaker.placement import NoCleanLayout
from bookmaker.puzzle import certify_pages
from bookmaker.reading import open_manifest
from bookmaker.scanning.sheet_plan import sheet_plan
from bookmaker.typeset import Sheet, sheet_of
from bookmaker.words import Words, load

SAID = ("yes", "no", "")
PATIENCE = 20.0
"""Seconds that an answer may wait for another run."""
Record = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Drawings:
    """The class's folder, read anew for each answer; nothing of it stays in the cache."""

    manifest: Path
    cache: Cache
    seed: int

    @property
    def book(self) -> Book:
        """Raises InputProblems."""
        classroom, _ = read_classroom(self.manifest)
        reading = open_manifest(classroom.book)
        if reading.book is None:
            raise InputProblems(reading.problems)
        return reading.book

    def shelf(self) -> Shelf:
        """Raises Refused where the review can't be read: nothing is written over then."""
        try:
            classroom, _ = read_classroom(self.manifest)
            return taken_back(read_shelf(classroom))[0]
        except InputProblems as error:
            raise Refused("place.review.unreadable") from error

    def rows(self) -> list[Record]:
        """The row of drawings."""
        book, words = self.book, load(self.book.language)
        titles = {page.id: page.name for page in book.pages}
        return [_row(row, titles, words) for row in self.shelf().rows]

    def find(self, drawing: str) -> Reviewed:
        """Raises KeyError."""
        return _find(self.shelf(), drawing)

    def show(self, drawing: str) -> tuple[Record, list[Picture]]:
        """A drawing on its page, and the pictures that go with it."""
        book, shelf = self.book, self.shelf()
        words, row = load(book.language), _find(shelf, drawing)
        picture = self._picture(drawing_file(shelf.folder, drawing))
        strip = self._picture(strip_file(shelf.folder, drawing))
        titles = {page.id: page.name for page in book.pages}
        record = {**_row(row, titles, words), "rings": [], "svg": None, "box": None, "size": None}
        if rings_of(row.page) or picture is None:
            record |= _free(row, shelf)
        else:
            record |= self._on_page(row, shelf, book, picture)
        record["picture"] = picture.digest if picture else None
        record["strip"] = strip.digest if strip else None
        return record, [each for each in (picture, strip) if each]

    def write(self, drawing: str, **said: Any) -> Reviewed:
        """Say something of one drawing, in the table as it is by now; gives what stood before.

        What is said with ``seen``, the digest of what was shown, holds for that picture alone.
        Raises Held where another run has the class's folder and keeps it.
        """
        with alone_in(self.manifest.parent, lambda: None, PATIENCE):
            shelf = self.shelf()
            before = _find(shelf, drawing)
            rows = tuple(replace(r, **said) if r.drawing == drawing else r for r in shelf.rows)
            changed = replace(shelf, rows=rows)
            write_all([(shelf.folder / NAME, changed.review)], fixed=True)
        return before

    def _picture(self, file: Path) -> Picture | None:
        found = take_in([file], cache=BorrowedCache(self.cache))[file]
        return None if isinstance(found, PictureFault) else found

    def _on_page(self, row: Reviewed, shelf: Shelf, book: Book, picture: Picture) -> Record:
        """The page of the book with the drawing on it; the drawing alone where that can't be."""
        entry = next((each for each in shelf.register if each.sheet == row.sheet), None)
        pupil = shelf.classroom.pupil(entry.pupil) if entry and entry.pupil else None
        page = next((each for each in book.pages if each.id == row.page), None)
        if entry is None or pupil is None or page is None:
            return _free(row, shelf)
        words = load(book.language)
        made = drawn_page(page, entry, pupil, drawing_file(shelf.folder, row.drawing), words)
        if isinstance(made, Problem):
            return _free(row, shelf)
        placed = self._placed(made, picture, sheet_of(book), words)
        if placed is None:
            return _free(row, shelf)
        certified, puzzle = placed
        side = as_side(certified, puzzle, words)
        box = puzzle.art.box if puzzle.art else puzzle.frame
        return {
            "svg": page_svg(side, INKS["full"], {}),
            "size": [side.width, side.height],
            "box": [box.x, box.y, box.width, box.height],
        }

    def _placed(
        self, page: Page, picture: Picture, sheet: Sheet, words: Words
    ) -> tuple[CertifiedPage, PlacedPuzzle] | None:
        certified, _ = certify_pages([page], self.cache, self.seed)
        if page.id not in certified:
            return None
        mine = certified[page.id]
        try:
            return mine, lowered(place_drawn(mine, picture, sheet, words))
        except NoCleanLayout:
            return None


def rings_from(value: object, count: int) -> tuple[Point, ...] | None:
    """Rings out of JSON: as many pairs of millimetres; None where that is not what it is."""
    if not isinstance(value, list) or len(value) != count:
        return None
    found = []
    for pair in value:
        if not isinstance(pair, list) or len(pair) != 2:
            return None
        if not all(isinstance(v, int | float) and 0 <= v <= 1000 for v in pair):
            return None
        found.append((round(float(pair[0]), 1), round(float(pair[1]), 1)))
    return tuple(found)


def _find(shelf: Shelf, drawing: str) -> Reviewed:
    for row in shelf.rows:
        if row.drawing == drawing:
            return row
    raise KeyError(drawing)


def _row(row: Reviewed, titles: dict[str, str], words: Words) -> Record:
    lacking = ("rings",) if len(row.rings) < rings_of(row.page) else ()
    page = words("sheets.free") if rings_of(row.page) else titles.get(row.page, row.page)
    return {
        "drawing": row.drawing,
        "pupil": row.pupil,
        "page": page,
        "use": row.use,
        "quality": quality((*row.faults, *lacking), words),
        "faulty": bool(row.faults or lacking),
    }


def _free(row: Reviewed, shelf: Shelf) -> Record:
    """The drawing alone, with the rings of a free sheet: millimetres from its top left."""
    papers = {entry.sheet: entry.paper for entry in shelf.register}
    frame = sheet_plan(papers.get(row.sheet, "a4")).frame
    return {
        "size": [frame.width, frame.height],
        "box": [0.0, 0.0, frame.width, frame.height],
        "rings": [list(ring) for ring in row.rings],
    }
