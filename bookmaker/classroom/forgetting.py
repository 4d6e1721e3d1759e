"""Forgetting: a class's folder and a pupil in, every file and row to remove out."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from bookmaker.classroom.forgotten import NAME as FORGOTTEN
from bookmaker.classroom.forgotten import Forgotten
from bookmaker.classroom.keeping import Shelf
from bookmaker.classroom.made import NAME as MADE
from bookmaker.classroom.made import Made, write_made
from bookmaker.classroom.names import named_in, words_of
from bookmaker.classroom.register import NAME as REGISTER
from bookmaker.classroom.register import write_register
from bookmaker.classroom.review import DRAWINGS, NAME, STRIPS, Reviewed
from bookmaker.classroom.traces import Trace, traces_of
from bookmaker.model import Classroom, pupil_key
from bookmaker.reading import without_rows

BOOKS = ("book", "key", "loose", "pages", "proof")


@dataclass(frozen=True, slots=True)
class Forgetting:
    """What goes at once: ``files`` to delete, ``tables`` as they are to be, ``hashes`` first of
    all. And what stands elsewhere: ``books``, ``lists`` and ``scans`` by their files' names,
    ``traces`` of the name; ``strangers`` are sheets whose pupils no roster has, with their names.
    ``again``: the pupil was forgotten before, and this is what still stands.
    """

    shelf: Shelf
    sheets: tuple[int, ...]
    drawings: int
    files: tuple[Path, ...]
    hashes: tuple[Path, bytes]
    tables: tuple[tuple[Path, bytes], ...]
    books: tuple[str, ...]
    lists: tuple[str, ...]
    scans: tuple[str, ...]
    traces: tuple[Trace, ...]
    strangers: tuple[tuple[int, str], ...]
    again: bool


def forget(shelf: Shelf, name: str, forgotten: Forgotten) -> Forgetting | None:
    """All of the pupil called ``name`` (as ``pupil_key`` compares names); None where nothing is of
    that name. A name that was forgotten before finds what still stands of those who were.

    The register keeps no row of theirs: the numbers of sheets stay taken by what was made.
    """
    asked = pupil_key(name)
    if not asked:  # spare sheets are nobody's
        return None
    return _forgotten(shelf, {asked}, forgotten, name)


def forget_all(shelf: Shelf, forgotten: Forgotten) -> Forgetting | None:
    """Everything of every pupil, and the spare sheets: the year is over."""
    names = {pupil_key(pupil.name) for pupil in shelf.classroom.pupils}
    names |= {pupil_key(row.pupil) for row in shelf.register} | {""}
    names |= {pupil_key(row.pupil) for row in (*shelf.rows, *shelf.gone)}
    return _forgotten(shelf, names, forgotten, "")


def _forgotten(
    shelf: Shelf, asked: Collection[str], forgotten: Forgotten, name: str
) -> Forgetting | None:
    classroom = shelf.classroom
    pupils = [pupil for pupil in classroom.pupils if pupil_key(pupil.name) in asked]
    sheets = {row.sheet for row in shelf.register if pupil_key(row.pupil) in asked}
    reviewed = (*shelf.rows, *shelf.gone)
    sheets |= {row.sheet for row in reviewed if pupil_key(row.pupil) in asked}
    again = not (pupils or sheets)
    if again and (not name or not _is_forgotten(name, forgotten)):
        return None
    names = {name, *(pupil.name for pupil in pupils)}
    names |= {row.pupil for row in shelf.register if row.sheet in sheets}
    names |= {row.pupil for row in reviewed if row.sheet in sheets}
    words = frozenset(word for each in names for word in words_of(each))
    others = (p.name for p in classroom.pupils if p not in pupils)
    alone = words - {word for each in others for word in words_of(each)}
    left = _without(shelf, {pupil.line for pupil in pupils}, sheets, alone)
    kept = {row.sheet for row in left.register}
    gone = sheets | _unknown(shelf.made, kept) if again else sheets
    roster = _roster(left.classroom, [pupil.line for pupil in pupils])
    traces = traces_of(left.classroom, words, roster)
    inside = [one for one in shelf.made if (gone | _whose(left, traces)) & set(one.sheets)]
    files = tuple(_files(classroom.folder, sheets))
    everywhere = [one for one in shelf.made if one.what in BOOKS] if _is_general(traces) else inside
    for each in sorted(names):
        forgotten = forgotten.with_name(each)
    return Forgetting(
        left,
        tuple(sorted(sheets)),
        sum(path.parent.name == DRAWINGS and path.suffix == ".png" for path in files),
        files,
        (classroom.folder / FORGOTTEN, forgotten.to_bytes()),
        _tables(left, roster if pupils else None),
        tuple(one.file for one in everywhere if one.what in BOOKS),
        tuple(one.file for one in inside if one.what == "list" and gone & set(one.sheets)),
        _scans(shelf, sheets, alone),
        tuple(traces),
        tuple((e.sheet, e.pupil) for e in left.register if _is_stranger(left.classroom, e.pupil)),
        again,
    )


def _is_forgotten(name: str, forgotten: Forgotten) -> bool:
    return bool(words_of(name)) and forgotten.with_name(name).hashes == forgotten.hashes


def _is_stranger(classroom: Classroom, pupil: str) -> bool:
    return bool(pupil) and classroom.pupil(pupil) is None


def _unknown(made: Sequence[Made], kept: Collection[int]) -> set[int]:
    """Sheets that were printed and are in the register no more: those of forgotten pupils."""
    return {number for one in made for number in one.sheets} - set(kept)


def _whose(shelf: Shelf, traces: Sequence[Trace]) -> set[int]:
    """Sheets of pupils whose rows of the roster hold the name: it may have been printed there."""
    pupils = {pupil_key(trace.pupil) for trace in traces if trace.pupil}
    return {row.sheet for row in shelf.register if pupil_key(row.pupil) in pupils}


def _is_general(traces: Sequence[Trace]) -> bool:
    """Whether the class's manifest holds the name: its title stands in every book."""
    return any(trace.file.suffix == ".toml" and trace.line for trace in traces)


