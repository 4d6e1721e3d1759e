"""``build``, ``key`` and ``loose``: documents compiled, written and told of."""

from __future__ import annotations

import json
import sys
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import typer

from bookmaker.classroom.class_book import ClassBook, Edition
from bookmaker.classroom.made import NAME as MADE
from bookmaker.classroom.made import Made, read_made, with_made, write_made
from bookmaker.classroom.print_sheets import read_classroom
from bookmaker.cli.codes import CommandFault
from bookmaker.cli.last_printed import links_changed
from bookmaker.cli.summary import advice, same_name, told
from bookmaker.cli.surroundings import (
    alone,
    build_context,
    existing,
    existing_class,
    known_ink,
    known_paper,
)
from bookmaker.cli.tell import many, page_table, tell_problems
from bookmaker.compile import Compiled, compile_book, compile_prepared, finish, own_copies
from bookmaker.context import BuildContext, BuildOptions
from bookmaker.model import Output, PlacedArt, Puzzle
from bookmaker.ordering import Names, file_name
from bookmaker.output import Staging, sparing
from bookmaker.pictures import standing_alone
from bookmaker.records import as_seen_from, page_record

_KINDS: Mapping[Output, str] = {
    "children": "no-key",
    "booklet": "booklet",
    "key": "key",
    "loose": "loose",
}
"""What a document is called in its file's name; the book alone needs no word."""


def make_book(
    manifest: Path,
    out: Path,
    options: BuildOptions,
    svg: Path | None,
    context: BuildContext | None = None,
) -> Path:
    """Compile the pupils' book, write it with its certificate, and say what was made; gives it."""
    # No answers where the class looks on, nor among what is handed out in a week.
    asked, for_children = options, (options.paper or "").lower() == "board" or options.part.weeks
    if for_children and options.output == "book":
        options = replace(options, output="children")
    with alone(options.edition):
        return _make_book(manifest, out, (options, asked), svg, context)


def _make_book(
    manifest: Path,
    out: Path,
    wanted: tuple[BuildOptions, BuildOptions],
    svg: Path | None,
    context: BuildContext | None,
) -> Path:
    """``wanted`` are the options as the book is made by them, and as it is called after them."""
    options, asked = wanted
    compiled = _compiled(manifest, options, context)
    name = _name(compiled, asked)
    pdf = out / f"{name}.pdf"
    certificate = out / f"{name}.certificate.json"
    for line in links_changed(certificate, compiled.bound.ordered):
        print(line, file=sys.stderr)
    with Staging() as staging:
        sha256 = finish(compiled, pdf, staging)
        record = _certificate(compiled, pdf.name, sha256, manifest.parent)
        staging.put(certificate, (record,), ahead=True)
        _put_record(staging, compiled, {"book": pdf, **({"pages": svg} if svg else {})})
        if svg:
            for file, text in _svgs(compiled, options):
                staging.put(sparing(svg / file, compiled.prepared.pictures), (text.encode(),))
    whom = "the teacher's copy, with the key" if options.output == "book" else "for the children"
    _report(compiled, told(compiled, options, pdf, whom))
    for line in advice(compiled, options, manifest):
        print(line, file=sys.stderr)
    return pdf


def edition_of(classroom: Path | None, use_all: bool, pupil: str = "") -> Edition | None:
    """The class whose drawings are wanted; raises CommandFault for a pupil without a class."""
    if classroom is None:
        if use_all or pupil:
            raise CommandFault("--use-all and --pupil go with --class CLASS.toml.")
        return None
    return Edition(existing_class(classroom), use_all, pupil)


def make_copies(manifest: Path, out: Path, options: BuildOptions) -> None:
    """Compile an own copy for each pupil who may have one: what they share is made once."""
    edition = options.edition
    if edition is None or edition.pupil:
        raise CommandFault("--pupil-copies goes with --class CLASS.toml, and without --pupil.")
    options = replace(options, paper=known_paper(options.paper), ink=known_ink(options.ink))
    with alone(edition):
        context = build_context().for_edition(edition)
        count = 0
        for prepared, mine in own_copies(existing(manifest), options, context):
            compiled = compile_prepared(prepared, mine, context)
            tell_problems(prepared.problems if not count else ())
            pdf = out / f"{_name(compiled, mine)}.pdf"
            with Staging() as staging:
                sha256 = finish(compiled, pdf, staging)
                record = _certificate(compiled, pdf.name, sha256, manifest.parent)
                staging.put(pdf.with_suffix(".certificate.json"), (record,), ahead=True)
                _put_record(staging, compiled, {"book": pdf})
            typer.echo(f"{pdf}: {many(len(compiled.pages), 'page')}")
            count += 1
    if count:
        told = "Each is called after its sheet's number, and opens with that pupil's page."
        typer.echo(f"{many(count, 'file')}. {told} Whose is which, the list of sheets says.")
    else:
        typer.echo("Nobody may have a copy yet: no drawing that is permitted has a yes.")


