"""The arguments and options that several commands have."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal, Optional

import typer

if TYPE_CHECKING:
    from bookmaker.ordering import Part

Manifest = Annotated[
    Path, typer.Argument(metavar="FILE.toml", help="A book's or a chapter's manifest.")
]
OrClass = Annotated[
    Optional[Path],
    typer.Argument(
        metavar="FILE.toml", help="A book's or a chapter's manifest; with --class not needed."
    ),
]
PageName = Annotated[str, typer.Argument(metavar="PAGE", help="A page's id or name.")]
Out = Annotated[
    Path, typer.Option("--out", metavar="DIR", help="Where to put the files; made if missing.")
]
Paper = Annotated[
    Optional[str],
    typer.Option(
        "--paper",
        metavar="PAPER",
        callback=lambda said: said and _known("paper", said),
        help="a4, letter, a5, half-letter, a3 or board, for this once.",
    ),
]
Only = Annotated[
    Optional[list[str]],
    typer.Option("--only", metavar="PAGE", help="This page alone, by id or name. Repeatable."),
]
ChapterFile = Annotated[
    Optional[list[str]],
    typer.Option("--chapter", metavar="FILE", help="This chapter alone. Repeatable."),
]
WeekNumber = Annotated[
    Optional[list[int]],
    typer.Option("--week", metavar="N", help="The pages of this week. Repeatable."),
]
InkName = Annotated[
    Optional[list[str]],
    typer.Option(
        "--ink",
        metavar="INK",
        help="full, light (pictures faded) or grey (no colour at all). Twice: light and grey.",
    ),
]
ClassFile = Annotated[
    Optional[Path],
    typer.Option("--class", metavar="CLASS.toml", help="With the drawings of this class."),
]
UseAll = Annotated[
    bool, typer.Option("--use-all", help="Take drawings that review.csv says nothing of, too.")
]
Debug = Annotated[bool, typer.Option("--debug", help="Show where in the program a fault arose.")]


def _known(what: Literal["ink", "paper"], said: str) -> str | None:
    """The ink or the paper that is meant, by its own name; raises CommandFault for none."""
    from bookmaker.cli.surroundings import known_ink, known_paper  # take time to load

    return known_ink(said) if what == "ink" else known_paper(said)


def inks(told: Sequence[str] | None) -> str:
    """The inks of a command line by one name, "full" where none is told; raises CommandFault."""
    said = "-".join(told or ("full",))
    return said if said == "full" else str(_known("ink", said))


def part_of(
    pages: Optional[list[str]], chapters: Optional[list[str]], weeks: Optional[list[int]]
) -> Part:
    """The part of a book that these options ask for; none of them: the whole of it."""
    from bookmaker.ordering import Part  # takes time to load

    return Part(tuple(pages or ()), tuple(chapters or ()), tuple(weeks or ()))
