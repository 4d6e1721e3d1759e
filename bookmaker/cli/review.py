"""``review``: what is said of a class's drawings, who is missing, and a yes to many at once."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from dataclasses import replace
from pathlib import Path

import typer

from bookmaker.classroom.keeping import Shelf, missing, taken_back
from bookmaker.classroom.print_review import PRINTED, print_review
from bookmaker.classroom.print_sheets import read_classroom
from bookmaker.classroom.review import NAME, Reviewed
from bookmaker.classroom.take_scans import shelf_of
from bookmaker.cli.codes import CommandFault
from bookmaker.cli.surroundings import alone_with, build_context, existing_class
from bookmaker.cli.tell import table, tell_problems
from bookmaker.output import write_all

HEADS = ("drawing", "pupil", "page", "use", "faults")


def review_class(manifest: Path, yes_but: str | None, yes: str, no: str) -> None:
    """Say yes and no, print the review anew, and tell what is said; what a no was said to before
    keeps it unless it is named."""
    with alone_with(existing_class(manifest)):
        classroom, told = read_classroom(manifest)
        tell_problems(told)
        shelf, changed = taken_back(shelf_of(classroom))
        spared = None if yes_but is None else _named(yes_but, shelf)
        says = (_named(yes, shelf), _named(no, shelf))
        rows = tuple(_said(row, changed, spared, says) for row in shelf.rows)
        shelf = replace(shelf, rows=rows)
        context = build_context()
        files = [(shelf.folder / NAME, shelf.review)]
        if rows:
            files.append((shelf.folder / PRINTED, print_review(shelf, context)))
        write_all(files, fixed=True)
    _tell(shelf, changed)


def _named(text: str, shelf: Shelf) -> frozenset[str]:
    """Drawings as ``5,9`` names them; raises CommandFault for one that is not there."""
    names = [name for name in re.split(r"[\s,;]+", text) if name]
    known = {row.drawing for row in shelf.rows}
    strange = [name for name in names if name not in known]
    if strange:
        raise CommandFault(f"There is no drawing {', '.join(strange)}: see bookmaker review.")
    return frozenset(names)


def _said(
    row: Reviewed,
    changed: Collection[str],
    spared: Collection[str] | None,
    says: tuple[Collection[str], Collection[str]],
) -> Reviewed:
    """``spared`` get a no and all others that nothing was said of a yes, where that is asked for;
    not those that changed since the review was printed: nobody has seen them."""
    if row.drawing in says[1] or row.drawing in (spared or ()):
        return replace(row, use="no")
    if row.drawing in says[0]:
        return replace(row, use="yes")
    if spared is not None and row.use == "" and row.drawing not in changed:
        return replace(row, use="yes")
    return row


def _tell(shelf: Shelf, changed: Sequence[str]) -> None:
    if shelf.rows:
        rows = [(r.drawing, r.pupil, r.page, r.use or "?", " ".join(r.faults)) for r in shelf.rows]
        typer.echo(table([HEADS, *rows]))
    said = [row.use for row in shelf.rows]
    counts = f"{said.count('yes')} yes, {said.count('no')} no, {said.count('')} not said yet"
    typer.echo(f"{len(said)} drawings: {counts}.")
    if changed:
        typer.echo(f"Taken back: the yes to {', '.join(changed)}, changed since. Look again.")
    lacking = missing(shelf)
    typer.echo(f"Still missing: {', '.join(lacking)}." if lacking else "Nobody is missing.")
    if shelf.rows:
        typer.echo(f"{shelf.folder / PRINTED}: the drawings to look through.")
