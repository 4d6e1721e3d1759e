"""What schools expect, read from the standards once more: apart from the program's own table.

Common Core State Standards for Mathematics (2010) and the national curriculum in England,
mathematics programmes of study (2013). Limits are of the larger number.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from bookmaker.model import GRADES, Number

Numbers = Sequence[Number]


def whole(numbers: Numbers, most: int) -> bool:
    return all(x.text.isdigit() and int(x.text) <= most for x in numbers)


def tens(numbers: Numbers) -> bool:
    """Multiples of 10 in the range 10-90."""
    return whole(numbers, 90) and all(x.text[-1] == "0" and x.text != "0" for x in numbers)


def decimals(numbers: Numbers, places: int) -> bool:
    plain = all("/" not in x.text and x.value >= 0 for x in numbers)
    return plain and 0 < max(len(x.text.partition(".")[2]) for x in numbers) <= places


def fractions(numbers: Numbers) -> bool:
    return any("/" in x.text for x in numbers) and all(x.value >= 0 for x in numbers)


def alike(numbers: Numbers) -> bool:
    """As they are written: one denominator, and whole numbers, which can be written with it."""
    below = {x.text.partition("/")[2] for x in numbers if "/" in x.text}
    return fractions(numbers) and len(below) == 1 and all("." not in x.text for x in numbers)


def negative(numbers: Numbers) -> bool:
    return any(x.value < 0 for x in numbers)


def across(numbers: Numbers) -> bool:
    return negative(numbers) and any(x.value > 0 for x in numbers)


def within(numbers: Numbers, most: int) -> bool:
    return all(x.value <= most for x in numbers)


HOLDS: dict[str, Callable[[Numbers], bool]] = {
    "standard.k.oa.a.2": lambda x: whole(x, 10),
    "standard.1.oa.c.6": lambda x: whole(x, 20),
    "standard.1.nbt.c.6": tens,
    "standard.2.oa.b.2": lambda x: whole(x, 20),
    "standard.2.nbt.b.5": lambda x: whole(x, 100),
    "standard.3.nbt.a.2": lambda x: whole(x, 1000),
    "standard.4.nbt.b.4": lambda x: whole(x, 10**6),
    "standard.4.nf.b.3": alike,
    "standard.5.nbt.b.7": lambda x: decimals(x, 2),
    "standard.5.nf.a.1": lambda x: fractions(x) and not alike(x),
    "standard.6.ns.b.3": lambda x: decimals(x, 12),
    "standard.7.ns.a.1": negative,
    "standard.year-1.whole": lambda x: whole(x, 20),
    "standard.year-2.whole": lambda x: whole(x, 100),
    "standard.year-3.whole": lambda x: whole(x, 1000),
    "standard.year-3.like-fractions": lambda x: alike(x) and within(x, 1),
    "standard.year-4.whole": lambda x: whole(x, 10**4),
    "standard.year-4.like-fractions": alike,
    "standard.year-5.whole": lambda x: whole(x, 10**6),
    "standard.year-5.decimal": lambda x: decimals(x, 3),
    "standard.year-6.unlike-fractions": lambda x: fractions(x) and not alike(x),
    "standard.year-6.across-zero": across,
}


def holds(key: str, numbers: Numbers) -> bool:
    return HOLDS[key](numbers)


def is_above(numbers: Numbers, grade: str) -> bool:
    """Whether no standard up to the grade asks for it."""
    codes = [key for key in HOLDS if ".year" not in key and "year-" not in key]
    fitting = [key.split(".")[1][0] for key in codes if holds(key, numbers)]
    first = min((0 if each == "k" else int(each) for each in fitting), default=5)
    return GRADES.index(grade) < first


def is_below(numbers: Numbers, grade: str) -> bool:
    """Whether it is fluent before the grade begins: within 5 after K (K.OA.A.5), 10 after grade 1,
    20 after grade 2, 100 a year after 2.NBT.B.5, 1000 a year after 3.NBT.A.2, all a year after
    4.NBT.B.4."""
    known = {"1": 5, "2": 10, "3": 20, "4": 100, "5": 1000, "6": 10**6, "7": 10**6, "8": 10**6}
    return grade in known and whole(numbers, known[grade])