def _without(
    shelf: Shelf, lines: Collection[int], sheets: Collection[int], words: Collection[str]
) -> Shelf:
    """The shelf without those rows; files' names that hold ``words`` are left out of the others."""
    pupils = tuple(p for p in shelf.classroom.pupils if p.line not in lines)
    return replace(
        shelf,
        classroom=replace(shelf.classroom, pupils=pupils),
        register=tuple(row for row in shelf.register if row.sheet not in sheets),
        rows=tuple(_nameless(row, words) for row in shelf.rows if row.sheet not in sheets),
        gone=tuple(_nameless(row, words) for row in shelf.gone if row.sheet not in sheets),
        made=tuple(_made(shelf.made, sheets, words)),
    )


def _nameless(row: Reviewed, words: Collection[str]) -> Reviewed:
    others = tuple(file for file in row.others if not named_in(file, words))
    return replace(row, scan="" if named_in(row.scan, words) else row.scan, others=others)


def _made(made: Sequence[Made], sheets: Collection[int], words: Collection[str]) -> Iterator[Made]:
    """The record without the scans of ``sheets``; the numbers that were printed stay taken."""
    for one in made:
        if one.what != "scan":
            yield one
        elif left := tuple(n for n in one.sheets if n not in sheets):
            yield replace(one, file="" if named_in(one.file, words) else one.file, sheets=left)


def _roster(classroom: Classroom, lines: Sequence[int]) -> bytes:
    """The roster without the rows on ``lines``; a class of swaps alone has none."""
    path = Path(classroom.roster_file)
    return (
        without_rows(path.read_bytes(), str(path), set(lines)) if classroom.pupils or lines else b""
    )


def _tables(left: Shelf, roster: bytes | None) -> tuple[tuple[Path, bytes], ...]:
    """Those of the class's tables that are there, as they are to be."""
    folder = left.folder
    tables = [
        (folder / NAME, left.review),
        (folder / REGISTER, write_register(left.register)),
        (folder / MADE, write_made(left.made)),
    ]
    if roster is not None:
        tables.append((Path(left.classroom.roster_file), roster))
    return tuple(table for table in tables if table[0].exists())


def _scans(shelf: Shelf, sheets: Collection[int], words: Collection[str]) -> tuple[str, ...]:
    """Scans that show a sheet of theirs, whatever became of it, or are called after the pupil."""
    reviewed = (*shelf.rows, *shelf.gone)
    files = [(f, {row.sheet}) for row in reviewed for f in (row.scan, *row.others) if f]
    files += [(one.file, set(one.sheets)) for one in shelf.made if one.what == "scan"]
    shown = (file for file, on in files if on & set(sheets) or named_in(file, words))
    return tuple(dict.fromkeys(shown))


def _files(folder: Path, sheets: Collection[int]) -> list[Path]:
    """Drawings and name strips of ``sheets``, and whatever a run that was killed left half written:
    tables and the review name everybody."""
    found: list[Path] = sorted(folder.glob(".*.part"))
    for kind in (DRAWINGS, STRIPS):
        for number in sorted(sheets):
            for pattern in (f"{number}.png", f"{number}_*.png", f".{number}.*", f".{number}_*"):
                found += sorted((folder / kind).glob(pattern))
    return found
