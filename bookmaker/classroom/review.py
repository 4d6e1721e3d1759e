"""The review: what intake found, and the teacher's yes or no to each drawing, in ``review.csv``."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from unicodedata import normalize

from bookmaker.classroom.tables import table_bytes
from bookmaker.model import InputProblems, Point, Problem
from bookmaker.reading import Row, Table, read_table
from bookmaker.scanning.sheet_plan import PAPERS, sheet_plan

NAME = "review.csv"
DRAWINGS = "drawings"
STRIPS = "names"
COLUMNS = (
    *("drawing", "pupil", "page", "use", "faults", "blur", "dpi", "scan", "others", "rings"),
    *("class", "seen", "copied"),
)
FRAMES = tuple(sheet_plan(paper).frame for paper in PAPERS)
FARTHEST = (max(frame.width for frame in FRAMES), max(frame.height for frame in FRAMES))
"""Millimetres from its drawing's top left that no ring lies beyond, on any paper."""
YES, NO = ("yes", "sí", "si", "oui"), ("no", "non")
"""What teachers write; review.csv keeps yes and no."""
_FILE = re.compile(r"(\d+)(_\d+)?\.png")  # a spreadsheet would make a date of 1-2


@dataclass(frozen=True, slots=True)
class Reviewed:
    """One drawing: ``drawing`` is its sheet's number, with "_2", "_3", ... where another drawing
    came in on the same sheet. ``use`` is "yes", "no" or "" (not said yet); ``blur`` in
    millimetres; ``scan`` the file, without its folder, that it came from, ``others`` those that
    show the same. ``rings`` are the middles of those that a child drew on a free sheet, in
    millimetres from the drawing's top left. ``class_code`` is that of the register it came in by,
    ``seen`` the digest of the picture that the review shows, "" where that is not known: a yes
    is said to those pixels, and to no others. ``copied`` is the number that is printed on the
    paper, 0 where that is the drawing's own sheet."""

    drawing: str
    pupil: str = ""
    page: str = ""
    use: str = ""
    faults: tuple[str, ...] = ()
    blur: float = 0.0
    dpi: float = 0.0
    scan: str = ""
    others: tuple[str, ...] = ()
    rings: tuple[Point, ...] = ()
    class_code: str = ""
    seen: str = ""
    copied: int = 0

    @property
    def sheet(self) -> int:
        return int(self.drawing.partition("_")[0])

    @property
    def place(self) -> tuple[int, int]:
        """For sorting: the sheet, then which drawing on it."""
        return self.sheet, int(self.drawing.partition("_")[2] or 1)


def drawing_file(folder: Path, drawing: str) -> Path:
    """Where the picture of ``drawing`` is kept."""
    return folder / DRAWINGS / f"{drawing}.png"


def strip_file(folder: Path, drawing: str) -> Path:
    """Where the handwritten name of ``drawing`` is kept."""
    return folder / STRIPS / f"{drawing}.png"


def digest_of(png: bytes) -> str:
    """By which a drawing is known: 64 bits of SHA-256, in letters that no spreadsheet rounds."""
    return "d" + hashlib.sha256(png).hexdigest()[:16]


def is_as_seen(folder: Path, row: Reviewed) -> bool:
    """Whether the drawing is the one that the review shows; also where the review does not say."""
    try:
        return not row.seen or digest_of(drawing_file(folder, row.drawing).read_bytes()) == row.seen
    except OSError:
        return True  # whoever wants the picture says that it can't be read


def read_review(folder: Path) -> tuple[Reviewed, ...]:
    """A row for each drawing in the class's ``folder``, by sheet; also those that lack a row.

    Rows without a drawing are left out. Raises InputProblems.
    """
    return read_rows(folder)[0]


def read_rows(folder: Path) -> tuple[tuple[Reviewed, ...], tuple[Reviewed, ...]]:
    """``read_review``, and the rows whose drawings are not there. Raises InputProblems."""
    said = _said(folder / NAME)
    files = (folder / DRAWINGS).glob("*.png")
    found = {file.stem for file in files if _FILE.fullmatch(file.name)}
    rows = [said.get(drawing, Reviewed(drawing)) for drawing in found]
    gone = [row for row in said.values() if row.drawing not in found]
    return tuple(sorted(rows, key=_place)), tuple(sorted(gone, key=_place))


