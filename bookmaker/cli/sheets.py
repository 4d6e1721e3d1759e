"""``sheets``: drawing sheets printed, with the register that fixes whose they are."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

import typer

from bookmaker.classroom.issuing import NoSuchSheet, Wish
from bookmaker.classroom.keeping import read_shelf
from bookmaker.classroom.made import NAME as MADE
from bookmaker.classroom.made import Made, with_made, write_made
from bookmaker.classroom.moving import rename, with_moves
from bookmaker.classroom.print_sheets import PrintedSheets, print_sheets
from bookmaker.classroom.register import NAME as REGISTER
from bookmaker.classroom.review import NAME as REVIEW
from bookmaker.cli.codes import CommandFault
from bookmaker.cli.surroundings import alone_with, build_context, existing_class
from bookmaker.cli.tell import many, tell_problems
from bookmaker.output import write_all
from bookmaker.records import as_seen_from
from bookmaker.scanning.sheet_plan import PAPERS


def make_sheets(
    manifest: Path,
    out: tuple[Path, bool],
    paper: str | None,
    blank: tuple[int, int],
    assign: Sequence[str],
) -> None:
    """Write the sheets, the list and the register; ``out`` is where, and whether new sheets alone
    are printed; ``blank`` is how many spare, of what rings."""
    if paper is not None and paper.lower() not in PAPERS:
        raise CommandFault(f"Drawing sheets are a4 or letter, not {paper!r}.")
    spare, free = blank
    if free == 1:
        raise CommandFault("A page has two spots at least. Ask for more rings: --free 4.")
    given = [_assignment(each) for each in assign]
    spares = tuple((int(number), name) for number, name in given if number.isdecimal())
    copies = tuple((drawing, name) for drawing, name in given if not drawing.isdecimal())
    wish = Wish((paper or "").lower(), max(spare, 1 if free else 0), free, spares, copies)
    with alone_with(existing_class(manifest)):
        try:
            printed = print_sheets(manifest, wish, build_context(), out[1])
        except NoSuchSheet as fault:
            raise CommandFault(str(fault)) from fault
        _write(printed, *out)


def _assignment(text: str) -> tuple[str, str]:
    """A sheet's number, or a drawing's as ``review.csv`` has it, and the pupil."""
    number, _, pupil = text.partition("=")
    if not (re.fullmatch(r"[0-9]+(_[0-9]+)?", number.strip()) and pupil.strip()):
        raise CommandFault(f"--assign {text!r} is not like 31=Kofi: a sheet's number, a pupil.")
    return number.strip(), pupil.strip()


def _write(printed: PrintedSheets, out: Path, new_alone: bool) -> None:
    classroom = printed.classroom
    folder = classroom.folder
    sheets = out / f"{classroom.name}-sheets{'-new' if new_alone else ''}.pdf"
    listed = out / f"{classroom.name}-sheets-list.pdf"
    numbers = tuple(entry.sheet for entry in printed.entries)
    mine = tuple(set(printed.printed) | {move.entry.sheet for move in printed.moves})
    made = with_made(printed.made, Made("sheets", as_seen_from(folder, sheets), mine))
    made = with_made(made, Made("list", as_seen_from(folder, listed), numbers))
    shelf = with_moves(read_shelf(classroom), printed.moves)
    write_all(
        [
            (folder / REGISTER, printed.register),
            (folder / MADE, write_made(made)),
            *([(folder / REVIEW, shelf.review)] if printed.moves else []),
            (listed, printed.hand_out),
            *([(sheets, printed.sheets)] if printed.sheets else []),
        ]
    )
    rename(printed.moves)
    tell_problems(printed.problems)
    for move in printed.moves:
        told = f"Drawing {move.drawing} is {move.entry.pupil}'s now, as sheet {move.entry.sheet}."
        typer.echo(f"{told} Look it through again: review.csv.")
    if printed.sheets:
        typer.echo(f"{sheets}: {many(len(printed.printed), 'drawing sheet')}, one side each")
    new = f"New are {_runs(printed.new)}." if printed.new else "None is new."
    typer.echo(f"{new} Print at 100% in colour, on one side; do not photocopy.")
    typer.echo(f"{listed}: who has which sheet. It holds names: for the teacher alone.")


def _runs(numbers: Sequence[int]) -> str:
    """``(1, 2, 3, 7)`` as ``"1-3, 7"``."""
    parts: list[list[int]] = []
    for number in numbers:
        if parts and number == parts[-1][-1] + 1:
            parts[-1].append(number)
        else:
            parts.append([number])
    return ", ".join(f"{p[0]}-{p[-1]}" if len(p) > 1 else str(p[0]) for p in parts)
