"""Numbers as the manifest writes them: an exact value and the text to print."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

_WHOLE = re.compile(r"[+-]?\d{1,12}")
_DECIMAL = re.compile(r"[+-]?\d{1,12}\.\d{1,12}")
_FRACTION = re.compile(r"[+-]?\d{1,12}/\d{1,12}")
_MIXED = re.compile(r"([+-]?)(\d{1,12})\s+(\d{1,12}/\d{1,12})")


MINUS = "\u2212"
"""The sign that is printed; in manifests a hyphen stands for it."""


@dataclass(frozen=True, slots=True)
class Number:
    """One number: ``value`` exact, ``text`` as it is printed."""

    value: Fraction
    text: str

    @classmethod
    def parse(cls, text: str) -> Number:
        """Read ``"7"``, ``"0.5"``, ``"1/4"`` or ``"1 1/4"``; raises ValueError for anything else.

        A minus may be a hyphen or the sign for it.
        """
        text = text.strip().replace(MINUS, "-")
        mixed = _MIXED.fullmatch(text)
        if mixed and not mixed[3].endswith("/" + "0" * len(mixed[3].partition("/")[2])):
            value = Fraction(mixed[2]) + Fraction(mixed[3])
            return cls(-value if mixed[1] == "-" else value, " ".join(text.split()))
        if not any(form.fullmatch(text) for form in (_WHOLE, _DECIMAL, _FRACTION)):
            raise ValueError(f"{text!r} is not a whole number, a decimal or a fraction")
        try:
            return cls(Fraction(text), text)
        except ZeroDivisionError:
            raise ValueError(f"{text!r} divides by nought") from None

    @property
    def places(self) -> int:
        """How many digits stand after the decimal point."""
        return len(self.text.partition(".")[2])

    @property
    def is_fraction(self) -> bool:
        return "/" in self.text

    @property
    def denominator(self) -> int:
        """What stands below the stroke as it is printed: 4 of 2/4; 1 where there is none."""
        return int(self.text.partition("/")[2] or 1)

    @property
    def is_mixed(self) -> bool:
        """Whether a whole number stands before its fraction."""
        return " " in self.text


def write_like(value: Fraction, examples: tuple[Number, ...]) -> Number:
    """Write ``value`` in the notation of ``examples``: whole, decimal or fraction.

    Trailing noughts of a decimal are dropped; a fraction is in lowest terms.
    """
    if value.denominator == 1:
        return Number(value, str(value.numerator))
    if any(number.is_mixed for number in examples) and abs(value) > 1:
        whole, rest = divmod(abs(value), 1)
        return Number(value, f"{'-' if value < 0 else ''}{whole} {rest}")
    if any(number.is_fraction for number in examples):
        return Number(value, f"{value.numerator}/{value.denominator}")
    places = max((number.places for number in examples), default=0)
    scaled = value * 10**places
    if scaled.denominator != 1:
        return Number(value, f"{value.numerator}/{value.denominator}")
    digits = str(abs(scaled.numerator)).rjust(places + 1, "0")
    sign = "-" if value < 0 else ""
    text = f"{sign}{digits[:-places]}.{digits[-places:]}".rstrip("0")
    return Number(value, text)


def written_as(value: Fraction, numbers: Sequence[Number]) -> Number:
    """The one of ``numbers`` that has this value as it stands there, else one written like them."""
    known = {number.value: number for number in numbers}
    return known.get(value) or write_like(value, tuple(numbers))


def progression(start: Number, step: Number, count: int) -> tuple[Number, ...]:
    """``count`` numbers from ``start``, each ``step`` more than the last."""
    rest = (
        write_like(start.value + place * step.value, (start, step)) for place in range(1, count)
    )
    return (start, *rest)[:count]


def difference(one: Number, other: Number) -> Number:
    """Larger minus smaller, written as the two numbers are."""
    return write_like(abs(one.value - other.value), (one, other))
