"""``proof``: a picture of one page for the teacher's eye."""

from __future__ import annotations

import sys
from pathlib import Path

import typer

from bookmaker.cli.surroundings import build_context, existing, known_paper
from bookmaker.cli.tell import tell_problems
from bookmaker.output import sparing, write_all
from bookmaker.proof import proof_grid, proof_page


def make_proof(manifest: Path, page: str, out: Path, paper: str | None, kind: str) -> None:
    """Write the proof of ``page``; ``kind`` is "", "grid" or "clearances"."""
    source, paper = existing(manifest), known_paper(paper)
    if kind == "grid":
        made = proof_grid(source, page, paper, build_context())
    else:
        made = proof_page(source, page, paper, kind == "clearances", build_context())
    tell_problems(made.problems)
    if kind == "clearances" and not made.marked:
        print("No gap on this page is tight.", file=sys.stderr)
    place = sparing(out / made.name, made.arts)
    write_all([(place, made.png)])
    typer.echo(place)
