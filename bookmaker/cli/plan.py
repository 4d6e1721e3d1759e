"""``plan``: the term plan, the ramp, and what is practised."""

from __future__ import annotations

import csv
import io
import math
import sys
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import typer

from bookmaker.cli.surroundings import build_context, existing
from bookmaker.cli.tell import rarity, table, tell_problems
from bookmaker.compile import prepare
from bookmaker.context import BuildOptions
from bookmaker.layout import said
from bookmaker.model import CertifiedPage, InputProblems, OrderedBook, written_as
from bookmaker.ordering import term_plan
from bookmaker.teaching import Practised, as_numbers, crosses_tens, practice_notes, practised
from bookmaker.words import load

HEADS = ("week", "page", "chapter", "spots", "one in", "work", "band", "largest", "crosses a ten")
BAR = 40
"""Columns of the longest bar of the ramp."""


def print_plan(manifest: Path, as_csv: bool) -> None:
    """Print which pages come in which week, how hard they are and what they practise."""
    context = build_context()
    prepared = prepare(existing(manifest), BuildOptions(), context)
    if prepared.ordered is None or not prepared.is_sound:
        raise InputProblems(prepared.problems)
    ordered = prepared.ordered
    found = practised(ordered, context.cache, context.seed)
    rows = list(_rows(ordered, found))
    if as_csv:
        typer.echo(_csv(rows), nl=False)
        return
    tell_problems(prepared.problems)
    typer.echo(table([HEADS, *rows]))
    typer.echo(
        "\nThe ramp, in subtractions (a bar grows by the same length each time they double):"
    )
    for line in (*_ramp(ordered), "", *_practice(ordered, found)):
        typer.echo(line)


def _rows(ordered: OrderedBook, found: Practised) -> Iterator[tuple[str, ...]]:
    for week in term_plan(ordered):
        for page in week.pages:
            certificate = page.certificate
            practice = found.pages[page.id]
            yield (
                str(week.number),
                page.name,
                page.chapter,
                str(len(page.spots)),
                rarity(certificate),
                f"{certificate.work:.0f}" + ("~" if certificate.work_error else ""),
                certificate.band,
                _text(ordered, practice.largest),
                f"{float(practice.times_crossing):.2g} of {float(practice.times):.0f}"
                if crosses_tens(page)
                else "-",
            )


def _practice(ordered: OrderedBook, found: Practised) -> Iterator[str]:
    """What the book practises, in the key's words."""
    words = load("en")
    yield "What is practised:"
    for paragraph in practice_notes(ordered, found).paragraphs:
        told = [said(each, words) for each in paragraph if each.key != "practice.suggest"]
        if told:
            yield f"  {' '.join(told)}"
    if found.suggestions and (found.all_below or found.above):
        told = [as_numbers(each) for each in found.suggestions[:3]]
        yield f"  Numbers that suit grade {ordered.grade}: {'; '.join(told)}."


def _text(ordered: OrderedBook, value: Fraction) -> str:
    numbers = [number for page in ordered.pages for number in page.numbers]
    return written_as(value, numbers).text


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
    wide = max(len(page.name) for page in pages)
    for page in pages:
        length = round(BAR * _height(page) / most)
        yield f"{page.name:<{wide}}  {_block() * length} {page.certificate.work:.0f}"


def _height(page: CertifiedPage) -> float:
    return math.log2(max(2.0, page.certificate.work))


def _block() -> str:
    encoding = (sys.stdout.encoding or "").lower()
    return "█" if encoding.startswith("utf") else "#"
