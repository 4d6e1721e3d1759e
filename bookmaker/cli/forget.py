"""``forget``: everything of one pupil removed, and said where else the name or drawing stands."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import typer

from bookmaker.classroom.forgetting import Forgetting, forget, forget_all
from bookmaker.classroom.forgotten import read_forgotten
from bookmaker.classroom.keeping import read_shelf
from bookmaker.classroom.print_review import PRINTED, print_review
from bookmaker.classroom.print_sheets import read_classroom
from bookmaker.classroom.traces import Trace, files_there
from bookmaker.cli.codes import CommandFault
from bookmaker.cli.surroundings import alone_with, build_context, existing_class
from bookmaker.cli.tell import many
from bookmaker.ordering import nearest
from bookmaker.output import remove_all, sweep, write_all
from bookmaker.reading import without_cells


@dataclass(frozen=True, slots=True)
class _Ours:
    """What is ours to clear: files and folders that were made, and cells of tables."""

    made: tuple[Path, ...]
    cells: tuple[Trace, ...]

    def __bool__(self) -> bool:
        return bool(self.made or self.cells)


def forget_pupil(
    manifest: Path, name: str, everybody: bool, clear: bool, look: Sequence[Path]
) -> None:
    """Write what the name is held back by first, then remove the files, and the rows last, so that
    a run that breaks off can be repeated; what takes long comes before any."""
    if everybody == bool(name.strip()):
        raise CommandFault("Name a pupil as the roster does, or say --all; not both.")
    with alone_with(existing_class(manifest)):
        _forget(manifest, name, everybody, clear, look)


def _forget(manifest: Path, name: str, everybody: bool, clear: bool, look: Sequence[Path]) -> None:
    classroom, _ = read_classroom(manifest, whole=False)
    folder = classroom.folder
    shelf, forgotten = read_shelf(classroom), read_forgotten(folder)
    gone = forget_all(shelf, forgotten) if everybody else forget(shelf, name, forgotten)
    if gone is None or (gone.again and not clear):
        hint = " It was forgotten before: --clear clears what still stands." if gone else ""
        known = [*(p.name for p in classroom.pupils), *(row.pupil for row in shelf.register)]
        raise CommandFault(f"The class has no pupil {name!r}.{hint or nearest(name, known)}")
    _remove(gone, folder)
    folders = (folder, Path(), *look)
    for place in folders:
        sweep(place)
    books = [each for file in gone.books for each in (file, _certificate(file))]
    there = files_there([*books, *gone.lists], folders)
    emptied = tuple(trace for trace in gone.traces if trace.may_be_emptied)
    ours = _Ours(tuple(there), emptied)
    for line in (*_removed(gone), *_elsewhere(gone, ours), *_scans(gone, folders)):
        typer.echo(line)
    if ours and (clear or _agreed(ours)):
        _clear(ours)
        typer.echo(f"Cleared {_what(ours)}.")
    elif ours:
        typer.echo("Nothing of that is cleared yet: say it again with --clear.")


def _remove(gone: Forgetting, folder: Path) -> None:
    review = folder / PRINTED
    printed = [(review, print_review(gone.shelf, build_context()))] if gone.shelf.rows else []
    write_all([gone.hashes], fixed=True)
    remove_all(gone.files if printed else (*gone.files, review))
    write_all((*printed, *gone.tables), fixed=True)


def _certificate(book: str) -> str:
    return str(Path(book).with_suffix(".certificate.json"))


def _removed(gone: Forgetting) -> Iterator[str]:
    """What went, and never more than that: a drawing that was not found is still there."""
    if gone.again:
        return
    rows = f"the rows in {many(len(gone.tables), 'table')}"
    if gone.drawings:
        yield f"Removed {many(gone.drawings, 'drawing')} ({many(len(gone.files), 'file')}), {rows}."
    else:
        what = "No drawing was kept" if gone.sheets else "No sheet in the register is theirs"
        yield f"{what}; removed {rows}."
    if not gone.sheets and gone.strangers:
        yield "These sheets are given to pupils whom the roster has not got. If one is theirs,"
        yield "forget it by the name that stands here; until then its drawing is kept:"
        yield from (f"  {number}: {pupil}" for number, pupil in gone.strangers)
    yield "The name is held back from now on, wherever a cell should bring it back."


def _elsewhere(gone: Forgetting, ours: _Ours) -> Iterator[str]:
    if gone.traces:
        yield "The name, or a word of it, stands in these places, too:"
        yield from (f"  {trace}" for trace in gone.traces)
    if gone.books:
        yield "These books and copies were built with the drawing or the name, and so were their"
        yield "certificates. Build them again, and destroy what is out:"
        yield from (f"  {file}" for file in gone.books)
    if gone.lists:
        yield "These lists have the name. Print the sheets again, and destroy the old list:"
        yield from (f"  {file}" for file in gone.lists)
    if ours.made:
        yield "Of these files, here lie:"
        yield from (f"  {path}" for path in ours.made)
    missing = [f for f in (*gone.books, *gone.lists) if Path(f).name not in _names(ours)]
    if missing:
        yield f"Not found here: {', '.join(missing)}. --look DIR looks in another folder."


def _names(ours: _Ours) -> set[str]:
    return {path.name for path in ours.made}


def _scans(gone: Forgetting, folders: Sequence[Path]) -> Iterator[str]:
    if gone.scans:
        yield "These scans or photographs show the sheet. Delete them wherever you keep them:"
        there = {path.name: path for path in files_there(gone.scans, folders)}
        yield from (f"  {there.get(file, file)}" for file in gone.scans)
    if gone.sheets:
        numbers = ", ".join(map(str, gone.sheets))
        yield f"Destroy the paper, too: {'sheet' if len(gone.sheets) == 1 else 'sheets'} {numbers}."


def _agreed(ours: _Ours) -> bool:
    """Asked on a terminal alone; elsewhere nobody can answer."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return False
    return typer.confirm(f"Clear {_what(ours)} now?", default=False)


def _what(ours: _Ours) -> str:
    parts = []
    if ours.made:
        parts.append(many(len(ours.made), "file"))
    if ours.cells:
        parts.append(many(len(ours.cells), "cell"))
    return " and ".join(parts)


def _clear(ours: _Ours) -> None:
    remove_all(path for path in ours.made if not path.is_dir())
    for path in filter(Path.is_dir, ours.made):
        remove_all(sorted(path.glob("*.svg")))
        if not any(path.iterdir()):
            shutil.rmtree(path)
    for table in dict.fromkeys(trace.file for trace in ours.cells):
        cells = {(trace.line, trace.column) for trace in ours.cells if trace.file == table}
        write_all([(table, without_cells(table.read_bytes(), str(table), cells))], fixed=True)
