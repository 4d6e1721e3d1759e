"""A table that a spreadsheet wrote in, its rows with their lines out.

Spreadsheets part cells by commas, semicolons or tabs and write UTF-8, UTF-16 or Windows-1252,
with a byte-order mark or without, as the computer's language will have it. All are read.
"""

from __future__ import annotations

import codecs
import csv
import io
import os
import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

from bookmaker.model import InputProblems, Problem
from bookmaker.reading.files import file_fault
from bookmaker.reading.names import is_near, name_all, nearest, shorten

LARGEST = 5_000_000
"""Bytes; a class list takes 2,000."""

MOST_FAULTS = 20
"""Faulty rows after which the rest is not looked at."""

_DELIMITERS = ",;\t"
_QUOTED = re.compile(r'"(?:[^"]|"")*"')
_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_LINES = re.compile(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+")
_ZIP = b"PK\x03\x04"  # how a workbook (.xlsx, .ods) starts


@dataclass(frozen=True, slots=True)
class Row:
    """One row: the ``line`` on which it starts and its cells by column, "" for an empty one."""

    line: int
    cells: Mapping[str, str]

    def __getitem__(self, column: str) -> str:
        return self.cells[column]


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under a header. ``columns`` are the header's names in lower case; ``headings`` the
    same as they were written; ``line`` is the header's line. Rows without a word are left out.
    """

    file: str
    line: int
    columns: tuple[str, ...]
    headings: tuple[str, ...]
    rows: tuple[Row, ...]


def read_table(path: Path, *, needed: Sequence[str] = ()) -> Table:
    """Read the table at ``path``, which must have the columns ``needed`` (in lower case).

    Raises InputProblems with every fault found.
    """
    file = str(path)
    fault = file_fault(path)
    if fault:
        raise InputProblems([_whole(file, "file-missing", f"the file {fault[0]}", fault[1])])
    try:
        data = _bytes_of(path, file)
    except OSError as error:
        message = f"the file can't be read ({error.strerror})"
        mend = "Check that you may read it."
        raise InputProblems([_whole(file, "file-missing", message, mend)]) from None
    return parse_table(data, file, needed)


def parse_table(data: bytes, file: str, needed: Sequence[str] = ()) -> Table:
    """The table in ``data``, the bytes of ``file``; raises InputProblems."""
    text = _decode(data, file)[0].replace("\r\n", "\n").replace("\r", "\n")
    rows, problems = _split(text, file)
    if not rows:
        mend = f"Write a header with {name_all(needed) or 'the columns'}, and the rows below it."
        raise InputProblems(problems or [_whole(file, "missing-key", "the table is empty", mend)])
    (line, first), *rest = rows
    headings = tuple(_trim_end(first))
    columns = tuple(heading.lower() for heading in headings)
    problems += _check_header(file, line, columns, needed)
    problems += [problem for row in rest for problem in _check_row(file, row, columns)]
    if problems:
        raise InputProblems(sorted(problems, key=lambda problem: problem.line))
    return Table(
        file, line, columns, headings, tuple(_row(start, cells, columns) for start, cells in rest)
    )


def delimiter_of(path: Path) -> str:
    """What parts the cells of the table at ``path``; a comma where it can't be read."""
    try:
        text = _decode(_bytes_of(path, str(path)), str(path))[0]
    except (OSError, InputProblems):
        return _DELIMITERS[0]
    return _delimiter(text.replace("\r\n", "\n").replace("\r", "\n").lstrip("\ufeff"))[0]


def without_rows(data: bytes, file: str, lines: Collection[int]) -> bytes:
    """``data`` without the rows that start on ``lines``; all else stays as it was written.

    Raises InputProblems for a table that can't be read.
    """
    table = parse_table(data, file)
    text, encoding = _decode(data, file)
    starts = sorted(row.line for row in table.rows)
    end = dict(pairwise((*starts, len(text) + 2)))
    out = {line for start in starts if start in lines for line in range(start, end[start])}
    written = _LINES.findall(text)
    kept = "".join(line for number, line in enumerate(written, 1) if number not in out)
    return kept.encode(encoding)


def without_cells(data: bytes, file: str, cells: Collection[tuple[int, str]]) -> bytes:
    """``data`` with the ``cells``, each a row's line and its column, empty; all other rows stay as
    they were written. Raises InputProblems for a table that can't be read."""
    table = parse_table(data, file)
    text, encoding = _decode(data, file)
    starts = sorted(row.line for row in table.rows)
    end = dict(pairwise((*starts, len(text) + 2)))
    delimiter = _delimiter(text.replace("\r\n", "\n").replace("\r", "\n").lstrip("\ufeff"))[0]
    lines = dict(enumerate(_LINES.findall(text), 1))
    for start in {line for line, _ in cells}:
        rows = [number for number in range(start, end[start]) if number in lines]
        written = "".join(lines[number] for number in rows)
        row = next(csv.reader(io.StringIO(written, newline=""), delimiter=delimiter))
        gone = {table.columns.index(column) for line, column in cells if line == start}
        out = io.StringIO(newline="")
        ending = written[len(written.rstrip("\r\n")) :]
        kept = ["" if place in gone else cell for place, cell in enumerate(row)]
        csv.writer(out, delimiter=delimiter, lineterminator=ending).writerow(kept)
        lines |= dict.fromkeys(rows, "") | {start: out.getvalue()}
    return "".join(lines[number] for number in sorted(lines)).encode(encoding)


def _whole(file: str, code: str, message: str, mend: str) -> Problem:
    return Problem(file, 0, "", code, message, mend)


def _bytes_of(path: Path, file: str) -> bytes:
    """What a file holds, if that may be a table; raises InputProblems and OSError."""
    with path.open("rb") as opened:
        size = os.fstat(opened.fileno()).st_size
        data = opened.read(LARGEST + 1)
    if len(data) > LARGEST and not data.startswith(_ZIP):
        raise _no_table(file, f"has {max(size, len(data)):,} bytes")
    return data


def _no_table(file: str, what: str) -> InputProblems:
    mend = "Save the sheet from the spreadsheet program as CSV, and name that file."
    message = f"the file {what}, not a table as text"
    return InputProblems([_whole(file, "bad-encoding", message, mend)])


def _decode(data: bytes, file: str) -> tuple[str, str]:
    """The text in ``data`` and the encoding that it is in."""
    if len(data) > LARGEST or data.startswith(_ZIP):
        is_book = data.startswith(_ZIP)
        raise _no_table(file, "is a workbook" if is_book else f"has {len(data):,} bytes")
    encodings = [encoding for mark, encoding in _MARKS if data.startswith(mark)]
    if not encodings and b"\0" in data[:2]:  # UTF-16 without its mark
        encodings = ["utf-16-be" if data[0] == 0 else "utf-16-le"]
    for encoding in encodings or ("utf-8", "cp1252"):
        try:
            text = data.decode(encoding)
        except UnicodeDecodeError as error:
            at = error.start
        else:
            if "\0" not in text:
                return text, encoding
            at = data.index(0)
    line = data.count(b"\n", 0, at) + 1
    message = "the file is not text in an encoding that spreadsheets write"
    mend = 'Save it again from the spreadsheet program as "CSV UTF-8".'
    raise InputProblems([Problem(file, line, "", "bad-encoding", message, mend)])


def _split(text: str, file: str) -> tuple[list[tuple[int, list[str]]], list[Problem]]:
    """Every row that has a word in it, with the line on which it starts."""
    delimiter, skipped = _delimiter(text)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    rows: list[tuple[int, list[str]]] = []
    problems: list[Problem] = []
    while len(problems) < MOST_FAULTS:
        line = reader.line_num + 1
        try:
            cells = [cell.strip().strip("\ufeff") for cell in next(reader)]
        except StopIteration:
            break
        except csv.Error:
            message = "the quotation marks in this row do not match"
            mend = 'Close the text that starts with ", and write a quotation mark inside it twice.'
            problems.append(Problem(file, line, "", "bad-csv", message, mend))
            continue
        if any(cells) and line > skipped:
            rows.append((line, cells))
    return rows, problems


def _delimiter(text: str) -> tuple[str, int]:
    """What parts the cells, and how many lines at the top say so and are no row themselves."""
    blank = len(text) - len(text.lstrip("\n"))
    first = text[blank:].partition("\n")[0]
    if first.lower() in [f"sep={delimiter}" for delimiter in _DELIMITERS]:
        return first[-1], blank + 1
    header = _QUOTED.sub("", first)
    return max(_DELIMITERS, key=header.count), 0


def _check_header(
    file: str, line: int, columns: Sequence[str], needed: Sequence[str]
) -> Iterator[Problem]:
    for place, column in enumerate(columns, 1):
        if not column:
            message = f"column {place} has no heading"
            mend = "Write one above it, or take the column out."
            yield Problem(file, line, "", "missing-key", message, mend)
        elif columns.index(column) + 1 < place:
            message = f"two columns have the heading {shorten(column)}"
            yield Problem(file, line, "", "repeated-name", message, "Give one another heading.")
    for column in needed:
        if column in columns:
            continue
        likely = nearest(column, [each for each in columns if each and each not in needed])
        mend = f"Add it to the header: {', '.join(needed)}."
        if likely and is_near(column, likely):
            mend = f"Write {column} instead of {shorten(likely)}, if that is what is meant."
        yield Problem(file, line, "", "missing-key", f"there is no column {column}", mend)


def _check_row(file: str, row: tuple[int, list[str]], columns: Sequence[str]) -> Iterator[Problem]:
    line, cells = row
    count = len(_trim_end(cells))
    if count > len(columns):
        message = f"the row has {count} cells, but the header only {len(columns)}"
        mend = 'Put a text that has a comma or a semicolon in it between quotation marks (").'
        yield Problem(file, line, "", "bad-csv", message, mend)


def _row(line: int, cells: Sequence[str], columns: Sequence[str]) -> Row:
    filled = [*(_as_meant(cell) for cell in cells), *("" for _ in columns)]
    return Row(line, dict(zip(columns, filled, strict=False)))


def _as_meant(cell: str) -> str:
    """Without the apostrophe that keeps a spreadsheet from running what follows."""
    return cell[1:] if len(cell) > 1 and cell[0] == "'" and cell[1] in "=+-@\t\r" else cell


def _trim_end(cells: Sequence[str]) -> Sequence[str]:
    """``cells`` without the empty ones at their end."""
    count = max((place for place, cell in enumerate(cells, 1) if cell), default=0)
    return cells[:count]
