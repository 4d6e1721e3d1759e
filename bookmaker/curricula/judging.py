"""Numbers set against a curriculum: what of it they practise, and how they lie to a grade."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from bookmaker.curricula.expected import Curriculum, Expected, kind_of
from bookmaker.curricula.runs import FAMILIES
from bookmaker.model import Number

Level = Literal["below", "at", "above"]


@dataclass(frozen=True)
class Run:
    """One progression of a family."""

    family: str
    place: int

    @property
    def start(self) -> str:
        return FAMILIES[self.family].runs[self.place][0]

    @property
    def step(self) -> str:
        return FAMILIES[self.family].runs[self.place][1]

    def numbers(self, count: int) -> tuple[Number, ...]:
        return FAMILIES[self.family].numbers(self.place, count)


def practised_by(numbers: Sequence[Number], curriculum: Curriculum) -> tuple[Expected, ...]:
    """What of the curriculum subtractions among ``numbers`` practise: that which is closest.

    Where it says nothing of tens, or of numbers so near each other, that of which they are a part.
    """
    for kind in _kinds(numbers):
        fitting = [each for each in curriculum.expected if _fits(each, kind, numbers)]
        if fitting:
            closest = min((each.limit, each.places) for each in fitting)
            return tuple(each for each in fitting if (each.limit, each.places) == closest)
    return ()


def level(numbers: Sequence[Number], grade: int, curriculum: Curriculum) -> Level:
    """Where the subtractions among ``numbers`` lie.

    "above": nothing up to the grade asks for them; "below": whole numbers that are known by heart
    before the grade begins.
    """
    kinds = _kinds(numbers)
    is_whole = kinds[-1] == "whole"
    largest = max(number.value for number in numbers)
    if is_whole and grade == 0 and largest <= 10:
        return "at"  # before the first grade children count to ten: common practice, no source
    asked = [e.grade for kind in kinds for e in curriculum.expected if _fits(e, kind, numbers)]
    if grade < min(asked, default=curriculum.unnamed if is_whole else grade + 1):
        return "above"
    known = curriculum.by_heart.get(grade, 0)
    return "below" if is_whole and largest <= known else "at"


def runs_of(grade: int, curriculum: Curriculum) -> tuple[Run, ...]:
    """The progressions that practise what a grade is for, in the order in which they grow."""
    families = curriculum.runs.get(grade, ())
    return tuple(Run(name, i) for name in families for i in range(len(FAMILIES[name].runs)))


def suggest(grade: int, curriculum: Curriculum, spots: Sequence[int]) -> tuple[Run, ...]:
    """Those of them that suit the grade on pages of each of these numbers of ``spots``, as they
    are: without a smaller step."""
    return tuple(
        run
        for run in runs_of(grade, curriculum)
        if all(_suits(run, count, grade, curriculum) for count in set(spots))
    )


def _suits(run: Run, count: int, grade: int, curriculum: Curriculum) -> bool:
    numbers = run.numbers(count)
    whole_step = count < 2 or numbers[1].value - numbers[0].value == Number.parse(run.step).value
    return whole_step and level(numbers, grade, curriculum) == "at"


def _kinds(numbers: Sequence[Number]) -> tuple[str, ...]:
    kind = kind_of(numbers)
    return (kind, "whole") if kind == "tens" else (kind,)


def _fits(expected: Expected, kind: str, numbers: Sequence[Number]) -> bool:
    largest = max(number.value for number in numbers)
    places = max(number.places for number in numbers)
    return (
        expected.kind == kind
        and largest <= expected.limit
        and places <= max(expected.places, 0 if kind == "decimal" else places)
    )
