"""``begin``: a book made of a folder of pictures."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Optional

import typer

from bookmaker.cli.codes import CommandFault
from bookmaker.cli.options import Debug
from bookmaker.cli.tell import tell_problems

if TYPE_CHECKING:
    from bookmaker.begin import Asked, Begun

MOST_NAMED = 12
"""Names in one sentence."""

Folder = Annotated[Path, typer.Argument(metavar="FOLDER", help="A folder of pictures.")]
Title = Annotated[
    Optional[str],
    typer.Option("--title", metavar="TITLE", help="The book's title; else the folder's name."),
]
Grade = Annotated[
    Optional[str], typer.Option("--grade", metavar="GRADE", help="K, or 1 to 8; else 3.")
]
Language = Annotated[
    Optional[str],
    typer.Option("--language", metavar="LANGUAGE", help="Of the printed words: en, es or fr."),
]
Weeks = Annotated[
    Optional[int],
    typer.Option("--weeks", metavar="N", help="How many weeks the pages are shared out over."),
]
Spots = Annotated[
    Optional[int],
    typer.Option("--spots", metavar="N", help="As many on every page; else rising from 4 to 7."),
]
Deep = Annotated[
    bool, typer.Option("--deep", help="Also take the pictures in the folders inside it.")
]


def begin(
    folder: Folder,
    title: Title = None,
    grade: Grade = None,
    language: Language = None,
    weeks: Weeks = None,
    spots: Spots = None,
    deep: Deep = False,
    debug: Debug = False,
) -> None:
    """Make a book of a folder of pictures; again: add the new ones. Nothing is overwritten."""
    from bookmaker.begin import Asked, faults_of
    from bookmaker.begin import begin as begun_in
    from bookmaker.cli.surroundings import build_context

    asked = Asked(title, grade, language, weeks, spots, deep)
    for fault in faults_of(asked):
        raise CommandFault(fault)
    _tell(begun_in(_there(folder), asked, build_context()), asked)


def _there(folder: Path) -> Path:
    if not folder.exists():
        raise CommandFault(f"{folder} is not there. Check the name of the folder.")
    if not folder.is_dir():
        raise CommandFault(f"{folder} is no folder. Name the one that holds the pictures.")
    return folder


def _tell(begun: Begun, asked: Asked) -> None:
    tell_problems(begun.problems)
    for line in _remarks(begun, asked):
        print(line, file=sys.stderr)
    for file in begun.written:
        typer.echo(file)
    if not begun.pages:
        print("No page was added: no picture is new. Nothing was changed.", file=sys.stderr)
        return
    pages = "one page" if len(begun.pages) == 1 else f"{len(begun.pages)} pages"
    verb = "added at the end of pages.toml" if begun.added else "begun"
    print(f"{pages[:1].upper()}{pages[1:]} {verb}. Look them over: ", end="", file=sys.stderr)
    print(f"bookmaker proof {begun.book} --sheet", file=sys.stderr)
    print(f"Then make the book: bookmaker build {begun.book}", file=sys.stderr)


def _remarks(begun: Begun, asked: Asked) -> Iterator[str]:
    """What a user should know of pages and files that are not as they might expect."""
    fewer = [f"{name} ({spots})" for name, spots in begun.fewer]
    if fewer:
        yield f"Fewer spots than usual fit onto {_listed(fewer)}."
    if begun.unsure:
        yield f"Place these spots yourself: no creature was made out on {_listed(begun.unsure)}."
    if begun.left:
        yield f"Left aside, being no pictures: {_listed(begun.left)}."
    if begun.inside:
        yield f"Folders inside hold {begun.inside} more: --deep takes them in."
    told = [key for key in ("title", "grade", "language", "weeks") if getattr(asked, key)]
    if begun.kept and told:
        yield f"book.toml was there and stays as it is: --{told[0]} changes nothing."
    if begun.unlisted:
        yield 'book.toml does not list the new chapter: add "pages.toml" to its chapters.'


def _listed(names: Sequence[str]) -> str:
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    return ", ".join(names[:MOST_NAMED]) + more
