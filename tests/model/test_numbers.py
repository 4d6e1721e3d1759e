"""Numbers as the manifest writes them."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.model import Number, difference, progression


@pytest.mark.parametrize(
    ("text", "value"),
    [("7", Fraction(7)), ("0.5", Fraction(1, 2)), ("1/4", Fraction(1, 4)), (" 12 ", Fraction(12))],
)
def test_a_number_is_read_exactly(text: str, value: Fraction) -> None:
    assert Number.parse(text).value == value


@pytest.mark.parametrize("text", ["", "seven", "1e3", "nan", "1/0", "1.", ".5", "1" * 13, "½"])
def test_what_is_no_plain_number_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"is not a whole|divides"):
        Number.parse(text)


@pytest.mark.parametrize(
    ("start", "step", "texts"),
    [
        ("1", "2", ["1", "3", "5", "7"]),
        ("0.3", "0.4", ["0.3", "0.7", "1.1", "1.5"]),
        ("1/4", "1/4", ["1/4", "1/2", "3/4", "1"]),
        ("0.50", "0.25", ["0.50", "0.75", "1", "1.25"]),
    ],
)
def test_a_progression_is_written_as_its_start_and_step_are(
    start: str, step: str, texts: list[str]
) -> None:
    numbers = progression(Number.parse(start), Number.parse(step), 4)
    assert [number.text for number in numbers] == texts


@pytest.mark.parametrize(
    ("one", "other", "text"),
    [("9", "2", "7"), ("0.3", "0.7", "0.4"), ("1/2", "1/4", "1/4"), ("1.3", "0.3", "1")],
)
def test_a_difference_is_larger_minus_smaller_in_the_same_notation(
    one: str, other: str, text: str
) -> None:
    assert difference(Number.parse(one), Number.parse(other)).text == text


@given(st.integers(0, 10**6), st.integers(0, 10**6), st.integers(0, 6))
def test_decimal_differences_are_exact(one: int, other: int, places: int) -> None:
    def written(value: int) -> Number:
        digits = str(value).rjust(places + 1, "0")
        return Number.parse(f"{digits[:-places]}.{digits[-places:]}" if places else digits)

    found = difference(written(one), written(other))
    assert found.value == Fraction(abs(one - other), 10**places)
    assert Fraction(found.text) == found.value