def book_of(manifest: Path | None, edition: Edition | None) -> Path:
    """The book that is named, else the class's; raises CommandFault, InputProblems."""
    if manifest is not None:
        return manifest
    if edition is None:
        raise CommandFault("Name a book's or a chapter's manifest, such as book.toml.")
    return read_classroom(edition.manifest)[0].book


def make_key(
    manifest: Path, out: Path, options: BuildOptions, context: BuildContext | None = None
) -> Path:
    """Compile the teacher's answers alone; gives the file."""
    with alone(options.edition):
        compiled = _compiled(manifest, options, context)
        pdf = out / f"{_name(compiled, options)}.pdf"
        with Staging() as staging:
            finish(compiled, pdf, staging)
            _put_record(staging, compiled, {"key": pdf})
    _report(compiled, told(compiled, options, pdf, "for the teacher alone"))
    return pdf


def make_loose(manifest: Path, out: Path, options: BuildOptions) -> None:
    """Compile what is cut out or handed out singly."""
    with alone(options.edition):
        compiled = _compiled(manifest, options)
        pdf = out / f"{_name(compiled, options)}.pdf"
        with Staging() as staging:
            finish(compiled, pdf, staging)
            _put_record(staging, compiled, {"loose": pdf})
    typer.echo(told(compiled, options, pdf, "to cut out and hand out"))


def _compiled(
    manifest: Path, options: BuildOptions, context: BuildContext | None = None
) -> Compiled:
    options = replace(options, paper=known_paper(options.paper), ink=known_ink(options.ink))
    compiled = compile_book(existing(manifest), options, context or build_context())
    if compiled.bound.ordered.paper == "board" and options.output in ("booklet", "loose"):
        raise CommandFault("That is for paper, and a board is none. Add --paper a4, or another.")
    tell_problems(compiled.prepared.problems)
    for line in same_name(manifest):
        print(line, file=sys.stderr)
    return compiled


def _name(compiled: Compiled, options: BuildOptions) -> str:
    """The stem of the output's name: the book, which part of it, and what is unusual."""
    paper = compiled.bound.ordered.paper
    class_book = compiled.prepared.class_book
    is_own = class_book is not None and class_book.own is not None
    names = Names.of(compiled.prepared.ordered or compiled.bound.ordered)
    words = (
        *_class_words(class_book, names),
        *compiled.part,
        paper if options.output == "booklet" or paper != compiled.prepared.own_paper else "",
        "large" if options.large else "",
        *(options.ink.split("-") if options.ink != "full" else ()),
        _KINDS.get(options.output, "") if not (is_own and options.output == "children") else "",
    )
    said = names.join([word for word in words if word])
    return "-".join(each for each in (compiled.bound.ordered.name, said) if each)


def _class_words(class_book: ClassBook | None, names: Names) -> tuple[str, ...]:
    """The class's folder, and for a pupil's own copy the sheet's number: no name of a child."""
    if class_book is None:
        return ()
    own = names.other("sheet", str(class_book.own)) if class_book.own else ""
    return (names.other("class", class_book.classroom.name), own)


def _put_record(staging: Staging, compiled: Compiled, files: Mapping[str, Path]) -> None:
    """The class's record of what was made, with these files and the sheets that are in them.

    It goes ahead of the file: what holds a child's drawing has to be known of.
    """
    class_book = compiled.prepared.class_book
    if class_book is None:
        return
    folder = class_book.classroom.folder
    found = (page.sheet for page in compiled.bound.ordered.pages)
    sheets = tuple(sorted(sheet for sheet in found if sheet is not None))
    made = read_made(folder)
    for what, file in files.items():
        made = with_made(made, Made(what, as_seen_from(folder, file), sheets))
    staging.put(folder / MADE, (write_made(made),), ahead=True)


def _certificate(compiled: Compiled, pdf_name: str, sha256: str, folder: Path) -> bytes:
    record = {
        "file": pdf_name,
        "sha256": sha256,
        "pages": [page_record(page, folder) for page in compiled.bound.ordered.pages],
    }
    return (json.dumps(record, ensure_ascii=False, indent=1) + "\n").encode()


def _svgs(compiled: Compiled, options: BuildOptions) -> list[tuple[str, str]]:
    """The puzzle pages as SVG, each with its art inside, by file name."""
    from bookmaker.pdf.svg_page import page_svg  # only where it is asked for

    found = []
    pages = {page.id for page in compiled.bound.ordered.pages}
    for side, placed in zip(compiled.bound.sides, compiled.pages, strict=True):
        if isinstance(side.content, Puzzle):
            page = side.content.page
            shown = {item.picture for item in placed.items if isinstance(item, PlacedArt)}
            art = {
                digest: (*standing_alone(compiled.inked[digest]), compiled.inked[digest].cover)
                for digest in sorted(shown)
            }
            file = f"{file_name(page.id, (), pages)}.svg"
            found.append((file, page_svg(placed, compiled.ink, art)))
    return found


def _report(compiled: Compiled, summary: str) -> None:
    print(page_table(compiled.bound.ordered), file=sys.stderr)
    typer.echo(summary)
