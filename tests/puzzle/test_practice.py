"""What is practised, against brute force and pencil and paper."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookmaker.cache import MemoryCache
from bookmaker.puzzle import certify, crosses_ten, exchanges, practice, practice_together
from tests.puzzle.reference import brute_force, path, progression, random_tree, star

KEPT = MemoryCache()


@settings(max_examples=40, deadline=None)
@given(st.integers(2, 6), st.integers(0, 10**6), st.booleans(), st.booleans())
def test_subtractions_are_as_frequent_as_in_all_solutions(
    n: int, seed: int, give: bool, uneven: bool
) -> None:
    tree = random_tree(n, seed)
    numbers = progression(n, 8, 7)
    if uneven:
        numbers = tuple(Fraction(x) for x in (2, 3, 5, 7, 11, 13)[:n])
    solutions = brute_force(tree, numbers)
    given = {0: min(solutions)[0]} if give else {}
    solutions = [s for s in solutions if all(s[v] == x for v, x in given.items())]
    times = Counter((max(s[a], s[b]), min(s[a], s[b])) for s in solutions for a, b in tree.edges)
    found = practice(tree, numbers, given, cache=KEPT)
    assert {(each.larger, each.smaller): each.times for each in found.subtractions} == {
        pair: Fraction(count, len(solutions)) for pair, count in times.items()
    }
    assert found.times == n - 1


def test_a_progression_practises_each_difference_once() -> None:
    found = practice(path(6), progression(6), {}, cache=KEPT)
    assert found.differences == {Fraction(2 * d): Fraction(1) for d in range(1, 6)}
    assert found.largest == 11


def test_a_large_page_practises_what_its_certificate_does() -> None:
    tree = random_tree(21, 2)
    solution = certify(tree, progression(21), {}, cache=KEPT).solution
    found = practice(tree, progression(21), {}, cache=KEPT)
    assert {(each.larger, each.smaller) for each in found.subtractions} == {
        (max(solution[a], solution[b]), min(solution[a], solution[b])) for a, b in tree.edges
    }


def test_a_book_practises_what_its_pages_do_together() -> None:
    one = practice(star(5), progression(5), {}, cache=KEPT)
    other = practice(path(6), progression(6, 8, 7), {}, cache=KEPT)
    both = practice_together([one, other, one])
    assert both.times == 4 + 5 + 4
    assert both.times_crossing == 2 * one.times_crossing + other.times_crossing
    assert both.largest == 43
    assert both.differences[Fraction(4)] == 2


@pytest.mark.parametrize(
    ("larger", "smaller", "exchanged"),
    [
        # Borrowing by hand, digit under digit.
        ("34", "8", True),
        ("38", "4", False),
        ("30", "4", True),
        ("11", "9", True),
        ("19", "1", False),
        ("134", "62", True),
        ("164", "32", False),
        ("1.2", "0.5", True),
        ("1.7", "0.5", False),
        ("2", "0.5", True),
        ("1.25", "0.5", True),
        ("5/3", "1/3", False),
        ("4/3", "2/3", False),
        ("3", "-2", False),
    ],
)
def test_exchanging_is_borrowing(larger: str, smaller: str, exchanged: bool) -> None:
    assert exchanges(Fraction(larger), Fraction(smaller)) == exchanged


@pytest.mark.parametrize(
    ("larger", "smaller", "crosses"),
    [
        ("34", "8", True),
        ("30", "4", True),
        ("38", "4", False),
        ("50", "20", False),
        ("134", "62", False),  # a hundred is exchanged
        ("134", "66", True),
        ("1.2", "0.5", False),
        ("5/4", "1/2", False),
        ("3", "-8", False),
    ],
)
def test_only_whole_numbers_cross_a_ten(larger: str, smaller: str, crosses: bool) -> None:
    assert crosses_ten(Fraction(larger), Fraction(smaller)) == crosses


@given(st.integers(0, 10**6), st.integers(0, 10**6))
def test_nothing_is_exchanged_where_digits_can_be_taken_one_by_one(a: int, b: int) -> None:
    larger, smaller = max(a, b), min(a, b)
    digits = zip(reversed(str(larger)), reversed(str(smaller).zfill(len(str(larger)))), strict=True)
    one_by_one = all(x >= y for x, y in digits)
    assert exchanges(Fraction(larger), Fraction(smaller)) == (not one_by_one)


def test_start_eight_step_seven_crosses_tens_all_the_time() -> None:
    plain = practice(path(7), progression(7), {}, cache=KEPT)
    crossing = practice(path(7), progression(7, 8, 7), {}, cache=KEPT)
    assert crossing.times_crossing / crossing.times > Fraction(1, 2)
    assert plain.times_crossing / plain.times < Fraction(1, 2)
