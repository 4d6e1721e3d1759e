"""``plan``: the term plan, the ramp, and what is practised."""

from __future__ import annotations

import csv
import io
import math
import sys
from collections.abc import Iterator
from pathlib import Path

import typer

from bookmaker.cli.tell import table, tell_problems
from bookmaker.cli.workshop import existing, workshop
from bookmaker.compile import prepare
from bookmaker.model import CertifiedPage, InputProblems, OrderedBook
from bookmaker.ordering import term_plan

HEADS = ("week", "page", "chapter", "spots", "one in", "work", "band")
BAR = 40
"""Columns of the longest bar of the ramp."""


def print_plan(manifest: Path, as_csv: bool) -> None:
    """Print which pages come in which week, how hard they are and what they practise."""
    prepared = prepare(existing(manifest), None, workshop())
    if prepared.ordered is None or not prepared.is_sound:
        raise InputProblems(prepared.problems)
    rows = list(_rows(prepared.ordered))
    if as_csv:
        typer.echo(_csv(rows), nl=False)
        return
    tell_problems(prepared.problems)
    typer.echo(table([HEADS, *rows]))
    typer.echo("\nThe ramp (subtractions, each step of the scale doubles):")
    for line in _ramp(prepared.ordered):
        typer.echo(line)


def _rows(ordered: OrderedBook) -> Iterator[tuple[str, ...]]:
    for week in term_plan(ordered):
        for page in week.pages:
            certificate = page.certificate
            yield (
                str(week.number),
                page.page.name,
                page.page.chapter,
                str(len(page.page.spots)),
                "-" if certificate.one_in is None else f"{certificate.one_in:.3g}",
                f"{certificate.work:.0f}",
                certificate.band,
            )


def _csv(rows: list[tuple[str, ...]]) -> str:
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(HEADS)
    writer.writerows(rows)
    return stream.getvalue()


def _ramp(ordered: OrderedBook) -> Iterator[str]:
    """A bar for each page, as long as the logarithm of its work."""
    pages = ordered.pages
    most = math.log2(max(2.0, *(page.certificate.work for page in pages)))
    wide = max(len(page.page.name) for page in pages)
    for page in pages:
        length = round(BAR * _height(page) / most)
        yield f"{page.page.name:<{wide}}  {_block() * length} {page.certificate.work:.0f}"


def _height(page: CertifiedPage) -> float:
    return math.log2(max(2.0, page.certificate.work))


def _block() -> str:
    encoding = (sys.stdout.encoding or "").lower()
    return "█" if encoding.startswith("utf") else "#"
