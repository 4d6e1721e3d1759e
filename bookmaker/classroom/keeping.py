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
    digest_of,
    drawing_file,
    is_as_seen,
    read_rows,
    strip_file,
    write_review,
)
from bookmaker.classroom.sheet_page import rings_of
from bookmaker.model import Classroom, InputProblems, Point, Problem, SheetEntry
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
    """What one picture was, and what became of it. ``drawing`` is "" where none was kept; ``use``
    what the teacher had said to it: a yes that is taken back, or a no that stays."""

    source: Source
    fate: Fate
    sheet: int = 0
    pupil: str = ""
    drawing: str = ""
    use: str = ""
    faults: tuple[str, ...] = ()
    blur: float = 0.0
    dpi: float = 0.0
    refused: Refused | None = None


@dataclass(frozen=True, slots=True)
class Shelf:
    """A class's folder as intake needs it. ``gone`` are rows of the review whose drawings are not
    there; ``delimiter`` parts the cells of the review: what the teacher's spreadsheet wrote into
    it last, or into the roster."""

    classroom: Classroom
    register: Sequence[SheetEntry]
    rows: tuple[Reviewed, ...]
    gone: tuple[Reviewed, ...] = ()
    made: tuple[Made, ...] = ()
    delimiter: str = ","

    @property
    def review(self) -> bytes:
        return write_review((*self.rows, *self.gone), self.delimiter)

    @property
    def folder(self) -> Path:
        return self.classroom.folder


def read_shelf(classroom: Classroom) -> Shelf:
    """The class's folder as it is. Whose a drawing is the register says, and the review only where
    no register does. Raises InputProblems."""
    register = read_register(classroom.folder / REGISTER)
    entries = {entry.sheet: entry for entry in register}
    there, gone = read_rows(classroom.folder)
    refuse_another_class(classroom.folder, register, (*there, *gone))
    rows, lost = ([_fixed(row, entries.get(row.sheet)) for row in s] for s in (there, gone))
    review = classroom.folder / NAME
    spreadsheet = review if review.exists() else Path(classroom.roster_file)
    made = read_made(classroom.folder)
    return Shelf(classroom, register, tuple(rows), tuple(lost), made, delimiter_of(spreadsheet))


def missing(shelf: Shelf) -> list[str]:
    """Sheets that are out with a pupil whose drawing may be used, and have not come in: each with
    the pupil's name."""
    there = {row.sheet for row in shelf.rows}
    lacking = []
    for entry in shelf.register:
        pupil = shelf.classroom.pupil(entry.pupil) if entry.pupil else None
        if pupil and pupil.drawing != "no" and entry.sheet not in there:
            lacking.append(f"{entry.sheet} ({pupil.name})")
    return lacking


def refuse_another_class(
    folder: Path, register: Sequence[SheetEntry], rows: Sequence[Reviewed]
) -> None:
    """Raises InputProblems where drawings came in by a register of another class: this one would
    give them other pupils."""
    codes = {entry.class_code for entry in register}
    strange = [row for row in rows if row.class_code and row.class_code not in codes]
    if codes and strange:
        message = "the register is of another class than the drawings in review.csv "
        message += f"({', '.join(row.drawing for row in strange[:5])}); nothing was changed"
        mend = "Bring back the register that their sheets were printed with."
        file = str(folder / REGISTER)
        raise InputProblems([Problem(file, 0, "", "bad-register", message, mend)])


def taken_back(shelf: Shelf) -> tuple[Shelf, tuple[str, ...]]:
    """The shelf with the digests of the drawings as they are now, and without a yes that was said
    to other pixels; and whose yes that was."""
    changed = [row for row in shelf.rows if not is_as_seen(shelf.folder, row)]
    rows = tuple(_looked_at_again(shelf.folder, row, row in changed) for row in shelf.rows)
    return replace(shelf, rows=rows), tuple(row.drawing for row in changed if row.use == "yes")


def _looked_at_again(folder: Path, row: Reviewed, is_changed: bool) -> Reviewed:
    try:
        seen = digest_of(drawing_file(folder, row.drawing).read_bytes())
    except OSError:
        return row
    return replace(row, seen=seen, use="" if is_changed and row.use == "yes" else row.use)


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
    copies = [row for row in shelf.rows if row.copied == taken.sheet]
    for row in (*there, *copies):
        entry = next(each for each in shelf.register if each.sheet == row.sheet)
        found = replace(found, sheet=row.sheet, pupil=entry.pupil)
        told = _told_apart(shelf.folder, row, taken)
        if told == "no-better":
            return _seen(shelf, replace(found, fate=told, drawing=row.drawing), row)
        if told == "better":
            return _stored(shelf, replace(found, fate=told, drawing=row.drawing), taken, entry)
    entry = next(row for row in shelf.register if row.sheet == taken.sheet)
    found = replace(found, sheet=entry.sheet, pupil=entry.pupil)
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
    known = (*shelf.rows, *shelf.gone)
    gone = [row for row in known if (p := pupils.get(row.sheet)) and p.drawing == "no"]
    rows = tuple(row for row in shelf.rows if row not in gone)
    lost = tuple(row for row in shelf.gone if row not in gone)
    files = [file(shelf.folder, r.drawing) for r in gone for file in (drawing_file, strip_file)]
    made = shelf.made
    for row in gone:
        for scan in filter(None, (row.scan, *row.others)):
            made = with_made(made, Made("scan", scan, (row.sheet,)))
    return replace(shelf, rows=rows, gone=lost, made=made), tuple(files)


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
    known = (*shelf.rows, *shelf.gone)
    before = next((row for row in known if row.drawing == found.drawing), None)
    earlier = dict.fromkeys((before.scan, *before.others)) if before else {}
    rings = _rings(taken, entry, before)
    if len(rings) < rings_of(entry.page):
        found = replace(found, faults=(*found.faults, "rings"))
    picture = write_png(taken.drawing, taken.scale)
    use = before.use if before else ""
    is_another = before is not None and before.seen != digest_of(picture)
    found = replace(found, use=use if is_another else "")
    row = Reviewed(
        found.drawing,
        entry.pupil,
        entry.page,
        "" if is_another and use == "yes" else use,
        taken.faults,
        taken.blur,
        taken.dpi,
        found.source.file,
        tuple(file for file in earlier if file and file != found.source.file),
        rings,
        entry.class_code,
        digest_of(picture),
        before.copied if before else 0,
    )
    gone = tuple(each for each in shelf.gone if each.drawing != row.drawing)
    shelf = replace(shelf, rows=_with(shelf.rows, row), gone=gone)
    folder = shelf.folder
    files = (  # the row first: a run that is killed in between has lost no fact, and no yes holds
        (folder / NAME, shelf.review),
        (strip_file(folder, row.drawing), write_png(taken.name_strip, taken.scale)),
        (drawing_file(folder, row.drawing), picture),
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
    if has_lost_colour(kept, new) or not is_as_seen(folder, row):
        return "better"  # the row may be of a picture that a killed run could not put there
    return "better" if not has_lost_colour(new, kept) and _is_better(taken, row) else "no-better"


def _is_better(taken: Taken, row: Reviewed) -> bool:
    """Whether ``taken`` is a better picture than the one that is kept, as the review has it."""
    kept = row if row.dpi else replace(row, blur=9.0, dpi=1.0)
    return better(taken, kept)


def _name(sheet: int, there: Sequence[Reviewed]) -> str:
    if not there:
        return str(sheet)
    return f"{sheet}_{max(row.place[1] for row in there) + 1}"
