"""Pupils' answers: what was written on a page, read and marked.

An answer is a run of ``spot=number`` and ``link=difference``; spots go by their names or by the
key's letters, links by either spelling.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from bookmaker.cache import Cache
from bookmaker.linking import link_book
from bookmaker.model import Book, InputProblems, Number, Page, Problem, folded, letter
from bookmaker.ordering import nearest
from bookmaker.pictures import PictureFault, take_in
from bookmaker.puzzle import Marking, mark, to_instance
from bookmaker.reading import Row, Table, is_called, open_manifest, read_table
from bookmaker.words import spoken

_DASHES = "‐‑‒–—−"


class NotAnAnswer(ValueError):
    """Something in an answer can't be understood; the message says what and how to mend it."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What a pupil wrote: numbers by spot and differences by link, as indices of the page."""

    numbers: Mapping[int, Fraction]
    differences: Mapping[int, Fraction]


def page_to_mark(manifest: Path, asked: str, cache: Cache, seed: int) -> Page:
    """The page ``asked`` for, by id or name, with its links as a build chooses them.

    Raises NotAnAnswer for a page that is not there, and InputProblems for one with problems.
    """
    reading = open_manifest(manifest)
    pages = reading.book.pages if reading.book else ()
    for page in pages:
        if is_called(page.name, asked):
            assert reading.book is not None
            return page if page.links else _joined(page, reading.book, cache, seed)
    faults = [p for p in reading.problems if not p.page or is_called(p.page, asked)]
    if not pages or any(p.page for p in faults):
        raise InputProblems(faults or reading.problems)
    known = [name for page in pages for name in (page.name, page.id)]
    raise NotAnAnswer(f"{manifest} has no page {asked!r}.{nearest(asked, known)}")


def _joined(page: Page, book: Book, cache: Cache, seed: int) -> Page:
    """``page`` with links, which it leaves to us: those that the whole book's build chooses."""
    if page.art:
        art = take_in([page.art], cache=cache)[page.art]
        if isinstance(art, PictureFault):
            told = (page.file, page.line_of("art"), page.name, art.code, art.message, art.mend)
            raise InputProblems([Problem(*told)])
    linked = link_book(book, cache, seed).book
    return next(each for each in linked.pages if each.id == page.id)


def answer_of(page: Page, told: Iterable[str]) -> Answer:
    """Read ``spot=number`` and ``link=difference``; raises NotAnAnswer."""
    numbers: dict[int, Fraction] = {}
    differences: dict[int, Fraction] = {}
    for each in told:
        where, sign, written = each.partition("=")
        if not sign:
            raise NotAnAnswer(f"{each!r} is no answer. Write a spot and its number: nose=5.")
        _place(page, where.strip(), written, numbers, differences)
    return Answer(numbers, differences)


def _place(
    page: Page,
    where: str,
    written: str,
    numbers: dict[int, Fraction],
    differences: dict[int, Fraction],
) -> None:
    spot, link = _spot(page, where), _link(page, where)
    if spot is None and link is None:
        known = [*page.spot_names, *(link.name for link in page.links)]
        hint = nearest(where, known) or f" Its spots are {', '.join(page.spot_names)}."
        raise NotAnAnswer(f"{page.name} has no spot or link {where!r}.{hint}")
    place, written_at = (spot, numbers) if spot is not None else (link, differences)
    assert place is not None
    if place in written_at:
        raise NotAnAnswer(f"{where!r} is answered twice. Leave one of the two out.")
    written_at[place] = _number(where, written)


def _spot(page: Page, where: str) -> int | None:
    """By name, as the manifest or the key has it, or by the key's letter; capitals count only
    where two names differ in nothing else."""
    names = page.spot_names
    letters = [letter(place) for place in range(len(names))]
    heard = [folded(spoken(name)) for name in names]  # "left_paw" is the key's "left paw"
    ways = ((where, names), (folded(spoken(where)), heard), (where.strip().upper(), letters))
    return next((known.index(said) for said, known in ways if known.count(said) == 1), None)


def _link(page: Page, where: str) -> int | None:
    plain = where.translate(dict.fromkeys(map(ord, _DASHES), "-"))
    one, _, other = plain.partition("-")
    ends = {_spot(page, one.strip()), _spot(page, other.strip())}
    return next((place for place, edge in enumerate(page.edges) if set(edge) == ends), None)


def _number(where: str, written: str) -> Fraction:
    try:
        return Number.parse(written.replace(",", ".")).value
    except ValueError:
        problem = f"{where} is answered by {written!r}, which is no number"
        raise NotAnAnswer(f"{problem}. Write it in digits, like 7, 0.5 or 1/4.") from None


def mark_answer(page: Page, answer: Answer) -> Marking:
    """Mark what a pupil wrote on ``page``."""
    return mark(*to_instance(page), answer.numbers, answer.differences)


def answers_of_class(
    page: Page, table_file: Path
) -> tuple[list[tuple[str, Answer]], tuple[Problem, ...]]:
    """The answers of several pupils: columns ``pupil`` and one for each spot.

    With them a problem for each row that can't be read. Raises InputProblems where the table as a
    whole can't be.
    """
    table = read_table(table_file, needed=("pupil",))
    columns = _columns(page, table)
    answers, problems = [], []
    for row in table.rows:
        told = (f"{name}={row[column]}" for column, name in columns.items() if row[column].strip())
        try:
            answers.append((row["pupil"], answer_of(page, told)))
        except NotAnAnswer as fault:
            problems.append(_in_row(table, row, str(fault)))
    return answers, tuple(problems)


def _columns(page: Page, table: Table) -> dict[str, str]:
    """The spot or link that each column answers; raises InputProblems where one is missing."""
    columns = {}
    for column in table.columns:
        answered = _answered(page, column)
        if answered:
            columns[column] = answered
    missing = [name for name in page.spot_names if name not in columns.values()]
    given = {name for name, _ in page.given}
    if set(missing) - given:
        names = ", ".join(name for name in missing if name not in given)
        message = f"the column for {names} is missing"
        mend = "Write a column for each spot, headed by the spot's name or its letter in the key."
        raise InputProblems(
            [Problem(table.file, table.line, page.name, "missing-key", message, mend)]
        )
    return columns


def _answered(page: Page, column: str) -> str | None:
    """The spot or link of a column: headings are in lower case whatever the spots are in."""
    spot, link = _spot(page, column), _link(page, column)
    if spot is not None:
        return page.spot_names[spot]
    return page.links[link].name if link is not None else None


def _in_row(table: Table, row: Row, fault: str) -> Problem:
    message, _, mend = fault.partition(". ")
    return Problem(table.file, row.line, row["pupil"], "bad-value", message, mend)
