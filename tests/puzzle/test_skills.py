"""Skills against pencil and paper, and their counts against brute force."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.cache import MemoryCache
from bookmaker.model import Number
from bookmaker.puzzle import (
    Span,
    count_skills,
    exchanges,
    exchanging_columns,
    skills_of,
    skills_together,
)
from tests.puzzle.reference import brute_force, path, random_tree, star

KEPT = MemoryCache()


def numbers(*texts: str) -> tuple[Number, ...]:
    return tuple(Number.parse(text) for text in texts)


@pytest.mark.parametrize(
    ("larger", "smaller", "asks"),
    [
        # Worked out by hand, digit under digit.
        ("34", "8", {"exchange", "across a ten", "take ones", "within 100"}),
        ("38", "4", {"take ones", "within 100"}),
        ("50", "20", {"tens", "within 100"}),
        ("500", "200", {"hundreds", "within 1000"}),
        ("120", "50", {"exchange", "across a hundred", "tens", "within 1000"}),
        ("47", "20", {"take tens", "within 100"}),
        ("9", "4", {"within 10"}),
        ("15", "11", {"within 20"}),
        ("64", "27", {"exchange", "across a ten", "within 100"}),
        (
            "402",
            "157",
            {
                "exchange",
                "exchange twice",
                "exchange over nought",
                "across a ten",
                "across a hundred",
                "within 1000",
            },
        ),
        ("1.2", "0.5", {"exchange", "across a whole", "decimals"}),
        ("2", "0.5", {"exchange", "across a whole", "decimals", "decimals of different places"}),
        ("1.25", "0.5", {"exchange", "across a whole", "decimals", "decimals of different places"}),
        ("0.50", "0.25", {"exchange", "decimals"}),
        ("3/4", "2/4", {"like denominators"}),
        ("3/4", "1/2", {"related denominators"}),
        ("1/2", "1/3", {"unlike denominators"}),
        ("5/4", "3/4", {"like denominators"}),
        ("2", "3/4", {"fraction from a whole"}),
        ("3", "-2", {"across zero"}),
        ("-2", "-7", {"below zero"}),
        ("1/4", "-3/4", {"across zero", "like denominators"}),
        ("20", "0", {"take ones", "within 20"}),
    ],
)
def test_a_subtraction_asks_for_what_it_asks_for_by_hand(larger: str, smaller: str, asks) -> None:
    one, other = numbers(larger, smaller)
    assert skills_of(one, other) == skills_of(other, one) == asks


@given(st.integers(0, 10**6), st.integers(0, 10**6))
def test_columns_exchange_as_often_as_digits_of_the_sum_are_carried(a: int, b: int) -> None:
    # Kummer 1852, J. reine angew. Math. 44: carries in x + y are (s(x) + s(y) - s(x + y)) / 9,
    # s being the sum of digits; a - b exchanges where b + (a - b) carries.
    smaller, larger = sorted((a, b))
    digits = [sum(map(int, str(x))) for x in (smaller, larger - smaller, larger)]
    columns = exchanging_columns(*numbers(str(larger), str(smaller)))
    assert 9 * len(columns) == digits[0] + digits[1] - digits[2]
    assert bool(columns) == exchanges(Fraction(larger), Fraction(smaller))


def random_numbers(chance: Random, n: int) -> tuple[Number, ...]:
    kind = chance.randrange(4)
    if kind == 0:
        return numbers(*(str(8 + 7 * k) for k in range(n)))
    if kind == 1:
        return numbers(*(str(x) for x in chance.sample(range(300), n)))
    if kind == 2:
        return numbers(*(f"{x / 100:g}" for x in chance.sample(range(1, 400), n)))
    return numbers(*(f"{x}/4" for x in chance.sample(range(1, 20), n)))


@pytest.mark.parametrize("seed", range(40))
def test_skills_are_counted_as_in_all_solutions(seed: int) -> None:
    chance = Random(seed)
    n = chance.randint(2, 6)
    tree, of_page = random_tree(n, seed), random_numbers(chance, n)
    values = tuple(number.value for number in of_page)
    written = {number.value: number for number in of_page}
    solutions = sorted(brute_force(tree, values))
    if not solutions:
        return
    held = {0: solutions[0][0]} if chance.random() < 0.5 else {}
    solutions = [s for s in solutions if all(s[v] == x for v, x in held.items())]
    totals = [
        Counter(skill for a, b in tree.edges for skill in skills_of(written[s[a]], written[s[b]]))
        for s in solutions
    ]
    found = count_skills(tree, of_page, held, cache=KEPT)
    assert found.over_all and found.subtractions == n - 1
    assert set(found.spans) == {skill for total in totals for skill in total}
    for skill, span in found.spans.items():
        times = [total[skill] for total in totals]
        assert span == Span(min(times), max(times), Fraction(sum(times), len(times)))


def test_pages_solved_one_after_the_other_add_up() -> None:
    one = count_skills(star(4), numbers("8", "15", "22", "29"), {}, cache=KEPT)
    other = count_skills(path(5), numbers("1/4", "2/4", "3/4", "1", "5/4"), {}, cache=KEPT)
    both = skills_together([one, other, one])
    assert both.subtractions == 3 + 4 + 3
    assert both["across a ten"].mean == 2 * one["across a ten"].mean
    assert both["like denominators"] == other["like denominators"]
    assert both["within 20"].most == 2 * one["within 20"].most
    assert both["below zero"] == Span(0, 0, Fraction(0))


def test_a_page_too_large_to_count_is_told_by_its_certificate() -> None:
    of_page = numbers(*(str(1 + 2 * k) for k in range(20)))
    found = count_skills(random_tree(20, 1), of_page, {}, cache=KEPT)
    assert not found.over_all
    assert all(span.is_certain for span in found.spans.values())
