"""What a book practises, and how its numbers lie to its grade."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from bookmaker.cache import Cache
from bookmaker.model import CertifiedPage, Number, OrderedBook, Page, Problem
from bookmaker.puzzle import (
    Level,
    Practice,
    Standard,
    Suggestion,
    level,
    practice,
    practice_together,
    standards_for,
    suggest,
    to_instance,
)


@dataclass(frozen=True, slots=True)
class Practised:
    """The practice of each page (by id), of all together, and where it lies.

    ``level`` is "below", "at" or "above" the book's grade; ``standards`` what schools call it.
    """

    pages: dict[str, Practice]
    together: Practice
    level: Level
    standards: tuple[Standard, ...]
    suggestions: tuple[Suggestion, ...]


def practised(ordered: OrderedBook, cache: Cache, seed: int) -> Practised:
    """What is practised when every page of ``ordered`` is solved once."""
    pages = {p.id: page_practice(p, cache, seed) for p in ordered.pages}
    widest = _widest(ordered.pages)
    most = max(len(page.spots) for page in ordered.pages)
    return Practised(
        pages,
        practice_together(pages.values()),
        _level(widest, ordered.grade),
        standards_for(_values(widest), _as_fractions(widest)),
        suggest(ordered.grade, most),
    )


def page_practice(page: Page, cache: Cache, seed: int) -> Practice:
    """What one page practises, all its solutions being equally likely."""
    fractions = _as_fractions(page.numbers)
    return practice(*to_instance(page), cache=cache, seed=seed, as_fractions=fractions)


def above_grade(ordered: OrderedBook) -> Iterator[Problem]:
    """A warning for the pages of each chapter whose numbers go beyond the book's grade."""
    grade = ordered.grade
    for chapter in ordered.chapters:
        above = [p for p in chapter.pages if _level(p.numbers, grade) == "above"]
        if above:
            names = ", ".join(page.name for page in above)
            lines = dict(chapter.lines)
            whole = len(above) == len(chapter.pages)
            line = lines.get("numbers", 1) if whole else above[0].line_of("numbers")
            message = f"the numbers of {names} go beyond what grade {grade} expects"
            mend = f"Use smaller or simpler numbers, or raise the grade.{_hint(above, grade)}"
            file = chapter.file
            yield Problem(file, line, above[0].name, "above-grade", message, mend, "warning")


def _hint(pages: Sequence[Page], grade: str) -> str:
    most = max(len(page.spots) for page in pages)
    fitting = suggest(grade, most)
    if not fitting:
        return ""
    largest = max(abs(number.value) for page in pages for number in page.numbers)

    def away(each: Suggestion) -> float:
        reach = Fraction(each.start) + (most - 1) * Fraction(each.step)
        return abs(math.log(reach / max(largest, Fraction(1, 10))))

    return f" {as_numbers(min(fitting, key=away))} suits it."


def as_numbers(suggestion: Suggestion) -> str:
    """A suggestion as a manifest writes it."""
    start, step = (
        value if value.isdigit() else f'"{value}"' for value in (suggestion.start, suggestion.step)
    )
    return f"numbers = {{ start = {start}, step = {step} }}"


def _widest(pages: Sequence[CertifiedPage]) -> tuple[Number, ...]:
    """All numbers that the pages ask for, each once."""
    numbers = {number.text: number for page in pages for number in page.numbers}
    return tuple(sorted(numbers.values(), key=lambda number: number.value))


def _level(numbers: Sequence[Number], grade: str) -> Level:
    return level(_values(numbers), grade, _as_fractions(numbers))


def _values(numbers: Sequence[Number]) -> tuple[Fraction, ...]:
    return tuple(number.value for number in numbers)


def _as_fractions(numbers: Sequence[Number]) -> bool:
    return any(number.is_fraction for number in numbers)
