"""``proof``: pictures of pages for the teacher's eye."""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path

import typer

from bookmaker.classroom.made import NAME, Made, read_made, with_made, write_made
from bookmaker.cli.codes import CommandFault
from bookmaker.cli.surroundings import alone, build_context, existing, known_paper
from bookmaker.cli.tell import tell_problems
from bookmaker.output import sparing, write_all
from bookmaker.proof import Asked, Proofs, proofs
from bookmaker.records import as_seen_from


def make_proof(manifest: Path, asked: Asked, out: Path) -> None:
    """Write the proof of a page, or of every page."""
    if asked.kind == "grid" and asked.edition:
        raise CommandFault("A grid is laid over the book's own art: leave --class out.")
    source = existing(manifest)
    with alone(asked.edition):
        _make_proof(source, asked, out)


def _make_proof(source: Path, asked: Asked, out: Path) -> None:
    made = proofs(source, replace(asked, paper=known_paper(asked.paper)), build_context())
    tell_problems(made.problems)
    if asked.kind == "clearances" and not made.marked:
        what = "on this page" if asked.page else "anywhere"
        print(f"No gap {what} is tight.", file=sys.stderr)
    files = [(sparing(out / name, made.arts), png) for name, png in made.files]
    write_all([*_record(made, asked, [place for place, _ in files]), *files])
    for place, _ in files:
        typer.echo(place)


def _record(made: Proofs, asked: Asked, places: list[Path]) -> list[tuple[Path, bytes]]:
    """The class's record, ahead of the pictures: what holds a drawing has to be known of."""
    if asked.edition is None:
        return []
    folder = asked.edition.manifest.parent
    known = read_made(folder)
    for place in places:
        known = with_made(known, Made("proof", as_seen_from(folder, place), made.sheets))
    return [(folder / NAME, write_made(known))]
