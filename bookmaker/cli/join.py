"""``join``: the links chosen for a chapter's pages, written into its manifest."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import typer

from bookmaker.cli.codes import CommandFault
from bookmaker.cli.surroundings import build_context, existing
from bookmaker.cli.tell import tell_problems
from bookmaker.linking import Choice, join_pages, spot_pages
from bookmaker.model import InputProblems, Page
from bookmaker.output import write_all
from bookmaker.pictures import take_in_art
from bookmaker.reading import open_manifest


def join_chapter(chapter: Path) -> None:
    """Choose links for every page of ``chapter`` that has ``links = "auto"`` and write them there.

    So are the spots of a page that only says how many it wants (``spots = 6``). Comments, order
    and everything else of the file stay as they are.
    """
    found = open_manifest(existing(chapter))
    if found.problems or found.book is None:
        raise InputProblems(found.problems)
    if any(page.file != str(chapter) for page in found.book.pages):
        raise CommandFault(f"{chapter} is a book. Name one of its chapters.")
    context = build_context()
    pictures, art = take_in_art(found.book, context.cache)
    faults = [problem for problem in art if problem.severity == "problem"]
    if faults:
        raise InputProblems(faults)
    book, spotted = spot_pages(found.book, pictures, context.cache)
    _, choices, told = join_pages(book, pictures, context.cache, context.seed)
    if not choices:
        typer.echo('No page leaves its links to us with links = "auto". Nothing was changed.')
        return
    write_all([(chapter, _written(chapter.read_bytes(), choices))])
    tell_problems(problem for problem in (*spotted, *told) if problem.code != "links-chosen")
    for choice in choices:
        links = ", ".join(link.name for link in choice.page.links)
        certificate = choice.certificate
        more = f" (work {certificate.work:.0f}, {certificate.band})" if certificate else ""
        typer.echo(f"{choice.page.name}: {links}{more}")


def _written(manifest: bytes, choices: tuple[Choice, ...]) -> bytes:
    """The manifest with the chosen links and spots; the wish has had its day."""
    import tomlkit

    mark = b"\xef\xbb\xbf"
    text = manifest.removeprefix(mark).decode("utf-8")
    document = tomlkit.parse(text)
    by_name = {choice.page.name: choice for choice in choices}
    pages: Any = document["page"]
    for page in pages:
        choice = by_name.get(str(page.get("name", "")).strip())
        if choice:
            page["links"] = [link.name for link in choice.page.links]
            if choice.page.unplaced:
                page["spots"] = _places(choice.page)
            for key in ("band", "one_in"):
                page.pop(key, None)
    kept = mark if manifest.startswith(mark) else b""
    return kept + tomlkit.dumps(document).encode("utf-8")


def _places(page: Page) -> Any:
    """Spots as a table in one line, which can stand wherever their number stood."""
    import tomlkit

    table = tomlkit.inline_table()
    for spot in page.spots:
        table[spot.name] = [spot.x, spot.y]
    return table
