"""The register: which sheet went to which pupil for which page, fixed when sheets are printed."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from bookmaker.classroom.sheet_page import rings_of
from bookmaker.classroom.tables import table_bytes
from bookmaker.model import InputProblems, Problem, SheetEntry
from bookmaker.reading import Row, Table, read_table
from bookmaker.scanning.pale import PaleMarks, read_pale
from bookmaker.scanning.sheet_plan import MOST_SHEETS, PAPERS

NAME = "register.csv"
COLUMNS = ("sheet", "pupil", "page", "paper", "class", "format", "marks")
"""The file's columns; ``class`` is the class's random code."""
MOST = {"sheet": MOST_SHEETS, "format": 99}
"""What there is room for in a sheet's codes."""


def read_register(path: Path) -> tuple[SheetEntry, ...]:
    """The register at ``path``, by sheet number; none where there is no file yet.

    Raises InputProblems where a row can't be understood: it must never be guessed at.
    """
    if not path.exists():
        return ()
    table = read_table(path, needed=COLUMNS)
    entries: dict[int, SheetEntry] = {}
    problems: list[Problem] = []
    for row in table.rows:
        try:
            entry = _entry(row)
        except ValueError as fault:
            problems.append(_problem(table, row, str(fault)))
            continue
        if entry.sheet in entries:
            problems.append(_problem(table, row, f"sheet {entry.sheet} stands here twice"))
        entries[entry.sheet] = entry
    codes = {entry.class_code for entry in entries.values()}
    if len(codes) > 1:
        told = f"its sheets are of {len(codes)} classes ({', '.join(sorted(codes))})"
        mend = "Bring back the register as it was written when the sheets were printed."
        problems.append(Problem(table.file, table.line, "", "bad-register", told, mend))
    if problems:
        raise InputProblems(problems)
    return tuple(entries[number] for number in sorted(entries))


def _entry(row: Row) -> SheetEntry:
    for column in ("sheet", "format"):
        if not (row[column].isdecimal() and 0 < int(row[column]) <= MOST[column]):
            raise ValueError(f"{column} {row[column]!r} is no number that a sheet can have")
    code = row["class"].zfill(8)  # a spreadsheet drops noughts at the front
    if len(code) != 8 or not code.isdigit():
        raise ValueError(f"the class code {row['class']!r} is not eight digits")
    paper = row["paper"].lower()
    if paper not in PAPERS:
        raise ValueError(f"paper {row['paper']!r} is none of {', '.join(PAPERS)}")
    _check_tree(read_pale(row["marks"]), bool(rings_of(row["page"])))
    return SheetEntry(
        sheet=int(row["sheet"]),
        pupil=row["pupil"],
        page=row["page"],
        paper=paper,
        class_code=code,
        marks=row["marks"],
        format=int(row["format"]),
    )


def _check_tree(marks: PaleMarks, free: bool) -> None:
    """Raises ValueError where marks that were read are not those of a page."""
    spots, links = {spot.name for spot in marks.spots}, {link.name for link in marks.links}
    for name in links:
        one, _, other = name.partition("-")
        if not {one, other} <= spots:
            raise ValueError(f"its link {name!r} does not join two of its spots")
    if not {tag.link for tag in marks.tags} <= links:
        raise ValueError("one of its tags is on no link")
    if not free and len(spots) < 2:
        raise ValueError("it has fewer than two spots")


def _problem(table: Table, row: Row, fault: str) -> Problem:
    mend = "Bring back the register as it was written when the sheets were printed."
    return Problem(table.file, row.line, "", "bad-register", fault, mend)


def write_register(entries: Iterable[SheetEntry]) -> bytes:
    """The register as a table, by sheet number."""
    rows = (
        (each.sheet, each.pupil, each.page, each.paper, each.class_code, each.format, each.marks)
        for each in sorted(entries, key=lambda each: each.sheet)
    )
    return table_bytes(COLUMNS, rows)
