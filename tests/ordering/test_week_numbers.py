"""Numbers for the grade grow from week to week and change nothing else."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from bookmaker.cache import MemoryCache
from bookmaker.model import Book, CertifiedPage
from bookmaker.ordering import in_order, numbers_by_week, term_plan, with_numbers
from bookmaker.puzzle import certify_pages
from tests.ordering.pages import book, page
from tests.puzzle.reference import brute_force, path


def graded(count: int, **said: object) -> tuple[Book, dict[str, CertifiedPage]]:
    pages = [replace(page(f"p{i}", 3.0, spots=4 + i % 3), graded=True) for i in range(count)]
    made = book(pages, **said)
    certified, problems = certify_pages(made.pages, MemoryCache(), 0)
    assert not problems
    return made, certified


@pytest.mark.parametrize(("grade", "curriculum"), [("3", "us"), ("5", "france"), ("2", "england")])
def test_solutions_and_work_stay_while_numbers_grow(grade: str, curriculum: str) -> None:
    made, before = graded(8, grade=grade, curriculum=curriculum, weeks=4)
    ordered = in_order(made, before)
    told = with_numbers(made, numbers_by_week(ordered))
    after, _ = certify_pages(told.pages, MemoryCache(), 0)
    again = in_order(told, after)
    assert [each.id for each in again.pages] == [each.id for each in ordered.pages]
    for each in again.pages:
        one, other = before[each.id].certificate, each.certificate
        assert (one.solutions, one.work) == (other.solutions, other.work)
        values = tuple(number.value for number in each.numbers)
        assert one.solutions == len(brute_force(path(len(values)), values))
    firsts = [[p.numbers[0].value for p in week.pages] for week in term_plan(again)]
    assert all(len(set(week)) == 1 for week in firsts), "one progression a week"
    largest = [max(p.numbers[-1].value for p in week.pages) for week in term_plan(again)]
    assert largest[-1] > largest[0]


def test_a_page_with_numbers_of_its_own_keeps_them() -> None:
    made, certified = graded(4, weeks=2)
    own = replace(made.pages[0], graded=False)
    pages = (own, *made.pages[1:])
    told = replace(made, chapters=(replace(made.chapters[0], pages=pages),))
    kept = {**certified, own.id: CertifiedPage.of(own, certified[own.id].certificate)}
    numbers = numbers_by_week(in_order(told, kept))
    assert own.id not in numbers and len(numbers) == 3
    assert with_numbers(told, numbers).pages[0].numbers == own.numbers
    assert all(x.value > Fraction(20) for each in numbers.values() for x in each)
