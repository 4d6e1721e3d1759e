"""``forget``: everything of one pupil removed, and said where else the drawing stands."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import typer

from bookmaker.classroom.forgetting import Forgotten, forget
from bookmaker.classroom.keeping import read_shelf
from bookmaker.classroom.made import read_made
from bookmaker.classroom.print_review import PRINTED, print_review
from bookmaker.classroom.print_sheets import read_classroom
from bookmaker.cli.codes import CommandFault
from bookmaker.cli.surroundings import build_context, existing_class
from bookmaker.ordering import nearest
from bookmaker.output import remove_all, write_all


def forget_pupil(manifest: Path, name: str) -> None:
    """Remove the files first and the rows last, so that a run that breaks off can be repeated; what
    takes long comes before either."""
    classroom, _ = read_classroom(existing_class(manifest), whole=False)
    folder = classroom.folder
    shelf = read_shelf(classroom)
    gone = forget(shelf, name, read_made(folder))
    if gone is None:
        known = [*(p.name for p in classroom.pupils), *(row.pupil for row in shelf.register)]
        raise CommandFault(f"The class has no pupil {name!r}.{nearest(name, known)}")
    review = folder / PRINTED
    printed = [(review, print_review(gone.shelf, build_context()))] if gone.shelf.rows else []
    remove_all(gone.files if printed else (*gone.files, review))
    write_all((*printed, *gone.tables), fixed=True)
    for line in _told(gone):
        typer.echo(line)


def _told(gone: Forgotten) -> Iterator[str]:
    files, rows = len(gone.files), len(gone.tables)
    yield f"Removed {files} {'file' if files == 1 else 'files'}, and the rows in {rows} tables."
    if gone.books:
        yield "These books were built with the drawing. Build them again, and destroy what is out:"
        yield from (f"  {file}" for file in gone.books)
    if gone.lists:
        yield "These lists have the name. Print the sheets again, and destroy the old list:"
        yield from (f"  {file}" for file in gone.lists)
    if gone.scans:
        yield "These scans or photographs show the sheet. Delete them wherever you keep them:"
        yield from (f"  {file}" for file in gone.scans)
    if gone.sheets:
        numbers = ", ".join(map(str, gone.sheets))
        what = "sheet" if len(gone.sheets) == 1 else "sheets"
        yield f"Destroy the paper, too: {what} {numbers}."
