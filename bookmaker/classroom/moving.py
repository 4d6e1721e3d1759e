"""Moving: a drawing that was made on a copy of another pupil's sheet gets a number of its own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from bookmaker.classroom.keeping import Shelf
from bookmaker.classroom.review import Reviewed, drawing_file, strip_file
from bookmaker.model import Classroom, SheetEntry
from bookmaker.output import OutputFault


@dataclass(frozen=True, slots=True)
class Move:
    """A drawing, the sheet that it becomes, and the files to rename."""

    drawing: str
    entry: SheetEntry
    files: tuple[tuple[Path, Path], ...]


def moves_of(
    classroom: Classroom, copies: Sequence[tuple[str, int]], register: Sequence[SheetEntry]
) -> tuple[Move, ...]:
    """What becomes of each drawing with its new number."""
    entries = {entry.sheet: entry for entry in register}
    return tuple(
        Move(
            drawing,
            entries[number],
            tuple(
                (of(classroom.folder, drawing), of(classroom.folder, str(number)))
                for of in (strip_file, drawing_file)
            ),
        )
        for drawing, number in copies
    )


def with_moves(shelf: Shelf, moves: Iterable[Move]) -> Shelf:
    """The shelf with the drawings under their new numbers; a yes was said to another pupil's."""
    to = {move.drawing: move.entry for move in moves}
    rows = tuple(_moved(row, to[row.drawing]) if row.drawing in to else row for row in shelf.rows)
    return replace(shelf, rows=rows)


def _moved(row: Reviewed, entry: SheetEntry) -> Reviewed:
    return replace(
        row,
        drawing=str(entry.sheet),
        pupil=entry.pupil,
        use="" if row.use == "yes" else row.use,
        copied=row.copied or row.sheet,
    )


def rename(moves: Iterable[Move]) -> None:
    """Give the files their new names; raises OutputFault."""
    for before, after in (pair for move in moves for pair in move.files):
        try:
            if before.exists():
                before.replace(after)
        except OSError as error:
            raise OutputFault(f"{before} can't be renamed: {error.strerror}.") from error
