"""``plan``: the term plan, the ramp, and what is practised."""

from __future__ import annotations

import csv
import io
import math
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

import typer

from bookmaker.classroom.class_book import Edition
from bookmaker.cli.surroundings import build_context, existing
from bookmaker.cli.tell import rarity, table, tell_problems
from bookmaker.compile import prepare
from bookmaker.context import BuildContext, BuildOptions
from bookmaker.curricula import CURRICULA
from bookmaker.layout import said
from bookmaker.model import GRADES, CertifiedPage, InputProblems, OrderedBook, PlanRow
from bookmaker.teaching import (
    Practised,
    as_numbers,
    plan_rows,
    practice_notes,
    practised,
    practises,
)
from bookmaker.words import load

HEADS = ("week", "page", "for", "chapter", "spots", "one in", "work", "band", "largest")
IN_SPREADSHEET = ("numbers", "practises")
FOR = {False: "all", True: "more"}
"""Whom a page is for: all, or those who want more."""
BAR = 40
"""Columns of the longest bar of the ramp."""


def print_plan(manifest: Path, as_csv: bool, edition: Edition | None) -> None:
    """Print which pages come in which week, how hard they are and what they practise."""
    context = build_context().for_edition(edition)
    prepared = prepare(existing(manifest), BuildOptions(edition=edition), context)
    if prepared.ordered is None or not prepared.is_sound:
        raise InputProblems(prepared.problems)
    ordered = prepared.ordered
    rows = plan_rows(ordered, context.cache, context.seed)
    if as_csv:
        typer.echo(_csv(rows, context), nl=False)
        return
    found = practised(ordered, context.cache, context.seed)
    tell_problems(prepared.problems)
    for line in (table([HEADS, *map(_cells, rows)]), *_head(ordered), *_weeks(rows)):
        typer.echo(line)
    typer.echo(
        "\nThe ramp, in subtractions (a bar grows by the same length each time they double):"
    )
    for line in (*_ramp(ordered), "", *_practice(ordered, found)):
        typer.echo(line)


def _head(ordered: OrderedBook) -> tuple[str, ...]:
    """What a colleague should know who has the plan and not the book."""
    return (
        f"\n{ordered.title}: {ordered.weeks} weeks.",
        "Pages for more stand beside the weeks, for those who want them.",
    )


def _cells(row: PlanRow) -> tuple[str, ...]:
    certificate = row.page.certificate
    return (
        str(row.week),
        row.page.name,
        FOR[row.optional],
        row.page.chapter,
        str(len(row.page.spots)),
        rarity(certificate),
        f"{certificate.work:.0f}" + ("~" if certificate.work_error else ""),
        certificate.band,
        row.largest.text,
    )


def _weeks(rows: Sequence[PlanRow]) -> Iterator[str]:
    """What each week practises, a line a week."""
    yield "\nWhat each week practises, when its pages for all are solved once:"
    for row in rows:
        if row.practises:
            yield f"{row.week:>4}  {said(row.practises, load('en'))}"


def _practice(ordered: OrderedBook, found: Practised) -> Iterator[str]:
    """What the book practises, in the key's words."""
    words = load("en")
    yield "What is practised:"
    for paragraph in practice_notes(ordered, found).paragraphs:
        told = [said(each, words) for each in paragraph if each.key != "practice.suggest"]
        if told:
            yield f"  {' '.join(told)}"
    if found.suggestions and (found.all_below or found.above):
        called = CURRICULA[ordered.curriculum].name(GRADES.index(ordered.grade))
        told = [as_numbers(each) for each in found.suggestions[:3]]
        yield f"  Numbers that suit {called}: {'; '.join(told)}."


def _csv(rows: Sequence[PlanRow], context: BuildContext) -> str:
    """The rows with each page's own numbers, and what it practises."""
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow((*HEADS, *IN_SPREADSHEET))
    for row in rows:
        numbers = " ".join(number.text for number in row.page.numbers)
        told = practises((row.page,), context.cache, context.seed)
        writer.writerow((*_cells(row), numbers, said(told, load("en")) if told else ""))
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
