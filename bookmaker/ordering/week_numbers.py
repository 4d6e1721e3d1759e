"""Numbers for the grade: a book in its order in, numbers that grow from week to week out.

All pages of a week have the numbers of one progression. It keeps a page's solutions and its work,
so that the order of the pages stays as it is; what grows is the subtraction.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from bookmaker.curricula import CURRICULA, Run, runs_of
from bookmaker.model import GRADES, Book, Number, OrderedBook
from bookmaker.ordering.plan import term_plan

WeekNumbers = Mapping[str, tuple[Number, ...]]
"""The numbers of each page that leaves them to us, by its id."""


def numbers_by_week(ordered: OrderedBook) -> WeekNumbers:
    """Numbers for every page of ``ordered`` that leaves them to us."""
    weeks = {week.number: week.every for week in term_plan(ordered)}
    return {
        page.id: run.numbers(len(page.spots))
        for number, run in run_of_week(ordered)
        for page in weeks[number]
        if page.graded
    }


def run_of_week(ordered: OrderedBook) -> Iterator[tuple[int, Run]]:
    """The progression of each week that has pages: the grade's, shared out over these weeks."""
    runs = runs_of(GRADES.index(ordered.grade), CURRICULA[ordered.curriculum])
    used = [week.number for week in term_plan(ordered) if week.every]
    for place, number in enumerate(used):
        yield number, runs[place * len(runs) // len(used)]


def with_numbers(book: Book, numbers: WeekNumbers) -> Book:
    """``book`` with these numbers on the pages that have some."""
    chapters = (
        replace(
            chapter,
            pages=tuple(
                replace(page, numbers=numbers.get(page.id, page.numbers)) for page in chapter.pages
            ),
        )
        for chapter in book.chapters
    )
    return replace(book, chapters=tuple(chapters))
