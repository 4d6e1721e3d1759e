"""Commands that answer a teacher's questions about a page or a term."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Optional

import typer

from bookmaker.cli.options import ClassFile, Debug, Manifest, OrClass, PageName, UseAll


def mark(
    file: Manifest,
    page: PageName,
    answer: Annotated[
        Optional[list[str]],
        typer.Argument(
            metavar="SPOT=NUMBER",
            help="What stands in each spot, by the spot's name or its letter in the key; "
            "and, if you like, the differences: nose-back=4.",
        ),
    ] = None,
    pupils: Annotated[
        Optional[Path],
        typer.Option(
            "--pupils",
            metavar="FILE.csv",
            help="A table of answers: a column pupil, then one for each spot.",
        ),
    ] = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print JSON instead of sentences.")
    ] = False,
    classroom: ClassFile = None,
    use_all: UseAll = False,
    debug: Debug = False,
) -> None:
    """Mark a pupil's answer: right, or which links clash and what mends it."""
    from bookmaker.cli.make import edition_of
    from bookmaker.cli.mark import mark_page

    edition = edition_of(classroom, use_all)
    raise typer.Exit(mark_page((file, edition), page, answer or [], pupils, as_json))


def plan(
    book: OrClass = None,
    as_csv: Annotated[
        bool, typer.Option("--csv", help="Print the plan as a table for a spreadsheet.")
    ] = False,
    classroom: ClassFile = None,
    use_all: UseAll = False,
    debug: Debug = False,
) -> None:
    """Print the term plan: which pages in which week, how hard, and what they practise."""
    from bookmaker.cli.make import book_of, edition_of
    from bookmaker.cli.plan import print_plan

    edition = edition_of(classroom, use_all)
    print_plan(book_of(book, edition), as_csv, edition)


def join(
    file: Annotated[
        Path,
        typer.Argument(
            metavar="FILE.toml", help="A chapter's manifest, or a book's; chapters are changed."
        ),
    ],
    debug: Debug = False,
) -> None:
    """Choose links for pages with links = "auto" and write them into the manifests."""
    from bookmaker.cli.join import join_file

    join_file(file)
