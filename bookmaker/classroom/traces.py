"""Traces: the words of a name in, the places in a class's own files where they still stand out."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from bookmaker.classroom.forgotten import NAME as FORGOTTEN
from bookmaker.classroom.made import NAME as MADE
from bookmaker.classroom.names import named_in, words_of
from bookmaker.classroom.register import NAME as REGISTER
from bookmaker.classroom.review import DRAWINGS, STRIPS
from bookmaker.classroom.review import NAME as REVIEW
from bookmaker.model import Classroom, InputProblems, folded
from bookmaker.reading import parse_table

OURS = (REGISTER, REVIEW, MADE, FORGOTTEN)
MOST_TEXT = 5_000_000
"""Bytes of a file of words that is looked through."""


@dataclass(frozen=True, slots=True)
class Trace:
    """A place that holds a word of a name: a cell of a table (``column``), a line of a text, or,
    with ``line`` 0, a file by its own name. ``pupil`` is whose row of the roster it is."""

    file: Path
    line: int = 0
    column: str = ""
    pupil: str = ""

    def __str__(self) -> str:
        where = f"{self.file}:{self.line}" if self.line else f"{self.file}"
        return f"{where}: {self.column or 'a line'}" if self.line else f"{where}: the file's name"

    @property
    def may_be_emptied(self) -> bool:
        """Whether it is a cell that can be emptied and the table still be the class's."""
        return self.column not in ("", "pupil")


def traces_of(classroom: Classroom, words: Collection[str], roster_data: bytes) -> list[Trace]:
    """Where ``words`` stand in the roster, in ``class.toml``, in other tables and texts of the
    class's folder and in the names of its files. ``roster_data`` is the roster as it is to be."""
    roster, manifest = Path(classroom.roster_file), Path(classroom.file)
    tables = [path for path in sorted(classroom.folder.glob("*.csv")) if path.name not in OURS]
    if roster != manifest and roster.resolve() not in {path.resolve() for path in tables}:
        tables.insert(0, roster)
    found: list[Trace] = []
    for table in tables:
        is_roster = table.resolve() == roster.resolve()
        data = roster_data if is_roster else table.read_bytes()
        found += _in_table(table, data, words, classroom if is_roster else None)
    for text in (*sorted(classroom.folder.glob("*.toml")), *sorted(classroom.folder.glob("*.txt"))):
        found += _in_text(text, words)
    found += _in_names(classroom.folder, words)
    return found


def _in_table(
    path: Path, data: bytes, words: Collection[str], roster_of: Classroom | None
) -> Iterator[Trace]:
    try:
        rows = parse_table(data, str(path)).rows
    except InputProblems:
        yield from _in_text(path, words)
        return
    others = {folded(pupil.name) for pupil in roster_of.pupils} if roster_of else set()
    for row in rows:
        whose = row.cells.get("pupil", "")
        for column, cell in row.cells.items():
            is_another = column == "pupil" and folded(cell) in others
            own = words_of(whose) if roster_of else frozenset()
            if not is_another and named_in(cell, frozenset(words) - own):
                yield Trace(path, row.line, column, whose if roster_of else "")


def _in_text(path: Path, words: Collection[str]) -> Iterator[Trace]:
    try:
        text = path.read_bytes()[:MOST_TEXT].decode("utf-8-sig", "replace")
    except OSError:
        return
    for number, line in enumerate(text.splitlines(), 1):
        if named_in(line, words):
            yield Trace(path, number)


def _in_names(folder: Path, words: Collection[str]) -> Iterator[Trace]:
    for path in sorted(folder.rglob("*")):
        kept = path.parent.name in (DRAWINGS, STRIPS) or path.name.endswith(".part")
        if not kept and named_in(path.stem, words):
            yield Trace(path)


def files_there(names: Sequence[str], folders: Sequence[Path]) -> list[Path]:
    """Those of ``names`` that lie in one of ``folders``, as they were recorded or by the name
    alone, each once."""
    found: dict[Path, None] = {}
    for folder in folders:
        for name in names:
            for path in (folder / name, folder / Path(name).name):
                if path.exists():
                    found.setdefault(path.resolve(), None)
    return list(found)
