"""The tables of curricula, and numbers set against them.

Limits and codes were taken from a look over the curricula's texts, read in transcriptions (V2) or
in official copies (V1); see each module. What was read in part (P) or is from memory (M) is never
quoted.
"""

from __future__ import annotations

import pytest

from bookmaker.curricula import (
    BY_LANGUAGE,
    CURRICULA,
    level,
    practised_by,
    runs_of,
    suggest,
)
from bookmaker.curricula.expected import QUOTED
from bookmaker.model import GRADES, Number, progression
from bookmaker.words import languages


def numbers(start: str, step: str, count: int = 6) -> tuple[Number, ...]:
    return progression(Number.parse(start), Number.parse(step), count)


def listed(told: str) -> tuple[Number, ...]:
    return tuple(map(Number.parse, told.split()))


def where(told: tuple[Number, ...], curriculum: str) -> set[str]:
    return {each.where for each in practised_by(told, CURRICULA[curriculum])}


@pytest.mark.parametrize(
    ("start", "step", "curriculum", "codes"),
    [
        # CCSS-M 2010, NGA Center and CCSSO; codes V2
        ("1", "2", "us", {"1.OA.C.6", "2.OA.B.2"}),
        ("8", "7", "us", {"2.NBT.B.5"}),
        ("48", "57", "us", {"2.NBT.B.7", "3.NBT.A.2"}),
        ("500", "200", "us", {"4.NBT.B.4"}),
        ("10", "10", "us", {"1.NBT.C.6"}),
        ("50", "10", "us", {"2.NBT.B.5"}),  # 100 is no ten of 1.NBT.C.6
        ("0.3", "0.4", "us", {"5.NBT.B.7"}),
        ("0.125", "0.125", "us", {"6.NS.B.3"}),
        ("3/8", "1/4", "us", {"4.NF.B.3.A"}),
        ("1/2", "1/3", "us", {"5.NF.A.1"}),
        ("-3", "2", "us", {"7.NS.A.1"}),
        # National curriculum in England 2013; V1, and V2 for years 1 and 2
        ("1", "2", "england", {"Year 1", "Year 2"}),  # Year 2's facts to 20 as well
        ("8", "7", "england", {"Year 2"}),
        ("48", "57", "england", {"Year 3"}),
        ("500", "200", "england", {"Year 4"}),
        ("9000", "2000", "england", {"Year 5"}),
        ("1/7", "1/7", "england", {"Year 3"}),
        ("-3", "2", "england", {"Year 6"}),
        ("-30", "2", "england", {"Year 7"}),  # no interval across zero
        # Programmes 2024 and 2025, V2; decimals to thousandths P
        ("48", "57", "france", {"CE1"}),
        ("500", "200", "france", {"CE2"}),
        ("0.75", "0.48", "france", {"CE2", "CM1"}),
        ("0.875", "0.625", "france", {"CM2"}),
        # Real Decreto 157/2022, V2
        ("8", "7", "spain", {"1.º de Primaria"}),
        ("48", "57", "spain", {"Primer ciclo"}),
        ("0.3", "0.4", "spain", {"Tercer ciclo"}),
        # LehrplanPLUS V1, a school's page P
        ("1", "2", "germany", {"Klasse 1", "Bayern, M1/2 1.2"}),
        ("500", "2000", "germany", {"Bayern, M3/4 1.2"}),
        # Ontario 2020, V2
        ("48", "57", "ontario", {"Grade 3, B2.3"}),
        # Australian Curriculum v9, ACARA 2022, V2
        ("1", "2", "australia", {"AC9M1N04", "AC9M2A02"}),
        ("0.3", "0.4", "australia", {"AC9M6N04"}),
        # Singapore 2021, V2
        ("48", "57", "singapore", {"P2, Whole Numbers"}),
    ],
)
def test_numbers_practise_what_is_closest(start: str, step: str, curriculum: str, codes) -> None:
    assert where(numbers(start, step), curriculum) == codes


@pytest.mark.parametrize(
    ("told", "codes"),
    [
        ("2/4 1/4 3/4", {"4.NF.B.3.A"}),  # as it is written: one denominator
        ("1/4 1/2 3/4", {"5.NF.A.1"}),
        ("1/4 1 7/4", {"4.NF.B.3.A"}),
        ("0.50 0.25 1", {"5.NBT.B.7"}),
        ("0.5 1/4 1", {"5.NF.A.1"}),
        ("50 20 10", {"1.NBT.C.6"}),
    ],
)
def test_numbers_are_judged_as_they_are_written(told: str, codes: set[str]) -> None:
    assert where(listed(told), "us") == codes


@pytest.mark.parametrize("name", CURRICULA)
def test_nothing_from_memory_is_quoted(name: str) -> None:
    for each in CURRICULA[name].expected:
        assert each.is_quoted == (each.proof in QUOTED)
        assert bool(each.words) == each.is_quoted, each.where


def test_every_language_has_a_curriculum() -> None:
    assert set(languages()) <= set(BY_LANGUAGE)
    assert set(BY_LANGUAGE.values()) <= set(CURRICULA)
    assert len(CURRICULA) == 8


@pytest.mark.parametrize("name", CURRICULA)
@pytest.mark.parametrize("grade", range(len(GRADES)))
def test_numbers_for_a_grade_are_never_above_it_and_some_practise_it(name: str, grade: int) -> None:
    known = CURRICULA[name]
    runs = runs_of(grade, known)
    assert runs
    for run in runs:
        for count in range(3, 9):
            assert level(run.numbers(count), grade, known) != "above", run
    assert suggest(grade, known, [5, 7])


@pytest.mark.parametrize("name", ["us", "england", "germany", "ontario", "australia"])
def test_third_graders_have_two_digits_then_three_and_nothing_within_twenty(name: str) -> None:
    grade = 3
    told = [run.numbers(8) for run in runs_of(grade, CURRICULA[name])]
    assert all(number.value > 20 for run in told for number in run)
    digits = [max(len(number.text) for number in run) for run in told]
    assert digits == sorted(digits) and {2, 3} == set(digits)


def test_a_large_page_keeps_within_its_family_by_a_smaller_step() -> None:
    for run in runs_of(3, CURRICULA["us"]):
        assert max(number.value for number in run.numbers(30)) < 1000
