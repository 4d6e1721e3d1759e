"""Numbers are exact, and printed as they are written."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.reading.numbers import number_fault, parse_number
from bookmaker.reading.toml import Written


@pytest.mark.parametrize(
    ("value", "exact", "text"),
    [
        (7, Fraction(7), "7"),
        (0, Fraction(0), "0"),
        (Written("0.1"), Fraction(1, 10), "0.1"),
        (Written("0.50"), Fraction(1, 2), "0.50"),
        (Written("+1_000.5"), Fraction(2001, 2), "1000.5"),
        ("1/4", Fraction(1, 4), "1/4"),
        ("2/8", Fraction(1, 4), "2/8"),
        (" 0.3 ", Fraction(3, 10), "0.3"),
        ("12", Fraction(12), "12"),
        (-1, Fraction(-1), "-1"),
        ("-1/2", Fraction(-1, 2), "-1/2"),
        (Written("-0.50"), Fraction(-1, 2), "-0.50"),
    ],
)
def test_a_number_is_read_exactly_and_keeps_its_writing(
    value: object, exact: Fraction, text: str
) -> None:
    number = parse_number(value)
    assert (number.value, number.text) == (exact, text)
    assert number_fault(value) is None


@pytest.mark.parametrize(
    ("value", "words", "mend"),
    [
        (True, "no number", "Write a number"),
        ([1], "no number", "Write a number"),
        ({}, "no number", "Write a number"),
        (Written("inf"), "inf is no whole number", "Write a number"),
        (Written("nan"), "nan is no whole number", "Write a number"),
        (Written("1e400"), "1e400 is no whole number", "Write a number"),
        (Written("1e3"), "1e3 is no whole number", "Write a number"),
        (10**12, "more than 12 digits", "smaller"),
        (10**40, "more than 12 digits", "smaller"),
        ("seven", '"seven" is no whole number', "Write a number"),
        ("", "an empty text is no whole number", "Write a number"),
        ("0,5", '"0,5" is no number', '"0.5"'),
        ("1/0", "divides by nought", "another number"),
        ("1/00", "divides by nought", "another number"),
        ("1/2/3", "no whole number", "Write a number"),
    ],
)
def test_what_is_no_number_for_a_spot_is_told(value: object, words: str, mend: str) -> None:
    with pytest.raises(ValueError):
        parse_number(value)
    fault = number_fault(value)
    assert fault and words in fault[0] and mend in fault[1]


@given(st.integers(0, 10**9), st.integers(0, 9))
def test_a_decimal_is_the_fraction_that_its_digits_say(digits: int, places: int) -> None:
    whole, rest = divmod(digits, 10**places)
    text = f"{whole}.{rest:0{places}d}" if places else f"{whole}.0"
    assert parse_number(Written(text)).value == Fraction(digits, 10**places)
    assert parse_number(Written(text)).text == text
