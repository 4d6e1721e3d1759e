"""Families of numbers, each a few arithmetic progressions that grow: what grades are for.

A progression keeps a page's tree, its solutions and its work whatever its start and step, so that
numbers may be chosen for the subtraction alone. Starts and steps are our own, tried for how often
columns exchange (in most pairs, where exchanging is what is practised).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from bookmaker.model import Number, progression, write_like


@dataclass(frozen=True)
class Family:
    """Progressions as manifests write them, easiest first, whose numbers stay up to ``limit``."""

    runs: tuple[tuple[str, str], ...]
    limit: Fraction
    unit: str = "1"

    def numbers(self, run: int, count: int) -> tuple[Number, ...]:
        """``count`` numbers of a run; with a smaller step where they would leave the family."""
        start, step = map(Number.parse, self.runs[run])
        room = self.limit - start.value
        if start.value + (count - 1) * step.value > self.limit:
            unit = Number.parse(self.unit).value
            fitting = room / (count - 1) // unit * unit
            step = write_like(max(fitting, unit), (start, step))
        return progression(start, step, count)


def _family(limit: int, *runs: str, unit: str = "1") -> Family:
    pairs = [run.split() for run in runs]
    return Family(tuple((start, step) for start, step in pairs), Fraction(limit), unit)


FAMILIES: Mapping[str, Family] = {
    "to 10": _family(10, "1 1", "2 1"),
    "to 20": _family(20, "1 2", "2 2", "5 2"),
    "to 20 and beyond": _family(100, "3 4", "4 5", "6 5"),
    "to 100": _family(99, "5 8", "8 7", "14 9"),
    "two digits": _family(99, "21 7", "27 8", "24 9"),
    "three digits": _family(999, "117 46", "128 67", "135 88", "164 108"),
    "four digits": _family(9999, "1250 375", "1486 768", "2075 886"),
    "large": _family(999_999, "12480 3765", "25600 9875", "104500 38750"),
    "tenths": _family(100, "0.3 0.4", "0.6 0.7", "1.8 0.9", unit="0.1"),
    "hundredths": _family(100, "0.75 0.48", "1.25 0.68", "1.75 0.86", unit="0.01"),
    "thousandths": _family(100, "0.875 0.625", "1.275 0.486", unit="0.001"),
    "like fractions": _family(1000, "3/8 1/4", "3/4 1/2"),
    "related fractions": _family(1000, "1/2 1/4", "1/4 1/8"),
    "unlike fractions": _family(1000, "1/2 1/3", "1/3 1/4"),
    "across zero": _family(1000, "-4 3", "-18 7", "-35 12"),
}
