"""Keeping: what becomes of one picture of a drawing sheet.

The class's folder as it is in, the files to write and what to tell out. The same drawing again
replaces the first where it is the better picture; another drawing on the same sheet (an office that
copied one sheet thirty times) is kept beside it, and the teacher is asked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal

from PIL import Image

from bookmaker.classroom.made import NAME as MADE
from bookmaker.classroom.made import Made, read_made, with_made, write_made
from bookmaker.classroom.register import NAME as REGISTER
from bookmaker.classroom.register import read_register
from bookmaker.classroom.review import (
    NAME,
    Reviewed,
    drawing_file,
    read_review,
    strip_file,
    write_review,
)
from bookmaker.classroom.sheet_page import rings_of
from bookmaker.model import Classroom, Point, SheetEntry
from bookmaker.reading import delimiter_of
from bookmaker.scanning.compare import better, has_lost_colour, same_drawing
from bookmaker.scanning.drawing_png import write_png
from bookmaker.scanning.find import Reason, Refused
from bookmaker.scanning.rings import find_rings
from bookmaker.scanning.sources import SPOILT, Source
from bookmaker.scanning.take import Taken

Fate = Literal["new", "better", "no-better", "another", "spare", "not-in-roster", "no", "refused"]
OF_OTHERS: tuple[Reason, ...] = ("other-class", "older-format", "newer-format")
"""Why a picture is refused whose sheet's number may be that of another class."""
KEPT: tuple[Fate, ...] = ("new", "better", "another")


@dataclass(frozen=True, slots=True)
class Finding:
    """What one picture was, and what became of it. ``drawing`` is "" where none was kept."""

    source: Source
    fate: Fate
    sheet: int = 0
    pupil: str = ""
    drawing: str = ""
    faults: tuple[str, ...] = ()
    blur: float = 0.0
    dpi: float = 0.0
    refused: Refused | None = None


@dataclass(frozen=True, slots=True)
class Shelf:
    """A class's folder as intake needs it. ``delimiter`` parts the cells of its review: what the
    teacher's spreadsheet wrote into it last, or into the roster."""

    classroom: Classroom
    register: Sequence[SheetEntry]
    rows: tuple[Reviewed, ...]
    made: tuple[Made, ...] = ()
    delimiter: str = ","

    @property
    def review(self) -> bytes:
        return write_review(self.rows, self.delimiter)

    @property
    def folder(self) -> Path:
        return self.classroom.folder


def read_shelf(classroom: Classroom) -> Shelf:
    """The class's folder as it is. Whose a drawing is the register says, and the review only where
    no register does. Raises InputProblems."""
    register = read_register(classroom.folder / REGISTER)
    entries = {entry.sheet: entry for entry in register}
    rows = (_fixed(row, entries.get(row.sheet)) for row in read_review(classroom.folder))
    review = classroom.folder / NAME
    spreadsheet = review if review.exists() else Path(classroom.roster_file)
    made = read_made(classroom.folder)
    return Shelf(classroom, register, tuple(rows), made, delimiter_of(spreadsheet))


def _fixed(row: Reviewed, entry: SheetEntry | None) -> Reviewed:
    return replace(row, pupil=entry.pupil, page=entry.page) if entry else row


@dataclass(frozen=True, slots=True)
class Kept:
    """The shelf after one picture, the files to write for it (none: nothing changes)."""

    shelf: Shelf
    finding: Finding
    files: tuple[tuple[Path, bytes], ...] = ()


def keep(shelf: Shelf, source: Source, outcome: Taken | Refused) -> Kept:
    """Decide about one picture. Reads the drawings of the same sheet, writes nothing."""
    if isinstance(outcome, Refused):
        sheet = outcome.sheets[0] if len(outcome.sheets) == 1 else 0
        whose = "" if outcome.reason in OF_OTHERS else _pupil_of(shelf, sheet)
        found = Finding(source, "refused", sheet, whose, refused=outcome)
        return _noted(shelf, found, () if outcome.reason in OF_OTHERS else outcome.sheets)
    taken = replace(outcome, blur=round(outcome.blur, 2), dpi=round(outcome.dpi))  # as it is kept
    entry = next(row for row in shelf.register if row.sheet == taken.sheet)
    found = Finding(
        source,
        "new",
        taken.sheet,
        entry.pupil,
        faults=taken.faults,
        blur=taken.blur,
        dpi=taken.dpi,
    )
    pupil = shelf.classroom.pupil(entry.pupil) if entry.pupil else None
    if pupil is None:
        fate: Fate = "not-in-roster" if entry.pupil else "spare"
        return _noted(shelf, replace(found, fate=fate), (taken.sheet,))
    if pupil.drawing == "no":
        return _noted(shelf, replace(found, fate="no"), (taken.sheet,))
    there = [row for row in shelf.rows if row.sheet == taken.sheet]
    for row in there:
        told = _told_apart(shelf.folder, row, taken)
        if told == "no-better":
            return _seen(shelf, replace(found, fate=told, drawing=row.drawing), row)
        if told == "better":
            return _stored(shelf, replace(found, fate=told, drawing=row.drawing), taken, entry)
    name = _name(taken.sheet, there)
    fate = "another" if there else "new"
    return _stored(shelf, replace(found, fate=fate, drawing=name), taken, entry)


