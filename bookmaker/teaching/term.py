"""The term plan as rows, and what the book practises."""

from __future__ import annotations

from bookmaker.model import OrderedBook, PlanRow, PracticeNotes, write_like, written_as
from bookmaker.ordering import term_plan
from bookmaker.puzzle import Standard
from bookmaker.teaching.practised import Practised

COMMONEST = 4
SUGGESTED = 3


def plan_rows(ordered: OrderedBook, found: Practised) -> tuple[PlanRow, ...]:
    """A row for each page, week by week."""
    chapter_of = {page.id: chapter for chapter in ordered.chapters for page in chapter.pages}
    rows = []
    for week in term_plan(ordered):
        for page in week.pages:
            practice = found.pages[page.id]
            chapter = chapter_of[page.id]
            rows.append(
                PlanRow(
                    week=week.number,
                    page=page,
                    chapter=chapter.title,
                    optional=chapter.optional,
                    largest=write_like(practice.largest, page.numbers),
                    crossing=float(practice.times_crossing),
                    subtractions=len(page.links),
                )
            )
    return tuple(rows)


def practice_notes(ordered: OrderedBook, found: Practised) -> PracticeNotes:
    """What is practised when each page is solved once, set against the book's grade."""
    together = found.together
    numbers = tuple(number for page in ordered.pages for number in page.numbers)
    times = sorted(together.differences.items(), key=lambda item: (-item[1], item[0]))
    return PracticeNotes(
        grade=ordered.grade,
        subtractions=round(together.times),
        crossing=round(together.times_crossing),
        largest=written_as(together.largest, numbers),
        common=tuple((written_as(d, numbers), round(count)) for d, count in times[:COMMONEST]),
        standards=tuple((each.system, each.code, word_of(each)) for each in found.standards),
        level=found.level,
        suggestions=tuple((each.start, each.step) for each in found.suggestions[:SUGGESTED]),
    )


def word_of(standard: Standard) -> str:
    """The key of a standard's words: ``standard.`` and its code, in England its year and kind."""
    code = standard.code if standard.system == "common core" else f"{standard.code}.{standard.kind}"
    return f"standard.{code.replace(' ', '-').lower()}"
