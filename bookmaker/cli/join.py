"""``join``: the links chosen for a chapter's or a book's pages, written into the manifests."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import typer

from bookmaker.cli.surroundings import build_context, existing
from bookmaker.cli.tell import tell_problems
from bookmaker.linking import Choice, link_book
from bookmaker.model import InputProblems, Page
from bookmaker.output import write_all
from bookmaker.pictures import take_in_art
from bookmaker.reading import open_manifest


def join_file(manifest: Path) -> None:
    """Choose links for every page that has ``links = "auto"`` and write them into its chapter.

    So are the spots of a page that only says how many it wants (``spots = 6``). Comments, order
    and everything else of the files stay as they are; all of them are written, or none.
    """
    found = open_manifest(existing(manifest))
    if found.book is None or any(problem.severity == "problem" for problem in found.problems):
        raise InputProblems(found.problems)
    context = build_context()
    _, art = take_in_art(found.book, context.cache)
    faults = [problem for problem in art if problem.severity == "problem"]
    if faults:
        raise InputProblems(faults)
    linked = link_book(found.book, context.cache, context.seed)
    if not linked.choices:
        typer.echo('No page leaves its links to us with links = "auto". Nothing was changed.')
        return
    write_all(list(_files(linked.choices)))
    tell_problems(problem for problem in linked.problems if problem.code != "links-chosen")
    for choice in linked.choices:
        links = ", ".join(link.name for link in choice.page.links)
        certificate = choice.certificate
        more = f" (work {certificate.work:.0f}, {certificate.band})" if certificate else ""
        typer.echo(f"{choice.page.name}: {links}{more}")


def _files(choices: Sequence[Choice]) -> Iterator[tuple[Path, bytes]]:
    """Each chapter that has one of the pages, with what was chosen written into it."""
    for file in dict.fromkeys(choice.page.file for choice in choices):
        mine = [choice for choice in choices if choice.page.file == file]
        yield Path(file), _written(Path(file).read_bytes(), mine)


def _written(manifest: bytes, choices: Sequence[Choice]) -> bytes:
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
