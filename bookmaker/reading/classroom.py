"""A class's ``class.toml`` and roster in, a ``Classroom`` and every problem in them out."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from bookmaker.model import Classroom, InputProblems, Permission, Problem, Pupil, Swap, pupil_key
from bookmaker.reading import csv
from bookmaker.reading.files import file_fault, path_of
from bookmaker.reading.kinds import Key, backslash_fault, check_keys, filename, text
from bookmaker.reading.names import id_of, is_near, nearest, show
from bookmaker.reading.spots import MOST_SPOTS
from bookmaker.reading.table import Source, Table
from bookmaker.reading.toml import read_toml

KEYS = {
    "title": Key(text(200), needed='a line like title = "Heron Class"'),
    "book": Key(filename(1000), needed='a line like book = "../river-term/book.toml"'),
    "roster": Key(filename(1000), needed='a line like roster = "roster.csv"'),
    "swap": Key(lambda key, value: _swap_fault(value)),
    "cover": Key(lambda key, value: _cover_fault(value)),
    "may_print": Key(lambda key, value: _words_fault(value)),
}
SWAP_KEYS = {
    "picture": Key(filename(1000), needed='a line like picture = "mine.jpg"'),
    "name": Key(text(200)),
    "artist": Key(text(200)),
    "licence": Key(text(200)),
}
COLUMNS = ("pupil", "page", "drawing", "name", "creature", "credit", "spots")
TABLES = ("register.csv", "review.csv", "made.csv", "forgotten.csv")
"""What a class's folder holds, and is written anew: a roster of that name would be lost."""
PERMISSIONS: Mapping[str, Permission] = {"class": "class", "own": "own", "no": "no", "": "no"}
YES = {"yes": True, "no": False, "": False}
SURNAMES = re.compile(
    r"(sur|last|family).?name|^(last|family|nom)$|nachname|apellidos?|nom de famille", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class ClassReading:
    """``classroom`` is None where a problem stands in the way of it."""

    classroom: Classroom | None
    problems: tuple[Problem, ...]


def read_class(path: Path, *, whole: bool = True) -> ClassReading:
    """Read a class and its roster; all problems of both at once, warnings among them. Unless it is
    wanted ``whole``, book and pictures need not be there any more."""
    file = str(path)
    fault = file_fault(path)
    if fault:
        told = Problem(file, 0, "", "file-missing", f"the file {fault[0]}", fault[1])
        return ClassReading(None, (told,))
    source = Source(file, path, read_toml(path))
    slips = [Problem(file, s.line, "", s.code, s.message, s.mend) for s in source.parsed.slips]
    if source.parsed.values is None:
        return ClassReading(None, tuple(slips))
    table = Table(source, (), source.parsed.values)
    swapping = ("roster",) if table.get("swap") else ()
    problems = [*slips, *check_keys(table, KEYS, excused=swapping)]
    problems += [fault for _, swap in _swap_tables(table) for fault in check_keys(swap, SWAP_KEYS)]
    problems += _missing_files(table, whole)
    roster = path_of(table, "roster")
    problems += _to_be_overwritten(table, roster)
    pupils: tuple[Pupil, ...] = ()
    if roster and not file_fault(roster):
        pupils, found = read_roster(roster)
        problems += found
    if any(problem.severity == "problem" for problem in problems):
        return ClassReading(None, tuple(problems))
    return ClassReading(_classroom(table, path, roster, pupils), tuple(problems))


def _classroom(
    table: Table, path: Path, roster: Path | None, pupils: tuple[Pupil, ...]
) -> Classroom:
    book = path_of(table, "book")
    assert book is not None
    swaps = table.table("swap")
    may_print = table.get("may_print")
    return Classroom(
        name=path.resolve().parent.name,
        title=str(table.get("title")).strip(),
        file=str(path),
        folder=path.parent,
        book=book,
        roster_file=str(roster or path),
        pupils=pupils,
        swaps=tuple(_swaps(table)),
        cover=_cover(table),
        may_print=tuple(may_print) if isinstance(may_print, list) else (),
        lines=(*table.key_lines(), *((f"swap.{key}", line) for key, line in swaps.key_lines())),
    )


def _cover(table: Table) -> int | Path | None:
    """A sheet's number, as a number or in quotes, or a picture."""
    value = table.get("cover")
    if isinstance(value, int) or (isinstance(value, str) and value.isdecimal()):
        return int(value)
    return path_of(table, "cover") if value else None


def _cover_fault(value: object) -> tuple[str, str] | None:
    is_sheet = isinstance(value, int) and not isinstance(value, bool) and value > 0
    if is_sheet or (isinstance(value, str) and value.strip()):
        return backslash_fault(value)
    return "cover must be a sheet's number or a picture", 'Write cover = 12, or cover = "mine.jpg".'


def _swaps(table: Table) -> Iterator[Swap]:
    plain = table.table("swap")
    for key in plain:
        picture = path_of(plain, key) if isinstance(plain.get(key), str) else None
        if picture:
            yield Swap(key, id_of(key), picture)
    for key, swap in _swap_tables(table):
        picture = path_of(swap, "picture")
        if picture:
            words = {word: str(swap.get(word) or "") for word in ("name", "artist", "licence")}
            yield Swap(key, id_of(key), picture, **words)


def _swap_tables(table: Table) -> list[tuple[str, Table]]:
    """The swaps that say more than the picture's file."""
    swaps = table.table("swap")
    return [(key, swaps.table(key)) for key in swaps if isinstance(swaps.get(key), dict)]


def _missing_files(table: Table, whole: bool) -> Iterator[Problem]:
    for key in ("book", "roster") if whole else ("roster",):
        path = path_of(table, key)
        fault = file_fault(path) if path else None
        if fault:
            message = f"the {key} {show(table.get(key))} {fault[0]}"
            yield table.problem("file-missing", message, fault[1], key)
    cover = _cover(table) if whole else None
    fault = file_fault(cover) if isinstance(cover, Path) else None
    if fault:
        message = f"the picture {show(table.get('cover'))} {fault[0]}"
        yield table.problem("art-missing", message, fault[1], "cover")
    swaps = table.table("swap")
    for swap in _swaps(table) if whole else ():
        fault = file_fault(swap.picture)
        if fault:
            message = f"the picture {show(swap.picture.name)} {fault[0]}"
            yield swaps.problem("art-missing", message, fault[1], swap.key)


def _to_be_overwritten(table: Table, roster: Path | None) -> Iterator[Problem]:
    if roster is None or roster.name.lower() not in TABLES:
        return
    if roster.resolve().parent == table.source.folder.resolve():
        message = f"the roster can't be {show(roster.name)}: bookmaker writes a file of that name"
        mend = "Give it another name, such as roster.csv."
        yield table.problem("bad-value", message, mend, "roster")


def _swap_fault(value: object) -> tuple[str, str] | None:
    if isinstance(value, dict) and all(isinstance(each, str | dict) for each in value.values()):
        return next(filter(None, map(backslash_fault, value.values())), None)
    return "swap must name a picture for a page", 'Write newt = "mine.jpg" below [swap].'


def _words_fault(value: object) -> tuple[str, str] | None:
    if isinstance(value, list) and all(isinstance(word, str) and word.strip() for word in value):
        return None
    return "may_print must be a list of words", 'Write may_print = ["Rose"], say.'


def read_roster(path: Path) -> tuple[tuple[Pupil, ...], list[Problem]]:
    """The pupils of a roster and what is wrong in it; raises nothing."""
    try:
        rows = csv.read_table(path, needed=("pupil",))
    except InputProblems as faults:
        return (), list(faults.problems)
    problems = list(_column_problems(rows))
    pupils: dict[str, Pupil] = {}
    for row in rows.rows:
        found = list(_row_problems(rows.file, row, pupils))
        problems += found
        if not found:
            pupil = _pupil(row)
            pupils[pupil_key(pupil.name)] = pupil
    if not rows.rows:
        mend = "Write a row for each pupil below the header."
        problems.append(
            Problem(rows.file, rows.line, "", "missing-key", "the roster has no pupil", mend)
        )
    return tuple(pupils.values()), problems


def _column_problems(table: csv.Table) -> Iterator[Problem]:
    for column, heading in zip(table.columns, table.headings, strict=True):
        if SURNAMES.search(column):
            message = f"the column {show(heading)} looks as if it held surnames"
            mend = "First names or numbers are enough: take the column out of the file."
            yield Problem(table.file, table.line, "", "surnames", message, mend, "warning")
        elif column and column not in COLUMNS:
            likely = nearest(column, COLUMNS) or ""
            hint = f" The nearest known one is {likely}." if is_near(column, likely) else ""
            message = f"the column {show(heading)} is not known and is not read"
            mend = f"Known are {', '.join(COLUMNS)}.{hint}"
            yield Problem(table.file, table.line, "", "unknown-column", message, mend, "warning")


def _cell(row: csv.Row, column: str) -> str:
    return row.cells.get(column, "").strip()


def _row_problems(file: str, row: csv.Row, before: Mapping[str, Pupil]) -> Iterator[Problem]:
    name = _cell(row, "pupil")

    def problem(code: str, message: str, mend: str) -> Problem:
        return Problem(file, row.line, name, code, message, mend)

    if not name:
        yield problem("missing-key", "the row has no pupil", "Write a first name or a number.")
    elif pupil_key(name) in before:
        mend = 'Tell the two apart, as in "Olivia B" and "Olivia M".'
        yield problem("repeated-name", f"two pupils are called {show(name)}", mend)
    drawing, shown, spots = (_cell(row, key).lower() for key in ("drawing", "name", "spots"))
    if drawing not in PERMISSIONS:
        message = f"drawing can't be {show(drawing)}"
        yield problem("bad-value", message, "Write class, own or no; empty is no.")
    if shown not in YES:
        yield problem("bad-value", f"name can't be {show(shown)}", "Write yes or no; empty is no.")
    if spots and not (spots.isascii() and spots.isdigit() and 2 <= int(spots) <= MOST_SPOTS):
        message = f"spots can't be {show(spots)}"
        yield problem("bad-value", message, "Write how many spots the page shall have, like 5.")


def _pupil(row: csv.Row) -> Pupil:
    name = _cell(row, "pupil")
    spots = _cell(row, "spots")
    return Pupil(
        name=name,
        page=id_of(_cell(row, "page")),
        drawing=PERMISSIONS[_cell(row, "drawing").lower()],
        show_name=YES[_cell(row, "name").lower()],
        creature=_cell(row, "creature"),
        credit=_cell(row, "credit") or name,
        spots=int(spots) if spots else None,
        line=row.line,
    )
