"""``sheets``: drawing sheets printed, with the register that fixes whose they are."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import typer

from bookmaker.classroom.issuing import NoSuchSheet, Wish
from bookmaker.classroom.made import NAME as MADE
from bookmaker.classroom.made import Made, with_made, write_made
from bookmaker.classroom.print_sheets import PrintedSheets, print_sheets
from bookmaker.classroom.register import NAME as REGISTER
from bookmaker.cli.codes import CommandFault
from bookmaker.cli.surroundings import alone_with, build_context, existing_class
from bookmaker.cli.tell import tell_problems
from bookmaker.output import write_all
from bookmaker.records import as_seen_from
from bookmaker.scanning.sheet_plan import PAPERS


def make_sheets(
    manifest: Path, out: Path, paper: str | None, blank: tuple[int, int], assign: Sequence[str]
) -> None:
    """Write the sheets, the list and the register; ``blank`` is how many spare, of what rings."""
    if paper is not None and paper.lower() not in PAPERS:
        raise CommandFault(f"Drawing sheets are a4 or letter, not {paper!r}.")
    spare, free = blank
    if free == 1:
        raise CommandFault("A page has two spots at least. Ask for more rings: --free 4.")
    given = tuple(_assignment(each) for each in assign)
    wish = Wish((paper or "").lower(), max(spare, 1 if free else 0), free, given)
    with alone_with(existing_class(manifest)):
        try:
            printed = print_sheets(manifest, wish, build_context())
        except NoSuchSheet as fault:
            raise CommandFault(str(fault)) from fault
        _write(printed, out)


def _assignment(text: str) -> tuple[int, str]:
    number, _, pupil = text.partition("=")
    if not (number.strip().isdecimal() and pupil.strip()):
        raise CommandFault(f"--assign {text!r} is not like 31=Kofi: a sheet's number, a pupil.")
    return int(number), pupil.strip()


def _write(printed: PrintedSheets, out: Path) -> None:
    classroom = printed.classroom
    folder = classroom.folder
    sheets = out / f"{classroom.name}-sheets.pdf"
    listed = out / f"{classroom.name}-sheets-list.pdf"
    numbers = tuple(entry.sheet for entry in printed.entries)
    made = with_made(printed.made, Made("sheets", as_seen_from(folder, sheets), numbers))
    made = with_made(made, Made("list", as_seen_from(folder, listed), numbers))
    write_all(
        [
            (folder / REGISTER, printed.register),
            (folder / MADE, write_made(made)),
            (listed, printed.hand_out),
            (sheets, printed.sheets),
        ]
    )
    tell_problems(printed.problems)
    count = len(numbers)
    typer.echo(f"{sheets}: {count} drawing {'sheet' if count == 1 else 'sheets'}, one side each")
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