def _place(row: Reviewed) -> tuple[int, int]:
    return row.place


def _said(path: Path) -> dict[str, Reviewed]:
    if not path.exists():
        return {}
    table = read_table(path, needed=("drawing", "use"))
    rows: dict[str, Reviewed] = {}
    problems: list[Problem] = []
    for row in table.rows:
        fault = _fault(table, row, rows)
        if fault:
            problems.append(fault)
        else:
            rows[row["drawing"]] = _reviewed(row)
    if problems:
        raise InputProblems(problems)
    return rows


def _fault(table: Table, row: Row, before: dict[str, Reviewed]) -> Problem | None:
    drawing, use = row["drawing"], _use(row)
    if not _FILE.fullmatch(f"{drawing}.png"):
        message, mend = f"there is no drawing {drawing!r}", "Write a sheet's number, like 12."
    elif drawing in before:
        message, mend = f"drawing {drawing} stands here twice", "Take one of the rows out."
    elif use is None:
        message = f"use can't be {row['use']!r}"
        mend = "Write yes or no (sí, oui, non do as well); empty is not said yet."
    elif _rings(row.cells.get("rings", "")) is None:
        message = f"rings can't be {row['rings']!r}"
        mend = "Write them in millimetres from the drawing's top left, like 20 30; 80.5 30."
    else:
        return None
    return Problem(table.file, row.line, "", "bad-value", message, mend)


def _use(row: Row) -> str | None:
    """The teacher's "yes" or "no", "" where nothing is said yet; None for anything else."""
    use = normalize("NFC", row["use"]).strip().casefold()
    if use in YES:
        return "yes"
    return "no" if use in NO else None if use else ""


def _reviewed(row: Row) -> Reviewed:
    cells = row.cells
    return Reviewed(
        row["drawing"],
        cells.get("pupil", ""),
        cells.get("page", ""),
        _use(row) or "",
        tuple(cells.get("faults", "").split()),
        _number(cells.get("blur", "")),
        _number(cells.get("dpi", "")),
        cells.get("scan", ""),
        tuple(filter(None, cells.get("others", "").split("; "))),
        _rings(cells.get("rings", "")) or (),
        cells.get("class", "") and cells["class"].zfill(8),  # spreadsheets drop noughts
        cells.get("seen", ""),
        int(_number(cells.get("copied", ""))),
    )


def _number(text: str) -> float:
    try:
        return float(text.replace(",", "."))
    except ValueError:
        return 0.0


def _rings(text: str) -> tuple[Point, ...] | None:
    """What ``write_review`` wrote, or a teacher; None where it is not to be understood."""
    found = []
    for part in filter(None, (each.split() for each in text.split(";"))):
        try:
            x, y = (float(value.replace(",", ".")) for value in part)
        except ValueError:
            return None
        if not (0 <= x <= FARTHEST[0] and 0 <= y <= FARTHEST[1]):  # NaN is below nothing
            return None
        found.append((x, y))
    return tuple(found)


def write_review(rows: Iterable[Reviewed], delimiter: str = ",") -> bytes:
    """The review as a table, by sheet. A spreadsheet opens it with a double click where
    ``delimiter`` is the one that it writes itself."""
    ordered = sorted(rows, key=_place)
    return table_bytes(COLUMNS, map(_cells, ordered), delimiter)


def _cells(row: Reviewed) -> tuple[str, ...]:
    measured = (" ".join(row.faults), f"{row.blur:.2f}", f"{row.dpi:.0f}")
    rings = "; ".join(f"{x:.1f} {y:.1f}" for x, y in row.rings)
    scans = (row.scan, "; ".join(row.others))
    known = (row.class_code, row.seen, str(row.copied or ""))
    return (row.drawing, row.pupil, row.page, row.use, *measured, *scans, rings, *known)
