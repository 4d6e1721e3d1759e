"""What schools expect, told once more: apart from the program's own tables.

From a look over eight curricula at what is subtracted when, in this order: Common Core (2010),
national curriculum in England (2013), programmes of France (2024, 2025), Real Decreto 157/2022,
German practice by class (a school's page, and Bavaria's LehrplanPLUS), Ontario (2020), Australian
Curriculum v9 (2022), Singapore (2021). Read in transcriptions for the most part; what is not, is
marked P (a part read) or M (from memory) in the program's tables.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from itertools import combinations

from bookmaker.model import GRADES, Number

Numbers = Sequence[Number]
ANY = 10**12


def whole(numbers: Numbers, most: int = ANY) -> bool:
    return all(x.text.isdigit() and int(x.text) <= most for x in numbers)


def tens(numbers: Numbers) -> bool:
    """Multiples of 10 in the range 10-90."""
    return whole(numbers, 90) and all(x.text[-1] == "0" and x.text != "0" for x in numbers)


def decimals(numbers: Numbers, places: int = 12) -> bool:
    plain = all("/" not in x.text and x.value >= 0 for x in numbers)
    return plain and 0 < max(len(x.text.partition(".")[2]) for x in numbers) <= places


def fractions(numbers: Numbers) -> bool:
    return any("/" in x.text for x in numbers) and all(x.value >= 0 for x in numbers)


def alike(numbers: Numbers) -> bool:
    """As they are written: one denominator, and whole numbers, which can be written with it."""
    return fractions(numbers) and len(_below(numbers)) == 1 and _no_point(numbers)


def related(numbers: Numbers) -> bool:
    """Of any two denominators one is a multiple of the other."""
    pairs = combinations(sorted(map(int, _below(numbers))), 2)
    return fractions(numbers) and _no_point(numbers) and all(b % a == 0 for a, b in pairs)


def _below(numbers: Numbers) -> set[str]:
    return {x.text.partition("/")[2] for x in numbers if "/" in x.text}


def _no_point(numbers: Numbers) -> bool:
    return all("." not in x.text for x in numbers)


def negative(numbers: Numbers) -> bool:
    return any(x.value < 0 for x in numbers)


def across(numbers: Numbers) -> bool:
    return negative(numbers) and any(x.value > 0 for x in numbers)


def within(numbers: Numbers, most: int) -> bool:
    return all(x.value <= most for x in numbers)


Grades = Mapping[int, int]
WHOLE: dict[str, Grades] = {
    "us": {10: 0, 20: 1, 1000: 2, 10**6: 4, ANY: 5},
    "england": {10: 0, 20: 1, 99: 2, 999: 3, 9999: 4, ANY: 5},
    "france": {10: 0, 100: 1, 1000: 2, 10**4: 3, 999_999: 4, ANY: 5},
    "spain": {10: 0, 999: 1, 9999: 3, 999_999: 4, ANY: 5},
    "germany": {10: 0, 20: 1, 100: 2, 1000: 3, 10**6: 4, ANY: 5},
    "ontario": {10: 0, 50: 1, 100: 2, 1000: 3, 10**4: 4, 10**5: 5, ANY: 6},
    "australia": {10: 0, 20: 1, 99: 2, 999: 3, ANY: 4},
    "singapore": {10: 0, 100: 1, 999: 2, 9999: 3, ANY: 5},
}
"""The grade in which whole numbers up to so much are first subtracted."""
PLACES: dict[str, Grades] = {
    "us": {2: 5, 12: 6},
    "england": {2: 4, 3: 5},
    "france": {2: 3, 3: 5},
    "spain": {3: 5},
    "germany": {2: 4, 6: 6},
    "ontario": {1: 4, 2: 5, 3: 6},
    "australia": {12: 6},
    "singapore": {2: 3},
}
FRACTIONS: dict[str, dict[str, Grades]] = {
    "us": {"alike": {ANY: 4}, "related": {ANY: 5}, "any": {ANY: 5}},
    "england": {"alike": {1: 3, ANY: 4}, "related": {ANY: 5}, "any": {ANY: 6}},
    "france": {"alike": {1: 2, ANY: 4}, "related": {1: 3, ANY: 4}, "any": {ANY: 4}},
    "spain": {"alike": {1: 3, ANY: 5}, "related": {1: 3, ANY: 5}, "any": {1: 3, ANY: 5}},
    "germany": {"alike": {ANY: 6}, "related": {ANY: 6}, "any": {ANY: 6}},
    "ontario": {"alike": {ANY: 5}, "related": {ANY: 6}, "any": {ANY: 6}},
    "australia": {"alike": {ANY: 5}, "related": {ANY: 5}, "any": {ANY: 6}},
    "singapore": {"alike": {1: 2, ANY: 4}, "related": {1: 3, ANY: 4}, "any": {ANY: 4}},
}
ACROSS_ZERO = {"england": 6, "germany": 5}
BELOW_ZERO = 7
BY_HEART: dict[str, Grades] = {
    "us": {1: 5, 2: 10, 3: 20, 4: 100, 5: 1000, 6: 10**6, 7: 10**6, 8: 10**6},
    "england": {3: 20, 4: 99, 5: 999, 6: 9999, 7: 10**6, 8: 10**6},
    "france": {2: 10, 3: 20, 4: 100, 5: 1000, 6: 10**4, 7: 10**6, 8: 10**6},
    "spain": {2: 10, 3: 20, 4: 99, 5: 999, 6: 9999, 7: 10**6, 8: 10**6},
    "germany": {2: 10, 3: 20, 4: 100, 5: 1000, 6: 10**4, 7: 10**6, 8: 10**6},
    "ontario": {2: 10, 3: 20, 4: 100, 5: 1000, 6: 10**4, 7: 10**5, 8: 10**6},
    "australia": {2: 10, 3: 20, 4: 99, 5: 999, 6: 10**4, 7: 10**6, 8: 10**6},
    "singapore": {2: 20, 3: 99, 4: 999, 5: 9999, 6: 9999, 7: 10**6, 8: 10**6},
}
"""Known by heart before a grade begins, by our reading: a year or more after it is asked for."""


def first_asked(numbers: Numbers, curriculum: str) -> int:
    """The grade in which such numbers are first subtracted; 99 where none asks for it."""
    if negative(numbers):
        return ACROSS_ZERO.get(curriculum, BELOW_ZERO) if across(numbers) else BELOW_ZERO
    largest = max(x.value for x in numbers)
    if fractions(numbers):
        kind = "alike" if alike(numbers) else "related" if related(numbers) else "any"
        limits = FRACTIONS[curriculum][kind]
        return min((g for limit, g in limits.items() if largest <= limit), default=99)
    if decimals(numbers):
        found = [g for places, g in PLACES[curriculum].items() if decimals(numbers, places)]
        return min(found, default=99)
    found = [g for limit, g in WHOLE[curriculum].items() if largest <= limit]
    if curriculum == "us" and tens(numbers):
        found.append(1)
    return min(found)


def is_above(numbers: Numbers, grade: str, curriculum: str) -> bool:
    """Whether nothing up to the grade asks for it."""
    return GRADES.index(grade) < first_asked(numbers, curriculum)


def is_below(numbers: Numbers, grade: str, curriculum: str) -> bool:
    """Whether it is known by heart before the grade begins, and was asked for."""
    known = BY_HEART[curriculum].get(GRADES.index(grade), -1)
    return whole(numbers, known) and not is_above(numbers, grade, curriculum)


Holds = Callable[[Numbers], bool]
PHRASES: tuple[tuple[str, Callable[[int], Holds]], ...] = (
    ("within one whole", lambda _: lambda x: related(x) and within(x, 1)),
    ("related denominators|multiples of the same number", lambda _: related),
    ("même dénominateur", lambda _: lambda x: alike(x) and within(x, 1)),
    ("parts referring to the same whole", lambda _: alike),
    ("denominators|equivalent fractions|soustraire des fractions", lambda _: fractions),
    ("fracciones y decimales", lambda _: lambda x: not negative(x)),
    ("naturales y fracciones", lambda _: lambda x: fractions(x) or whole(x)),
    (
        "decimals to hundredths|2 decimal places|nombres décimaux|euro",
        lambda _: lambda x: decimals(x, 2),
    ),
    ("3 decimal places", lambda _: lambda x: decimals(x, 3)),
    ("decimal", lambda _: decimals),
    ("rational numbers|integers|across zero", lambda _: negative),
    ("multiples of 10 in the range 10-90", lambda _: tens),
    (r"(?:[Ww]ithin|no more than|hasta) (\d+)", lambda most: lambda x: whole(x, most)),
    ("up to three digits|three-digit|up to 3 digits", lambda _: lambda x: whole(x, 999)),
    ("up to 4 digits", lambda _: lambda x: whole(x, 9999)),
    ("bis 20 als auch im Zahlenraum bis 100", lambda _: lambda x: whole(x, 100)),
    ("to 20|addition facts to 20|tables d’addition", lambda _: lambda x: whole(x, 20)),
    ("two two-digit|one- and two-digit", lambda _: lambda x: whole(x, 99)),
    (
        "situations involving addition, subtraction and quantification",
        lambda _: lambda x: whole(x, 10),
    ),
    ("zur Million", lambda _: lambda x: whole(x, 10**6)),
    ("more than 4 digits|multi-digit|en colonnes|le sens|efficient strategies", lambda _: whole),
)
"""What official words say of the numbers, by a phrase in them; the first that stands there."""


def holds(words: str, numbers: Numbers) -> bool:
    for phrase, made in PHRASES:
        found = re.search(phrase, words)
        if found:
            return made(int(found[1]) if found.groups() else 0)(numbers)
    raise KeyError(words)
