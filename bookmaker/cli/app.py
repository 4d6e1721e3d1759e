"""The commands. Each opens, calls the library, reports, and no more."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Optional

import typer

from bookmaker.cli.begin import begin
from bookmaker.cli.edition import forget, intake, review, sheets
from bookmaker.cli.options import (
    ChapterFile,
    ClassFile,
    Debug,
    InkName,
    Manifest,
    Only,
    OrClass,
    Out,
    Paper,
    UseAll,
    WeekNumber,
    inks,
    part_of,
)
from bookmaker.cli.teaching import join, mark, plan
from bookmaker.model import Output

app = typer.Typer(
    name="bookmaker",
    help="Compiles printable puzzle books: pictures, spots and links to a PDF with its key.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)


def _version(asked: bool) -> None:
    if asked:
        from bookmaker import __version__

        typer.echo(f"bookmaker {__version__}")
        raise typer.Exit


@app.callback()
def _bookmaker(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Say which version.")
    ] = False,
) -> None:
    pass


@app.command()
def build(
    book: OrClass = None,
    out: Out = Path(),
    paper: Paper = None,
    only: Only = None,
    chapter: ChapterFile = None,
    week: WeekNumber = None,
    no_key: Annotated[
        bool, typer.Option("--no-key", help="Leave the key out: the children's copy.")
    ] = False,
    booklet: Annotated[
        bool, typer.Option("--booklet", help="Sheets to fold once and staple, without the key.")
    ] = False,
    ink: InkName = None,
    large: Annotated[
        bool, typer.Option("--large", help="Everything 1.4 times as large, for low vision.")
    ] = False,
    classroom: ClassFile = None,
    use_all: UseAll = False,
    pupil: Annotated[
        str,
        typer.Option("--pupil", metavar="NAME", help="This pupil's own copy of the class's book."),
    ] = "",
    pupil_copies: Annotated[
        bool, typer.Option("--pupil-copies", help="An own copy for each pupil who may have one.")
    ] = False,
    svg: Annotated[
        Optional[Path],
        typer.Option("--svg", metavar="DIR", help="Also write each puzzle page there as SVG."),
    ] = None,
    debug: Debug = False,
) -> None:
    """Compile a book: the pupils' pages as a PDF, with the key at the back."""
    from bookmaker.cli.make import book_of, edition_of, make_book, make_copies
    from bookmaker.context import BuildOptions

    edition = edition_of(classroom, use_all, pupil)
    is_own = bool(pupil) or pupil_copies
    output: Output = "booklet" if booklet else "children" if no_key or is_own else "book"
    options = BuildOptions(paper, part_of(only, chapter, week), inks(ink), output, large, edition)
    if pupil_copies:
        make_copies(book_of(book, edition), out, options)
    else:
        make_book(book_of(book, edition), out, options, svg)


@app.command()
def key(
    book: OrClass = None,
    out: Out = Path(),
    paper: Paper = None,
    only: Only = None,
    chapter: ChapterFile = None,
    week: WeekNumber = None,
    ink: InkName = None,
    classroom: ClassFile = None,
    use_all: UseAll = False,
    debug: Debug = False,
) -> None:
    """Compile the teacher's answers alone."""
    from bookmaker.cli.make import book_of, edition_of, make_key
    from bookmaker.context import BuildOptions

    edition = edition_of(classroom, use_all)
    part = part_of(only, chapter, week)
    options = BuildOptions(paper, part, inks(ink), "key", edition=edition)
    make_key(book_of(book, edition), out, options)


@app.command()
def loose(
    book: OrClass = None,
    out: Out = Path(),
    paper: Paper = None,
    only: Only = None,
    chapter: ChapterFile = None,
    week: WeekNumber = None,
    ink: InkName = None,
    classroom: ClassFile = None,
    use_all: UseAll = False,
    debug: Debug = False,
) -> None:
    """Compile what is cut out or handed out singly: tokens, hint slips, trial sheets."""
    from bookmaker.cli.make import book_of, edition_of, make_loose
    from bookmaker.context import BuildOptions

    edition = edition_of(classroom, use_all)
    part = part_of(only, chapter, week)
    options = BuildOptions(paper, part, inks(ink), "loose", edition=edition)
    make_loose(book_of(book, edition), out, options)


@app.command()
def check(
    file: OrClass = None,
    paper: Paper = None,
    classroom: ClassFile = None,
    use_all: UseAll = False,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print one JSON object instead of a table.")
    ] = False,
    debug: Debug = False,
) -> None:
    """Certify every page, lay it out, and print a table. Writes nothing."""
    from bookmaker.cli.check import check_file
    from bookmaker.cli.make import book_of, edition_of

    edition = edition_of(classroom, use_all)
    raise typer.Exit(check_file(book_of(file, edition), (paper, edition), as_json))


@app.command()
def proof(
    file: Manifest,
    page: Annotated[
        Optional[str],
        typer.Argument(metavar="[PAGE]", help="A page's id or name; none: every page."),
    ] = None,
    out: Out = Path(),
    paper: Paper = None,
    grid: Annotated[
        bool,
        typer.Option("--grid", help="The bare picture under a grid, to read coordinates off."),
    ] = False,
    clearances: Annotated[
        bool, typer.Option("--clearances", help="Mark the gaps that are tight, in millimetres.")
    ] = False,
    sheet: Annotated[
        bool, typer.Option("--sheet", help="All pages small, side by side in one picture.")
    ] = False,
    classroom: ClassFile = None,
    use_all: UseAll = False,
    debug: Debug = False,
) -> None:
    """Make a picture of one page as it will print, or of each page."""
    from bookmaker.cli.make import edition_of
    from bookmaker.cli.proof import make_proof
    from bookmaker.proof import Asked

    kind = "grid" if grid else "clearances" if clearances else ""
    edition = edition_of(classroom, use_all)
    make_proof(file, Asked(page, paper, kind, sheet, edition), out)


@app.command()
def place(
    file: Manifest,
    port: Annotated[
        int, typer.Option("--port", metavar="N", help="The port to listen on; else a free one.")
    ] = 0,
    no_browser: Annotated[
        bool, typer.Option("--no-browser", help="Print the address and open nothing.")
    ] = False,
    debug: Debug = False,
) -> None:
    """Place spots and links with the pointer, on a page in your own browser. Ctrl-C ends it."""
    from bookmaker.cli.place import open_place

    open_place(file, port, not no_browser)


app.command()(begin)
app.command()(mark)
app.command()(join)
app.command()(plan)
app.command()(sheets)
app.command()(intake)
app.command()(review)
app.command()(forget)
