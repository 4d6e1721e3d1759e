"""What a book practises, and how its numbers lie to its grade."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from bookmaker.cache import Cache
from bookmaker.curricula import CURRICULA, Curriculum, Expected, Run, level, practised_by, suggest
from bookmaker.model import GRADES, CertifiedPage, OrderedBook, Page, Problem
from bookmaker.puzzle import Practice, practice, practice_together, to_instance


@dataclass(frozen=True, slots=True)
class Practised:
    """The practice of each page (by id), of all together, and where they lie.

    ``expected`` is what of the book's curriculum they practise, each with its pages; ``below`` and
    ``above`` the pages that lie below and above the book's grade; ``suggestions`` suit it on pages
    of every size.
    """

    pages: dict[str, Practice]
    together: Practice
    expected: tuple[tuple[Expected, tuple[CertifiedPage, ...]], ...]
    below: tuple[CertifiedPage, ...]
    above: tuple[CertifiedPage, ...]
    suggestions: tuple[Run, ...]

    @property
    def all_below(self) -> bool:
        return len(self.below) == len(self.pages)


def practised(ordered: OrderedBook, cache: Cache, seed: int) -> Practised:
    """What is practised when every page of ``ordered`` is solved once."""
    pages = {p.id: page_practice(p, cache, seed) for p in ordered.pages}
    grade, curriculum = GRADES.index(ordered.grade), CURRICULA[ordered.curriculum]
    lies = {p.id: level(p.numbers, grade, curriculum) for p in ordered.pages}
    return Practised(
        pages,
        practice_together(pages.values()),
        _expected(ordered.pages, curriculum),
        tuple(page for page in ordered.pages if lies[page.id] == "below"),
        tuple(page for page in ordered.pages if lies[page.id] == "above"),
        suggest(grade, curriculum, [len(page.spots) for page in ordered.pages]),
    )


def _expected(
    pages: Sequence[CertifiedPage], curriculum: Curriculum
) -> tuple[tuple[Expected, tuple[CertifiedPage, ...]], ...]:
    """What the pages' own numbers practise, with all such pages; one sentence told once."""
    of: dict[tuple[str, str], dict[str, CertifiedPage]] = {}
    first: dict[tuple[str, str], Expected] = {}
    for page in pages:
        for each in practised_by(page.numbers, curriculum):
            key = (each.where, each.words if each.is_quoted else f"{each.kind} {each.limit}")
            first.setdefault(key, each)
            of.setdefault(key, {})[page.id] = page
    in_turn = sorted(of, key=lambda key: (first[key].grade, curriculum.expected.index(first[key])))
    return tuple((first[key], tuple(of[key].values())) for key in in_turn)


def page_practice(page: Page, cache: Cache, seed: int) -> Practice:
    """What one page practises, all its solutions being equally likely."""
    return practice(*to_instance(page), cache=cache, seed=seed)


def above_grade(ordered: OrderedBook) -> Iterator[Problem]:
    """A warning for the pages of each chapter whose numbers go beyond the book's grade."""
    grade, curriculum = GRADES.index(ordered.grade), CURRICULA[ordered.curriculum]
    for chapter in ordered.chapters:
        above = [p for p in chapter.pages if level(p.numbers, grade, curriculum) == "above"]
        if above:
            names = ", ".join(page.name for page in above)
            lines = dict(chapter.lines)
            whole = len(above) == len(chapter.pages)
            line = lines.get("numbers", 1) if whole else above[0].line_of("numbers")
            message = f"the numbers of {names} go beyond what {curriculum.name(grade)} expects"
            below = any(number.value < 0 for page in above for number in page.numbers)
            better = "numbers from 0 up" if below else "smaller or simpler numbers"
            hint = "" if below else _hint(above, grade, curriculum)
            mend = f"Use {better}, or raise the grade.{hint}"
            file = chapter.file
            yield Problem(file, line, above[0].name, "above-grade", message, mend, "warning")


def _hint(pages: Sequence[Page], grade: int, curriculum: Curriculum) -> str:
    sizes = [len(page.spots) for page in pages]
    fitting = suggest(grade, curriculum, sizes)
    if not fitting:
        return ""
    largest = max(abs(number.value) for page in pages for number in page.numbers)

    def away(each: Run) -> float:
        reach = abs(each.numbers(max(sizes))[-1].value)
        return abs(math.log(max(reach, Fraction(1, 10)) / max(largest, Fraction(1, 10))))

    return f" {as_numbers(min(fitting, key=away))} suits it."


def as_numbers(run: Run) -> str:
    """A progression as a manifest writes it."""
    start, step = (
        value if value.lstrip("-").isdigit() else f'"{value}"' for value in (run.start, run.step)
    )
    return f"numbers = {{ start = {start}, step = {step} }}"
