"""What schools expect of subtraction, and whether a book's numbers lie above or below it.

Two sets of standards are set against the numbers: the Common Core State Standards for Mathematics
(2010), and the mathematics programmes of study of the national curriculum in England (2013). What
each says is given in short. Numbers are judged as they are written: 2/4 and 1/4 have one
denominator.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from bookmaker.model import GRADES, Number, progression
from bookmaker.puzzle.practice import exchanging_share

Kind = Literal[
    "whole",
    "tens",
    "decimal",
    "long decimal",
    "like fractions",
    "unlike fractions",
    "negative",
    "across zero",
]
System = Literal["common core", "england"]
Level = Literal["below", "at", "above"]

NO_LIMIT = Fraction(10**12)

BEYOND_ALL = 5
"""The grade of whole numbers so large that no standard names them."""


@dataclass(frozen=True)
class Standard:
    """What is expected of ``kind`` of numbers up to ``limit``, in ``grade`` (a year in England)."""

    system: System
    code: str
    grade: int
    kind: Kind
    limit: Fraction
    says: str


def _common_core(code: str, kind: Kind, limit: int | Fraction, says: str) -> Standard:
    grade = 0 if code[0] == "K" else int(code[0])
    return Standard("common core", code, grade, kind, Fraction(limit), says)


def _england(year: int, kind: Kind, limit: int | Fraction, says: str) -> Standard:
    return Standard("england", f"Year {year}", year, kind, Fraction(limit), says)


STANDARDS = (
    _common_core("K.OA.A.2", "whole", 10, "add and subtract within 10"),
    _common_core("1.OA.C.6", "whole", 20, "add and subtract within 20"),
    _common_core("1.NBT.C.6", "tens", 90, "subtract tens from tens, from 10 to 90"),
    _common_core("2.OA.B.2", "whole", 20, "fluently add and subtract within 20 mentally"),
    _common_core("2.NBT.B.5", "whole", 100, "fluently add and subtract within 100"),
    _common_core("3.NBT.A.2", "whole", 1000, "fluently add and subtract within 1000"),
    _common_core(
        "4.NBT.B.4", "whole", 10**6, "fluently add and subtract whole numbers, in columns"
    ),
    _common_core("4.NF.B.3", "like fractions", NO_LIMIT, "subtract fractions of like denominators"),
    _common_core("5.NBT.B.7", "decimal", NO_LIMIT, "subtract decimals to hundredths"),
    _common_core(
        "5.NF.A.1", "unlike fractions", NO_LIMIT, "subtract fractions of any denominators"
    ),
    _common_core("6.NS.B.3", "long decimal", NO_LIMIT, "fluently subtract multi-digit decimals"),
    _common_core("7.NS.A.1", "negative", NO_LIMIT, "subtract rational numbers"),
    _common_core("7.NS.A.1", "across zero", NO_LIMIT, "subtract rational numbers"),
    _england(1, "whole", 20, "subtract one-digit and two-digit numbers to 20"),
    _england(2, "whole", 100, "subtract two-digit numbers, mentally and with objects or pictures"),
    _england(3, "whole", 1000, "subtract numbers of up to three digits, in columns"),
    _england(3, "like fractions", 1, "subtract fractions of one denominator within one whole"),
    _england(4, "whole", 10**4, "subtract numbers of up to four digits, in columns"),
    _england(4, "like fractions", NO_LIMIT, "subtract fractions of one denominator"),
    _england(5, "whole", 10**6, "subtract whole numbers of more than four digits, in columns"),
    _england(5, "decimal", NO_LIMIT, "solve problems with up to three decimal places"),
    _england(6, "unlike fractions", NO_LIMIT, "subtract fractions of different denominators"),
    _england(6, "across zero", NO_LIMIT, "calculate intervals across zero"),
)

KNOWN_BY_HEART = {1: 5, 2: 10, 3: 20, 4: 100, 5: 1000, 6: 10**6, 7: 10**6, 8: 10**6}
"""Whole numbers up to which subtraction is fluent before each grade starts.

