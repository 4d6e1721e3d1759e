"""Numbers set against what grades expect.

The standards are those of the Common Core State Standards for Mathematics (2010) and of the
national curriculum in England, mathematics programmes of study (2013); limits from memory.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from bookmaker.model import GRADES, Number, progression
from bookmaker.puzzle import level, standards_for, suggest
from bookmaker.puzzle.grades import STANDARDS


def numbers(start: str, step: str, count: int = 6) -> tuple[Number, ...]:
    return progression(Number.parse(start), Number.parse(step), count)


def listed(told: str) -> tuple[Number, ...]:
    return tuple(map(Number.parse, told.split()))


@pytest.mark.parametrize(
    ("start", "step", "codes"),
    [
        ("1", "1", {"K.OA.A.2", "Year 1"}),
        ("1", "2", {"1.OA.C.6", "2.OA.B.2", "Year 1"}),
        ("8", "7", {"2.NBT.B.5", "Year 2"}),
        ("48", "57", {"3.NBT.A.2", "Year 3"}),
        ("500", "200", {"4.NBT.B.4", "Year 4"}),
        ("9000", "2000", {"4.NBT.B.4", "Year 5"}),
        ("0.3", "0.4", {"5.NBT.B.7", "Year 5"}),
        ("0.125", "0.125", {"6.NS.B.3"}),
        ("-3", "2", {"7.NS.A.1", "Year 6"}),
        ("-30", "2", {"7.NS.A.1"}),  # no interval across zero
        ("10", "10", {"1.NBT.C.6", "Year 2"}),
        ("50", "10", {"2.NBT.B.5", "Year 2"}),  # 100 is no ten of 1.NBT.C.6
    ],
)
def test_numbers_practise_the_closest_standards(start: str, step: str, codes: set[str]) -> None:
    assert {standard.code for standard in standards_for(numbers(start, step))} == codes


@pytest.mark.parametrize(
    ("start", "step", "codes"),
    [
        ("1/9", "1/9", {"5.NF.A.1", "Year 6"}),  # 3/9 is printed as 1/3
        ("1/7", "1/7", {"4.NF.B.3", "Year 3"}),
        ("3/8", "1/4", {"4.NF.B.3", "Year 4"}),
        ("1/2", "1/3", {"5.NF.A.1", "Year 6"}),
    ],
)
def test_fractions_are_told_by_their_denominators(start: str, step: str, codes: set[str]) -> None:
    found = standards_for(numbers(start, step))
    assert {standard.code for standard in found} == codes


@pytest.mark.parametrize(
    ("told", "codes"),
    [
        ("2/4 1/4 3/4", {"4.NF.B.3", "Year 3"}),  # as it is written: one denominator
        ("1/4 1/2 3/4", {"5.NF.A.1", "Year 6"}),
        ("1/4 1 7/4", {"4.NF.B.3", "Year 4"}),
        ("0.50 0.25 1", {"5.NBT.B.7", "Year 5"}),
        ("0.5 1/4 1", {"5.NF.A.1", "Year 6"}),
        ("50 20 10", {"1.NBT.C.6", "Year 2"}),
        ("50 20 100", {"2.NBT.B.5", "Year 2"}),
    ],
)
def test_numbers_are_judged_as_they_are_written(told: str, codes: set[str]) -> None:
    assert {standard.code for standard in standards_for(listed(told))} == codes


@pytest.mark.parametrize(
    ("start", "step", "grade", "expected"),
    [
        ("1", "2", "3", "below"),  # whole numbers within ten are known by heart by then
        ("1", "2", "2", "at"),
        ("1", "2", "1", "at"),
        ("1", "2", "K", "above"),
        ("10", "10", "1", "at"),  # tens from tens, 1.NBT.C.6
        ("10", "10", "K", "above"),
        ("10", "10", "4", "below"),
        ("8", "7", "3", "at"),
        ("8", "7", "1", "above"),
        ("8", "7", "4", "below"),
        ("0.3", "0.4", "3", "above"),
        ("0.3", "0.4", "5", "at"),
        ("300000", "400000", "4", "above"),
        ("300000", "400000", "5", "at"),
    ],
)
def test_numbers_lie_below_at_or_above_a_grade(start, step, grade, expected) -> None:
    assert level(numbers(start, step), grade) == expected


@pytest.mark.parametrize("grade", GRADES)
@pytest.mark.parametrize("spots", [5, 8])
def test_every_grade_has_numbers_that_suit_it(grade: str, spots: int) -> None:
    found = suggest(grade, [4, spots])
    assert found
    exchanging = [suggestion.exchanging >= Fraction(1, 2) for suggestion in found]
    assert exchanging == sorted(exchanging, reverse=True)
    for suggestion in found:
        for count in (4, spots):
            assert level(numbers(suggestion.start, suggestion.step, count), grade) == "at"


def test_third_graders_are_offered_numbers_that_cross_tens() -> None:
    found = suggest("3", [5, 7])
    assert ("8", "7") in {(suggestion.start, suggestion.step) for suggestion in found}
    assert found[0].exchanging > Fraction(1, 2)


def test_no_numbers_are_offered_that_leave_a_small_page_below_the_grade() -> None:
    """Start 2, step 3 goes beyond twenty on eight spots, and on four it does not."""
    assert "2" in {suggestion.start for suggestion in suggest("3", [8])}
    assert "2" not in {suggestion.start for suggestion in suggest("3", [4, 8])}


def test_the_standards_that_are_promised_are_there() -> None:
    codes = {standard.code for standard in STANDARDS}
    assert codes >= {"1.OA.C.6", "2.OA.B.2", "2.NBT.B.5", "3.NBT.A.2", "4.NBT.B.4"}
    assert codes >= {"5.NBT.B.7", "4.NF.B.3"}
    assert codes >= {f"Year {year}" for year in range(1, 7)}