def _pupil_of(shelf: Shelf, sheet: int) -> str:
    return next((row.pupil for row in shelf.register if row.sheet == sheet), "")


def _noted(shelf: Shelf, found: Finding, sheets: Sequence[int]) -> Kept:
    """Nothing is kept of a picture but that it showed ``sheets``, for when one is forgotten."""
    made = with_made(shelf.made, Made("scan", found.source.file, tuple(sheets)))
    if not sheets or set(made) == set(shelf.made):
        return Kept(shelf, found)
    return Kept(replace(shelf, made=made), found, ((shelf.folder / MADE, write_made(made)),))


def swept(shelf: Shelf) -> tuple[Shelf, tuple[Path, ...]]:
    """The shelf without the drawings that the roster says no to by now, and their files."""
    pupils = {row.sheet: shelf.classroom.pupil(row.pupil) for row in shelf.register if row.pupil}
    gone = [r for r in shelf.rows if (p := pupils.get(r.sheet)) and p.drawing == "no"]
    rows = tuple(row for row in shelf.rows if row not in gone)
    files = [file(shelf.folder, r.drawing) for r in gone for file in (drawing_file, strip_file)]
    made = shelf.made
    for row in gone:
        for scan in filter(None, (row.scan, *row.others)):
            made = with_made(made, Made("scan", scan, (row.sheet,)))
    return replace(shelf, rows=rows, made=made), tuple(files)


def _seen(shelf: Shelf, found: Finding, row: Reviewed) -> Kept:
    """The drawing stays; that another file shows it is written down, for when it is forgotten."""
    if found.source.file in (row.scan, *row.others):
        return Kept(shelf, found)
    rows = _with(shelf.rows, replace(row, others=(*row.others, found.source.file)))
    shelf = replace(shelf, rows=rows)
    return Kept(shelf, found, ((shelf.folder / NAME, shelf.review),))


def _with(rows: Sequence[Reviewed], row: Reviewed) -> tuple[Reviewed, ...]:
    """``rows`` with ``row`` in place of the one of its drawing."""
    others = (each for each in rows if each.drawing != row.drawing)
    return tuple(sorted((*others, row), key=lambda each: each.place))


def _stored(shelf: Shelf, found: Finding, taken: Taken, entry: SheetEntry) -> Kept:
    before = next((row for row in shelf.rows if row.drawing == found.drawing), None)
    earlier = dict.fromkeys((before.scan, *before.others)) if before else {}
    rings = _rings(taken, entry, before)
    if len(rings) < rings_of(entry.page):
        found = replace(found, faults=(*found.faults, "rings"))
    row = Reviewed(
        found.drawing,
        entry.pupil,
        entry.page,
        before.use if before else "",
        taken.faults,
        taken.blur,
        taken.dpi,
        found.source.file,
        tuple(file for file in earlier if file and file != found.source.file),
        rings,
    )
    shelf = replace(shelf, rows=_with(shelf.rows, row))
    folder = shelf.folder
    files = (
        (strip_file(folder, row.drawing), write_png(taken.name_strip, taken.scale)),
        (drawing_file(folder, row.drawing), write_png(taken.drawing, taken.scale)),
        (folder / NAME, shelf.review),
    )
    return Kept(shelf, found, files)


def _rings(taken: Taken, entry: SheetEntry, before: Reviewed | None) -> tuple[Point, ...]:
    """Where a free sheet's rings are; what the review had of them stays if it had all."""
    count = rings_of(entry.page)
    if before and len(before.rings) >= count:
        return before.rings
    if not count:
        return ()
    found = find_rings(Image.fromarray(taken.drawing), taken.scale, count)
    return tuple((ring.x, ring.y) for ring in found)


def _told_apart(folder: Path, row: Reviewed, taken: Taken) -> Fate:
    """Whether ``taken`` is another drawing than the one of ``row``, or a better picture of it."""
    new = Image.fromarray(taken.drawing)
    try:
        with Image.open(drawing_file(folder, row.drawing)) as picture:
            kept = picture.convert("RGB")
    except SPOILT:
        return "better"  # not only bookmaker has the file in hand, and somebody spoilt it
    if not same_drawing(kept, new):
        return "another"
    if has_lost_colour(kept, new):
        return "better"
    return "better" if not has_lost_colour(new, kept) and _is_better(taken, row) else "no-better"


def _is_better(taken: Taken, row: Reviewed) -> bool:
    """Whether ``taken`` is a better picture than the one that is kept, as the review has it."""
    kept = row if row.dpi else replace(row, blur=9.0, dpi=1.0)
    return better(taken, kept)


def _name(sheet: int, there: Sequence[Reviewed]) -> str:
    if not there:
        return str(sheet)
    return f"{sheet}_{max(row.place[1] for row in there) + 1}"