K.OA.A.5 (5), 1.OA.C.6 (fluency within 10), 2.OA.B.2 (20), and, a year after they are fluent,
2.NBT.B.5 (100), 3.NBT.A.2 (1000) and 4.NBT.B.4.
"""

SUGGESTED = (
    ("1", "1"),
    ("1", "2"),
    ("2", "3"),
    ("5", "8"),
    ("8", "7"),
    ("17", "26"),
    ("48", "57"),
    ("165", "168"),
    ("3/8", "1/4"),
    ("5/6", "1/3"),
    ("0.3", "0.4"),
    ("1.75", "0.68"),
    ("1/2", "1/3"),
)
"""Starts and steps that are worth a chapter, easiest first."""


@dataclass(frozen=True)
class Suggestion:
    """A progression as a manifest writes it, and the part of its subtractions that exchange."""

    start: str
    step: str
    exchanging: Fraction


def level(numbers: Sequence[Number], grade: str) -> Level:
    """Where the subtractions among ``numbers`` lie, by the Common Core.

    "above": no standard up to the grade asks for them; "below": whole numbers that are known by
    heart before the grade begins.
    """
    expected = [each.grade for each in standards_for(numbers) if _is_common(each)]
    if GRADES.index(grade) < min(expected, default=BEYOND_ALL):
        return "above"
    by_heart = KNOWN_BY_HEART.get(GRADES.index(grade), 0)
    is_whole = kind_of(numbers) in ("whole", "tens")
    return "below" if is_whole and _largest(numbers) <= by_heart else "at"


def standards_for(numbers: Sequence[Number]) -> tuple[Standard, ...]:
    """The standards, of both sets, that subtractions among ``numbers`` practise: the closest.

    A set that says nothing of tens is asked what it says of whole numbers.
    """
    return (*_closest("common core", numbers), *_closest("england", numbers))


def _closest(system: System, numbers: Sequence[Number]) -> tuple[Standard, ...]:
    own = [s for s in STANDARDS if s.system == system and s.limit >= _largest(numbers)]
    kind = kind_of(numbers)
    for each in (kind, "whole") if kind == "tens" else (kind,):
        of_kind = [s for s in own if s.kind == each]
        if of_kind:
            limit = min(s.limit for s in of_kind)
            return tuple(s for s in of_kind if s.limit == limit)
    return ()


def kind_of(numbers: Sequence[Number]) -> Kind:
    """What sort of numbers they are as they are written, taken together."""
    values = [number.value for number in numbers]
    if min(values) < 0:
        return "across zero" if max(values) > 0 else "negative"
    below = {number.denominator for number in numbers if number.is_fraction}
    if below:
        whole = all(number.is_fraction or number.value.denominator == 1 for number in numbers)
        return "like fractions" if len(below) == 1 and whole else "unlike fractions"
    places = max(number.places for number in numbers)
    if places:
        return "decimal" if places <= 2 else "long decimal"
    return "tens" if all(value % 10 == 0 and 10 <= value <= 90 for value in values) else "whole"


def suggest(grade: str, spots: Sequence[int]) -> tuple[Suggestion, ...]:
    """Progressions that suit the grade on pages of each of these numbers of ``spots``.

    Those of which most subtractions exchange come first, the easiest of them before the others.
    """
    fitting = []
    for start, step in SUGGESTED:
        longest = progression(Number.parse(start), Number.parse(step), max(spots))
        if all(level(longest[:count], grade) == "at" for count in set(spots)):
            share = exchanging_share([number.value for number in longest])
            fitting.append(Suggestion(start, step, share))
    return tuple(sorted(fitting, key=lambda suggestion: suggestion.exchanging < Fraction(1, 2)))


def _largest(numbers: Sequence[Number]) -> Fraction:
    return max(number.value for number in numbers)


def _is_common(standard: Standard) -> bool:
    return standard.system == "common core"
