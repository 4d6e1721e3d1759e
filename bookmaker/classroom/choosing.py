"""Choosing: which drawings may enter a class's book, and what a teacher should hear of the others.

A drawing enters where the roster permits it and the review says yes, and nowhere else.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from bookmaker.classroom.keeping import refuse_another_class
from bookmaker.classroom.review import NAME as REVIEW
from bookmaker.classroom.review import Reviewed, drawing_file, is_as_seen, read_rows
from bookmaker.classroom.sheet_page import rings_of
from bookmaker.model import Classroom, Point, Problem, Pupil, SheetEntry
from bookmaker.scanning.sheet_plan import sheet_plan


@dataclass(frozen=True, slots=True)
class Chosen:
    """A drawing that enters: its sheet, whose it is, its file, and the rings of a free sheet."""

    entry: SheetEntry
    pupil: Pupil
    drawing: Path
    rings: tuple[Point, ...]


def choose(
    classroom: Classroom, register: Sequence[SheetEntry], own: Pupil | None, use_all: bool
) -> tuple[list[Chosen], list[Problem]]:
    """The drawings that enter, by sheet. ``own`` is the pupil whose own copy it is, if it is one;
    with ``use_all`` those count as looked at that nobody said no to. Raises InputProblems."""
    present, gone = read_rows(classroom.folder)
    refuse_another_class(classroom.folder, register, (*present, *gone))
    rows: dict[int, list[Reviewed]] = {}
    for row in present:
        rows.setdefault(row.sheet, []).append(row)
    chosen: list[Chosen] = []
    problems: list[Problem] = []
    waiting = 0
    for entry in register:
        there = rows.get(entry.sheet, [])
        pupil = classroom.pupil(entry.pupil) if entry.pupil else None
        if pupil is None and entry.pupil and there:
            problems.append(_not_in_roster(classroom, entry))
        if pupil is None or not _permitted(pupil, own):
            continue
        problems += [_gone(classroom, row) for row in gone if _is_missed(row, entry)]
        changed = [row for row in there if row.use == "yes" and not _as_seen(classroom, row)]
        problems += [_changed(classroom, row) for row in changed]
        said = _said([row for row in there if row not in changed], use_all)
        waiting += 0 if said else sum(row.use == "" for row in there)
        if said:
            found = _entering(classroom, entry, pupil, said)
            chosen += [found] if isinstance(found, Chosen) else []
            problems += [found] if isinstance(found, Problem) else []
    if waiting:
        problems.append(_waiting(classroom, waiting))
    return chosen, problems


def _permitted(pupil: Pupil, own: Pupil | None) -> bool:
    return pupil.drawing == "class" or (pupil.drawing == "own" and pupil == own)


def _said(there: Sequence[Reviewed], use_all: bool) -> list[Reviewed]:
    """The drawings of a sheet that have a yes, or none yet where that will do."""
    said = [row for row in there if row.use == "yes"]
    return said or [row for row in there if use_all and row.use == ""]


def _entering(
    classroom: Classroom, entry: SheetEntry, pupil: Pupil, said: Sequence[Reviewed]
) -> Chosen | Problem:
    wanted, rings = rings_of(entry.page), said[0].rings
    if len(said) > 1:
        return _several(classroom, entry, said)
    frame = sheet_plan(entry.paper).frame
    rings = tuple((x, y) for x, y in rings if x <= frame.width and y <= frame.height)
    if wanted and len(rings) < max(2, wanted):
        return _few_rings(classroom, entry, len(rings))
    return Chosen(entry, pupil, drawing_file(classroom.folder, said[0].drawing), rings)


def _as_seen(classroom: Classroom, row: Reviewed) -> bool:
    return is_as_seen(classroom.folder, row)


def _is_missed(row: Reviewed, entry: SheetEntry) -> bool:
    return row.sheet == entry.sheet and row.use == "yes"


def _gone(classroom: Classroom, row: Reviewed) -> Problem:
    file = drawing_file(classroom.folder, row.drawing)
    message = f"the drawing {row.drawing} has a yes, and its file is not there"
    mend = f"Bring {file} back, or take its scan in again"
    mend += f" ({row.scan})." if row.scan else "."
    return _of_review(classroom, message, mend)


def _changed(classroom: Classroom, row: Reviewed) -> Problem:
    message = f"the drawing {row.drawing} is another picture than the one that has the yes; "
    message += "it is left out"
    mend = "Look at it, print the review anew (bookmaker review, or intake), and say yes again."
    return _of_review(classroom, message, mend)


def _of_review(classroom: Classroom, message: str, mend: str) -> Problem:
    file = str(classroom.folder / REVIEW)
    return Problem(file, 0, "", "left-out", message, mend, "warning")


def _not_in_roster(classroom: Classroom, entry: SheetEntry) -> Problem:
    message = f"the drawing of sheet {entry.sheet} is left out: its pupil is not in the roster"
    mend = "Add a row of that name, or remove the drawing with bookmaker forget."
    file = classroom.roster_file
    return Problem(file, 0, entry.pupil, "not-in-roster", message, mend, "warning")


def _several(classroom: Classroom, entry: SheetEntry, rows: Sequence[Reviewed]) -> Problem:
    names = ", ".join(row.drawing for row in rows)
    message = f"sheet {entry.sheet} has several drawings ({names}), and none is used"
    return _of_review(classroom, message, "Say yes to one of them and no to the others.")


def _few_rings(classroom: Classroom, entry: SheetEntry, count: int) -> Problem:
    message = f"sheet {entry.sheet} is a free one, and {count} of its {rings_of(entry.page)} rings "
    message += "are known; its drawing is left out"
    mend = "Write where they are in the column rings, in millimetres from the drawing's top left."
    return _of_review(classroom, message, mend)


def _waiting(classroom: Classroom, count: int) -> Problem:
    what = "drawing waits" if count == 1 else "drawings wait"
    message = f"{count} {what} for a yes or a no"
    mend = "Look at review.pdf, then fill in the column use."
    return _of_review(classroom, message, mend)
