"""What was made for a class, and which pictures showed its sheets: files, without any name.

Kept so that ``forget`` can say in which books and scans a drawing stands, and so that no number of
a sheet is ever given out twice.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from bookmaker.classroom.tables import table_bytes
from bookmaker.reading import read_table

NAME = "made.csv"
COLUMNS = ("what", "file", "sheets")
ADD_UP = ("sheets", "pages", "scan")


@dataclass(frozen=True, slots=True)
class Made:
    """A file that was made, or a folder of pages, and the sheets that are in it.

    Relative to the class's folder where it lies there, else by its name alone.

    ``what`` it is: "sheets", "list", "book", "key", "loose", "pages", "proof", or a "scan" of which
    no drawing was kept (the review has the others).
    """

    what: str
    file: str
    sheets: tuple[int, ...]


def read_made(folder: Path) -> tuple[Made, ...]:
    """What was made; none where there is no record yet. Raises InputProblems."""
    path = folder / NAME
    if not path.exists():
        return ()
    rows = read_table(path, needed=COLUMNS).rows
    return tuple(
        Made(row["what"], row["file"], tuple(int(n) for n in row["sheets"].split() if n.isdigit()))
        for row in rows
    )


def with_made(made: Sequence[Made], new: Made) -> tuple[Made, ...]:
    """``made`` with ``new``. Printed sheets and pages in a folder add up: earlier ones
    are still there."""
    before = next((one for one in made if (one.what, one.file) == (new.what, new.file)), None)
    sheets = set(new.sheets) | set(before.sheets if before and new.what in ADD_UP else ())
    row = Made(new.what, new.file, tuple(sorted(sheets)))
    return (*(one for one in made if one is not before), row)


def write_made(made: Iterable[Made]) -> bytes:
    """The record as a table."""
    rows = [(one.what, one.file, " ".join(map(str, one.sheets))) for one in made]
    return table_bytes(COLUMNS, sorted(rows))
