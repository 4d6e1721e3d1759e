"""``proof``: pictures of pages for the teacher's eye."""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path

import typer

from bookmaker.cli.surroundings import build_context, existing, known_paper
from bookmaker.cli.tell import tell_problems
from bookmaker.output import sparing, write_all
from bookmaker.proof import Asked, proofs


def make_proof(manifest: Path, asked: Asked, out: Path) -> None:
    """Write the proof of a page, or of every page."""
    source = existing(manifest)
    made = proofs(source, replace(asked, paper=known_paper(asked.paper)), build_context())
    tell_problems(made.problems)
    if asked.kind == "clearances" and not made.marked:
        what = "on this page" if asked.page else "anywhere"
        print(f"No gap {what} is tight.", file=sys.stderr)
    files = [(sparing(out / name, made.arts), png) for name, png in made.files]
    write_all(files)
    for place, _ in files:
        typer.echo(place)
