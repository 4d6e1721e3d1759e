"""The term plan as rows, and what the book practises."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from bookmaker.cache import Cache
from bookmaker.curricula import CURRICULA, NO_LIMIT, Expected
from bookmaker.model import (
    GRADES,
    CertifiedPage,
    Number,
    OrderedBook,
    PlanRow,
    PracticeNotes,
    Said,
    Values,
    written_as,
)
from bookmaker.ordering import run_of_week, term_plan
from bookmaker.teaching.page_sayings import chance_of
from bookmaker.teaching.practised import Practised
from bookmaker.teaching.skills import practises

COMMONEST = 4
SUGGESTED = 3
NAMED = 3
"""Pages up to which they are named; of more it is told how many they are."""


def plan_rows(ordered: OrderedBook, cache: Cache, seed: int) -> tuple[PlanRow, ...]:
    """A row for each page, week by week; those for who wants more after the others."""
    titles = {page.id: each.title for each in ordered.chapters for page in each.pages}
    rows = []
    for week in term_plan(ordered):
        for page in week.every:
            last = week.pages and page is week.pages[-1]
            rows.append(
                PlanRow(
                    week=week.number,
                    page=page,
                    chapter=titles[page.id],
                    optional=page in week.beside,
                    chance=chance_of(page),
                    largest=max(page.numbers, key=lambda number: number.value),
                    practises=practises(week.pages, cache, seed) if last else None,
                )
            )
    return tuple(rows)


def practice_notes(ordered: OrderedBook, found: Practised) -> PracticeNotes:
    """What is practised when each page is solved once, set against the book's grade."""
    told = (
        _sums(ordered, found),
        *((each,) for each in _growing(ordered)),
        *((each,) for each in _quoted(ordered, found)),
        *((each,) for each in _set_against(ordered, found)),
    )
    return PracticeNotes(told)


def _sums(ordered: OrderedBook, found: Practised) -> tuple[Said, ...]:
    """How many subtractions, up to which number, how many cross a ten, which are commonest."""
    pages, together = ordered.pages, found.together
    numbers = tuple(number for page in pages for number in page.numbers)
    largest = written_as(together.largest, numbers)
    told = [Said("practice.sums", pages, {"largest": largest}, int(together.times))]
    crossing = together.times_crossing
    if crossing:
        told.append(Said("practice.crossing", pages, {}, max(1, round(crossing))))
    common = _commonest(together.differences)
    if common:
        shown = tuple(
            Said("practice.times", pages, {"difference": written_as(d, numbers)}, round(times))
            for d, times in common
        )
        is_exact = together.exact and all(times.denominator == 1 for _, times in common)
        key = "practice.common" if is_exact else "practice.common-about"
        told.append(Said(key, pages, {"differences": shown}))
    return tuple(told)


def _commonest(differences: Mapping[Fraction, Fraction]) -> list[tuple[Fraction, Fraction]]:
    """The commonest differences with how often they occur: none that is no commoner than one
    left out, and none that is seldom."""
    times = sorted(differences.items(), key=lambda item: (-item[1], item[0]))
    left_out = times[COMMONEST][1] if len(times) > COMMONEST else Fraction(0)
    return [each for each in times[:COMMONEST] if each[1] > left_out and each[1] >= 1]


def _quoted(ordered: OrderedBook, found: Practised) -> Iterator[Said]:
    """What of the curriculum is practised, its document first: the official words, or the range
    where they are not known; with their pages where they are not those of the whole book."""
    curriculum = CURRICULA[ordered.curriculum]
    if found.expected:
        yield Said("practice.document", ordered.pages, {"document": curriculum.document})
    for expected, pages in found.expected:
        says = curriculum.quote(expected) if expected.is_quoted else _range(expected, pages)
        values: Values = {"code": expected.where, "says": says}
        if len(pages) == len(ordered.pages):
            yield Said("practice.standard", pages, values)
        elif len(pages) <= NAMED:
            yield Said("practice.standard-on", pages, {**values, "pages": pages})
        else:
            of = {**values, "all": len(ordered.pages)}
            yield Said("practice.standard-of", pages, of, len(pages))


def _range(expected: Expected, pages: tuple[CertifiedPage, ...]) -> Said:
    """What is expected, in our words."""
    kind = expected.kind.replace(" ", "-")
    if expected.kind == "decimal":
        return Said("range.decimal", pages, {}, expected.places)
    if expected.kind in ("whole", "tens") and expected.limit < NO_LIMIT:
        limit = Number(expected.limit, str(expected.limit))
        return Said("range.whole-to", pages, {"limit": limit})
    return Said(f"range.{kind}", pages)


def _growing(ordered: OrderedBook) -> Iterator[Said]:
    """How the numbers grow that are chosen for the grade: from which week on they are which."""
    graded = tuple(page for page in ordered.pages if page.graded)
    if not graded:
        return
    steps, before = [], None
    for number, run in run_of_week(ordered):
        if run != before:
            first = run.numbers(3)
            values: Values = {"week": number, "a": first[0], "b": first[1], "c": first[2]}
            steps.append(Said("practice.step", graded, values))
        before = run
    grade = CURRICULA[ordered.curriculum].name(GRADES.index(ordered.grade))
    yield Said("practice.grows", graded, {"grade": grade, "steps": tuple(steps)})


def _set_against(ordered: OrderedBook, found: Practised) -> Iterator[Said]:
    """Where the numbers lie to the grade, and such as suit it where they do not."""
    grade = CURRICULA[ordered.curriculum].name(GRADES.index(ordered.grade))
    if found.all_below:
        yield Said("practice.below", found.below, {"grade": grade})
    elif 0 < len(found.above) <= NAMED:
        yield Said("practice.above-on", found.above, {"grade": grade, "pages": found.above})
    elif found.above:
        whole: Values = {"grade": grade, "all": len(ordered.pages)}
        yield Said("practice.above", found.above, whole, len(found.above))
    if (found.all_below or found.above) and found.suggestions:
        pairs = tuple(
            Said(
                "practice.pair",
                (),
                {"start": Number.parse(each.start), "step": Number.parse(each.step)},
            )
            for each in found.suggestions[:SUGGESTED]
        )
        yield Said("practice.suggest", ordered.pages, {"grade": grade, "numbers": pairs})
