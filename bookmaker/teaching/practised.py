"""What a book practises, and how its numbers lie to its grade."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from bookmaker.cache import Cache
from bookmaker.model import CertifiedPage, OrderedBook, Page, Problem
from bookmaker.puzzle import (
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
    """The practice of each page (by id), of all together, and where they lie.

    ``standards`` are what schools call it, each with its pages; ``below`` and ``above`` the pages
    that lie below and above the book's grade; ``suggestions`` suit it on pages of every size.
    """

    pages: dict[str, Practice]
    together: Practice
    standards: tuple[tuple[Standard, tuple[CertifiedPage, ...]], ...]
    below: tuple[CertifiedPage, ...]
    above: tuple[CertifiedPage, ...]
    suggestions: tuple[Suggestion, ...]

    @property
    def all_below(self) -> bool:
        return len(self.below) == len(self.pages)


def practised(ordered: OrderedBook, cache: Cache, seed: int) -> Practised:
    """What is practised when every page of ``ordered`` is solved once."""
    pages = {p.id: page_practice(p, cache, seed) for p in ordered.pages}
    grade = ordered.grade
    lies = {p.id: level(p.numbers, grade) for p in ordered.pages}
    return Practised(
        pages,
        practice_together(pages.values()),
        _standards(ordered.pages),
        tuple(page for page in ordered.pages if lies[page.id] == "below"),
        tuple(page for page in ordered.pages if lies[page.id] == "above"),
        suggest(grade, [len(page.spots) for page in ordered.pages]),
    )


def _standards(
    pages: Sequence[CertifiedPage],
) -> tuple[tuple[Standard, tuple[CertifiedPage, ...]], ...]:
    """Each standard that a page's own numbers practise, with all such pages."""
    of: dict[Standard, list[CertifiedPage]] = {}
    for page in pages:
        for standard in standards_for(page.numbers):
            of.setdefault(standard, []).append(page)
    known = sorted(of, key=lambda each: (each.system, each.grade, each.code, each.kind))
    return tuple((standard, tuple(of[standard])) for standard in known)


def page_practice(page: Page, cache: Cache, seed: int) -> Practice:
    """What one page practises, all its solutions being equally likely."""
    return practice(*to_instance(page), cache=cache, seed=seed)


def above_grade(ordered: OrderedBook) -> Iterator[Problem]:
    """A warning for the pages of each chapter whose numbers go beyond the book's grade."""
    grade = ordered.grade
    for chapter in ordered.chapters:
        above = [p for p in chapter.pages if level(p.numbers, grade) == "above"]
        if above:
            names = ", ".join(page.name for page in above)
            lines = dict(chapter.lines)
            whole = len(above) == len(chapter.pages)
            line = lines.get("numbers", 1) if whole else above[0].line_of("numbers")
            message = f"the numbers of {names} go beyond what grade {grade} expects"
            below = any(number.value < 0 for page in above for number in page.numbers)
            better = "numbers from 0 up" if below else "smaller or simpler numbers"
            hint = "" if below else _hint(above, grade)
            mend = f"Use {better}, or raise the grade.{hint}"
            file = chapter.file
            yield Problem(file, line, above[0].name, "above-grade", message, mend, "warning")


def _hint(pages: Sequence[Page], grade: str) -> str:
    sizes = [len(page.spots) for page in pages]
    fitting = suggest(grade, sizes)
    if not fitting:
        return ""
    largest = max(abs(number.value) for page in pages for number in page.numbers)

    def away(each: Suggestion) -> float:
        reach = Fraction(each.start) + (max(sizes) - 1) * Fraction(each.step)
        return abs(math.log(reach / max(largest, Fraction(1, 10))))

    return f" {as_numbers(min(fitting, key=away))} suits it."


def as_numbers(suggestion: Suggestion) -> str:
    """A suggestion as a manifest writes it."""
    start, step = (
        value if value.isdigit() else f'"{value}"' for value in (suggestion.start, suggestion.step)
    )
    return f"numbers = {{ start = {start}, step = {step} }}"
