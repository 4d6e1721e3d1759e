"""Commands of the class edition: the children draw, the teacher keeps control."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Optional

import typer

from bookmaker.cli.options import Debug

ClassManifest = Annotated[Path, typer.Argument(metavar="CLASS.toml", help="The class's manifest.")]


def sheets(
    classroom: ClassManifest,
    out: Annotated[
        Path, typer.Option("--out", metavar="DIR", help="Where to put the PDFs; made if missing.")
    ] = Path(),
    paper: Annotated[
        Optional[str],
        typer.Option("--paper", metavar="PAPER", help="a4 or letter, for sheets that are new."),
    ] = None,
    spare: Annotated[
        int, typer.Option("--spare", metavar="N", min=0, help="Have N sheets that nobody has yet.")
    ] = 0,
    free: Annotated[
        int,
        typer.Option(
            "--free",
            metavar="N",
            min=0,
            max=35,
            help="New spare sheets have no spots: the child draws, then puts N rings on it.",
        ),
    ] = 0,
    assign: Annotated[
        Optional[list[str]],
        typer.Option(
            "--assign",
            metavar="SHEET=PUPIL",
            help="Give a spare sheet to a pupil, or a drawing on a copied one: 12_2=Kofi. "
            "Repeatable.",
        ),
    ] = None,
    new: Annotated[
        bool, typer.Option("--new", help="Print the sheets that are new, and no others.")
    ] = False,
    debug: Debug = False,
) -> None:
    """Print a drawing sheet for each pupil of a class, and the list of who has which."""
    from bookmaker.cli.sheets import make_sheets

    make_sheets(classroom, (out, new), paper, (spare, free), assign or [])


def intake(
    classroom: ClassManifest,
    scans: Annotated[
        list[Path],
        typer.Argument(metavar="SCAN", help="Scans and photographs, or folders of them."),
    ],
    debug: Debug = False,
) -> None:
    """Take scans and photographs of drawing sheets in, for the teacher to look through."""
    from bookmaker.cli.intake import take_scans

    take_scans(classroom, scans)


def review(
    classroom: ClassManifest,
    yes_but: Annotated[
        Optional[str],
        typer.Option(
            "--yes-but",
            metavar="5,9",
            help='Yes to all that nothing was said of, no to these drawings. "": to none.',
        ),
    ] = None,
    yes: Annotated[str, typer.Option("--yes", metavar="3,4", help="Yes to these.")] = "",
    no: Annotated[str, typer.Option("--no", metavar="5", help="No to these.")] = "",
    debug: Debug = False,
) -> None:
    """Tell what is said of each drawing and who is missing; say yes or no to many at once."""
    from bookmaker.cli.review import review_class

    review_class(classroom, yes_but, yes, no)


def forget(
    classroom: ClassManifest,
    pupil: Annotated[
        str, typer.Argument(metavar="PUPIL", help="The name as the roster has it.")
    ] = "",
    everybody: Annotated[
        bool, typer.Option("--all", help="Every pupil of the class: the year is over.")
    ] = False,
    clear: Annotated[
        bool,
        typer.Option("--clear", help="Also delete the books and lists, and empty the cells."),
    ] = False,
    look: Annotated[
        Optional[list[Path]],
        typer.Option(
            "--look", metavar="DIR", help="A folder where books or scans may lie. Repeatable."
        ),
    ] = None,
    debug: Debug = False,
) -> None:
    """Remove every file and row of one pupil, and say where else the name or the drawing is."""
    from bookmaker.cli.forget import forget_pupil

    forget_pupil(classroom, pupil, everybody, clear, look or [])
