"""``intake``: scans taken in, one at a time, each written before the next is looked at."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

import typer

from bookmaker.classroom.keeping import KEPT, Finding, Shelf, missing, swept, taken_back
from bookmaker.classroom.made import NAME as MADE
from bookmaker.classroom.made import write_made
from bookmaker.classroom.print_review import PRINTED, print_review
from bookmaker.classroom.print_sheets import read_classroom
from bookmaker.classroom.review import DRAWINGS, NAME, STRIPS, drawing_file, strip_file
from bookmaker.classroom.take_scans import Files, shelf_of, take_in_scans
from bookmaker.classroom.verdicts import reason, verdict
from bookmaker.cli.codes import CommandFault
from bookmaker.cli.surroundings import alone_with, build_context, existing_class
from bookmaker.cli.tell import table, tell_problems, terminal_width
from bookmaker.output import remove_all, write_all
from bookmaker.words import load

HEADS = ("sheet", "pupil", "blur mm", "dpi", "picture", "verdict")

FEW = 12
"""Pages of a file that are named one by one."""


def take_scans(manifest: Path, named: Sequence[Path]) -> None:
    """Keep the drawings, write the review anew, and print what every picture was."""
    for path in named:
        if not path.exists():
            raise CommandFault(f"{path} is not there. Check the name and the folder.")
    with alone_with(existing_class(manifest)):
        _take(manifest, named)


def _take(manifest: Path, named: Sequence[Path]) -> None:
    classroom, told = read_classroom(manifest)
    _spare_kept(classroom.folder, named)
    shelf = shelf_of(classroom)
    files = Files.of(named, _ours(shelf))
    if not files.paths:
        raise CommandFault(f"There is nothing to take in: no file in {', '.join(map(str, named))}.")
    tell_problems(told)
    shelf = _as_looked_at(_without_refused(shelf))
    before = missing(shelf)
    if before:
        print(f"Missing so far: {', '.join(before)}.", file=sys.stderr)
    findings: list[Finding] = []
    context = build_context()
    for kept in take_in_scans(shelf, files, context):
        write_all(kept.files, fixed=True)
        shelf = kept.shelf
        findings.append(kept.finding)
    review = classroom.folder / PRINTED
    reviewed = [(review, print_review(shelf, context)), (classroom.folder / NAME, shelf.review)]
    write_all(reviewed, fixed=True)
    _tell(findings, shelf, review)


def _spare_kept(folder: Path, named: Sequence[Path]) -> None:
    """A scan that lies among the drawings might be overwritten by one of them."""
    for path in named:
        for kept in (DRAWINGS, STRIPS):
            if path.resolve().is_relative_to((folder / kept).resolve()):
                told = f"{path} is where bookmaker keeps the class's {kept}."
                raise CommandFault(f"{told} Put scans into a folder of their own.")


def _ours(shelf: Shelf) -> set[Path]:
    """What is no scan though it may lie among them: what the class's folder holds of itself."""
    folder = shelf.folder
    made = (folder / one.file for one in shelf.made if one.what != "scan")
    tables = (*folder.glob("*.csv"), *folder.glob("*.toml"), folder / PRINTED)
    kept = (of(folder, row.drawing) for row in shelf.rows for of in (drawing_file, strip_file))
    return {path.resolve() for path in (*made, *tables, *kept)}


def _without_refused(shelf: Shelf) -> Shelf:
    """The shelf without what the roster says no to by now: those files go at once, and the pages
    that show them, which are made anew when all is taken in."""
    left, files = swept(shelf)
    if files:
        write_all([(shelf.folder / MADE, write_made(left.made))], fixed=True)
        remove_all((*files, shelf.folder / PRINTED))
        write_all([(shelf.folder / NAME, left.review)], fixed=True)
        count = len(shelf.rows) - len(left.rows)
        what = "1 drawing" if count == 1 else f"{count} drawings"
        print(f"Removed {what}: the roster says no by now.", file=sys.stderr)
    return left


def _as_looked_at(shelf: Shelf) -> Shelf:
    """The shelf without a yes to a drawing that somebody changed since."""
    left, drawings = taken_back(shelf)
    if drawings:
        named = ", ".join(drawings)
        print(f"Taken back: the yes to {named}, changed since. Look again.", file=sys.stderr)
    return left


def _tell(findings: Sequence[Finding], shelf: Shelf, review: Path) -> None:
    of_sheets = [found for found in findings if found.sheet]
    if of_sheets:
        rows = [_row(found) for found in sorted(of_sheets, key=_by_sheet)]
        typer.echo(table([HEADS, *rows], terminal_width()))
    for line in _strays([found for found in findings if not found.sheet]):
        typer.echo(line)
    kept = sum(found.fate in KEPT for found in findings)
    typer.echo(f"Kept {kept} of {len(findings)} {'picture' if len(findings) == 1 else 'pictures'}.")
    strangers = _not_in_roster(shelf)
    if strangers:
        typer.echo(f"Not in the roster any more: {', '.join(strangers)}.")
        typer.echo("Add rows of those names, or remove their drawings with bookmaker forget.")
    lacking = missing(shelf)
    if lacking:
        typer.echo(f"Still missing: {', '.join(lacking)}.")
    typer.echo(f"{review}: look the drawings through, then say yes or no to each in {NAME}.")


def _by_sheet(found: Finding) -> tuple[int, str, int]:
    return found.sheet, found.source.file, found.source.page


def _row(found: Finding) -> tuple[str, ...]:
    measured = (f"{found.blur:.2f}", f"{found.dpi:.0f}") if found.dpi else ("-", "-")
    words = load("en")
    where = _where(found.source.file, [found.source.page])
    return (str(found.sheet), found.pupil or "-", *measured, where, verdict(found, words))


def _strays(findings: Sequence[Finding]) -> Iterator[str]:
    """Pictures that are no sheet of the class: pages of one file with one reason on one line."""
    told: dict[tuple[str, str], list[int]] = {}
    for found in findings:
        assert found.refused is not None
        why = reason(found.source, found.refused)
        told.setdefault((found.source.file, why), []).append(found.source.page)
    for (file, why), pages in told.items():
        yield f"{_where(file, pages)}: {why}."


def _where(file: str, pages: Sequence[int]) -> str:
    """``pages`` hold 0 where a file is one picture; twice the same where two files have a name."""
    numbers = sorted(set(pages))
    first, last = numbers[0], numbers[-1]
    if last == 0:
        return file if len(pages) == 1 else f"{file} ({len(pages)} files)"
    if first == last:
        return f"{file}, page {first}"
    if last - first + 1 == len(numbers):
        return f"{file}, pages {first}-{last}"
    if len(numbers) <= FEW:
        return f"{file}, pages {', '.join(map(str, numbers))}"
    return f"{file}, {len(numbers)} pages from {first} to {last}"


def _not_in_roster(shelf: Shelf) -> list[str]:
    """Drawings that are kept and whose pupils the roster no longer has."""
    return [
        f"{row.drawing} ({row.pupil})"
        for row in shelf.rows
        if row.pupil and shelf.classroom.pupil(row.pupil) is None
    ]
