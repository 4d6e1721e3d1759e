"""Forgetting: a class's folder and a pupil in, every file and row to remove out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from bookmaker.classroom.keeping import Shelf
from bookmaker.classroom.made import Made
from bookmaker.classroom.register import NAME as REGISTER
from bookmaker.classroom.register import write_register
from bookmaker.classroom.review import DRAWINGS, NAME, STRIPS
from bookmaker.model import Classroom, Pupil, folded
from bookmaker.reading import without_rows


@dataclass(frozen=True, slots=True)
class Forgotten:
    """What goes: ``files`` to delete, ``tables`` as they are to be; and where the drawing or the
    name stands outside the folder: ``books``, ``lists`` and ``scans``."""

    shelf: Shelf
    sheets: tuple[int, ...]
    files: tuple[Path, ...]
    tables: tuple[tuple[Path, bytes], ...]
    books: tuple[str, ...]
    lists: tuple[str, ...]
    scans: tuple[str, ...]


def forget(shelf: Shelf, name: str, made: Sequence[Made]) -> Forgotten | None:
    """All of the pupil called ``name`` (capitals do not count); None where nothing is of that name.

    The register keeps no row of theirs: the numbers of sheets stay taken by what was made.
    """
    classroom, asked = shelf.classroom, folded(name)
    if not asked:  # spare sheets are nobody's
        return None
    pupil = classroom.pupil(name)
    sheets = {row.sheet for row in shelf.register if folded(row.pupil) == asked}
    sheets |= {row.sheet for row in shelf.rows if folded(row.pupil) == asked}
    if pupil is None and not sheets:
        return None
    register = tuple(row for row in shelf.register if row.sheet not in sheets)
    rows = tuple(row for row in shelf.rows if row.sheet not in sheets)
    gone = [row for row in shelf.rows if row.sheet in sheets]
    left = replace(shelf, classroom=_without(classroom, pupil), register=register, rows=rows)
    folder = classroom.folder
    tables = [(folder / NAME, left.review), (folder / REGISTER, write_register(register))]
    if pupil:
        roster = Path(classroom.roster_file)
        text = without_rows(roster.read_bytes(), str(roster), {pupil.line})
        tables.append((roster, text))
    inside = [one for one in made if sheets & set(one.sheets)]
    return Forgotten(
        left,
        tuple(sorted(sheets)),
        tuple(_files(folder, sheets)),
        tuple(table for table in tables if table[0].exists()),
        tuple(one.file for one in inside if one.what in ("book", "key", "pages")),
        tuple(one.file for one in inside if one.what == "list"),
        tuple(dict.fromkeys(file for row in gone for file in (row.scan, *row.others) if file)),
    )


def _without(classroom: Classroom, pupil: Pupil | None) -> Classroom:
    return replace(classroom, pupils=tuple(p for p in classroom.pupils if p != pupil))


def _files(folder: Path, sheets: set[int]) -> list[Path]:
    """Drawings and name strips of ``sheets``, and whatever a run that was killed left half written:
    tables and the review name everybody."""
    found: list[Path] = sorted(folder.glob(".*.part"))
    for kind in (DRAWINGS, STRIPS):
        for number in sorted(sheets):
            for pattern in (f"{number}.png", f"{number}_*.png", f".{number}.*", f".{number}_*"):
                found += sorted((folder / kind).glob(pattern))
    return found
