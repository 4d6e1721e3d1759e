"""The key ``numbers`` of a book, a chapter or a page in, the numbers for so many spots out."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from bookmaker.model import Number, Problem, progression
from bookmaker.reading.kinds import Fault, Key, anything, check_keys
from bookmaker.reading.names import shorten, show
from bookmaker.reading.table import Table
from bookmaker.reading.toml import Written

_LIST_KEYS = {"list": Key(anything), "start": Key(anything), "step": Key(anything)}
_STEP_KEYS = {
    "start": Key(anything, needed="a start, like numbers = { start = 1, step = 2 }"),
    "step": Key(anything, needed="a step, like numbers = { start = 1, step = 2 }"),
    "list": Key(anything),
}
_LIKE = 'Write a number like 7, 0.5 or "1/4".'
FOR_GRADE = "grade"
"""What a manifest writes for numbers that are chosen for the book's grade."""
_TOO_LARGE = 10**12
_EXAMPLE = "numbers = { start = 1, step = 2 }"
_ONE, _TWO = Number(Fraction(1), "1"), Number(Fraction(2), "2")


@dataclass(frozen=True, slots=True)
class Numbers:
    """A sequence: either ``listed`` or every number ``step`` more than the last.

    ``owner`` is the table that asks for it; None for the numbers of a book that asks for none.
    Where ``graded``, others of as many take their place when it is known in which week a page is.
    """

    start: Number = _ONE
    step: Number = _TWO
    listed: tuple[Number, ...] = ()
    owner: Table | None = None
    graded: bool = False

    def first(self, count: int) -> tuple[Number, ...]:
        """The first ``count`` numbers; fewer where the list has not so many."""
        return self.listed[:count] if self.listed else progression(self.start, self.step, count)


def check_numbers(owner: Table) -> Iterator[Problem]:
    """Every fault of the key ``numbers`` of ``owner``, which may have none."""
    if "numbers" not in owner.values:
        return
    value = owner.get("numbers")
    if value == FOR_GRADE:
        return
    if not isinstance(value, dict):
        mend = "numbers = { list = [2, 3, 5, 7] }" if isinstance(value, list) else _EXAMPLE
        message = f"numbers must be a table, not {show(value)}"
        yield owner.problem("bad-value", message, f"Write it like {mend}.", "numbers")
        return
    table = owner.table("numbers")
    if "list" in table:
        yield from check_keys(table, _LIST_KEYS)
        yield from _check_list(owner, table)
    else:
        yield from check_keys(table, _STEP_KEYS)
        yield from _check_progression(owner, table)


def numbers_of(owner: Table) -> Numbers | None:
    """The numbers that ``owner`` asks for; None where it asks for none, or not rightly."""
    if "numbers" not in owner.values or owner.is_unreadable("numbers"):
        return None
    if any(True for _ in check_numbers(owner)):
        return None
    if owner.get("numbers") == FOR_GRADE:
        return Numbers(owner=owner, graded=True)
    table = owner.table("numbers")
    if "list" in table:
        entries = table.get("list")
        listed = entries if isinstance(entries, list) else []
        return Numbers(listed=tuple(parse_number(entry) for entry in listed), owner=owner)
    start, step = parse_number(table.get("start")), parse_number(table.get("step"))
    return Numbers(start, step, owner=owner)


def is_numbers_key(key: str) -> bool:
    """Whether a table of numbers may have ``key``."""
    return key in _LIST_KEYS


def parse_number(value: object) -> Number:
    """A number as the manifest writes it; raises ValueError for anything else."""
    if isinstance(value, bool) or not isinstance(value, int | str | Written):
        raise ValueError(f"{show(value)} is no number")
    if isinstance(value, int) and abs(value) >= _TOO_LARGE:
        raise ValueError(f"{show(value)} is too large")
    text = value.text.replace("_", "") if isinstance(value, Written) else str(value)
    return Number.parse(text.removeprefix("+"))


def number_fault(value: object) -> Fault:
    """What is wrong with ``value`` as a number for a spot, and the mend."""
    try:
        parse_number(value)
    except ValueError:
        return _fault_of(show(value), value)
    return None


def _fault_of(said: str, value: object) -> Fault:
    if isinstance(value, bool) or not isinstance(value, int | str | Written):
        return f"{said} is no number", _LIKE
    if isinstance(value, int) and abs(value) >= _TOO_LARGE:
        return f"{said} has more than 12 digits", "Write a smaller number."
    text = (value.text if isinstance(value, Written) else str(value)).strip()
    if text.count(",") == 1:
        return (
            f"{said} is no number",
            f'Write it with a point: "{shorten(text.replace(",", "."))}".',
        )
    if re.fullmatch(r"\d+/0+", text):
        return f"{said} divides by nought", "Write another number below the line."
    return f"{said} is no whole number, decimal or fraction of at most 12 digits", _LIKE


def _check_list(owner: Table, table: Table) -> Iterator[Problem]:
    entries = table.get("list")
    way = ("numbers", "list")
    if not isinstance(entries, list) or not entries:
        what = "is empty" if entries == [] else f"must be a list, not {show(entries)}"
        mend = "Write it like list = [2, 3, 5, 7], with a number for each spot."
        yield owner.problem("bad-value", f"the list of numbers {what}", mend, *way)
        return
    for key in ("start", "step"):
        if key in table:
            message = f"numbers has a list and a {key}"
            yield owner.problem(
                "bad-value", message, f"Take {key} or the list out.", "numbers", key
            )
    seen: dict[Fraction, object] = {}
    for place, entry in enumerate(entries):
        fault = number_fault(entry)
        if fault:
            yield owner.problem("bad-value", *fault, *way, place)
            continue
        value = parse_number(entry).value
        if value in seen:
            same = show(entry) if entry == seen[value] else f"{show(seen[value])}, {show(entry)}"
            message = f"the list has the same number twice: {same}"
            yield owner.problem("bad-value", message, "Take one of the two out.", *way, place)
        seen.setdefault(value, entry)


def _check_progression(owner: Table, table: Table) -> Iterator[Problem]:
    for key in ("start", "step"):
        if key not in table.values:
            continue
        value = table.get(key)
        fault = number_fault(value)
        if not fault and key == "step" and parse_number(value).value < 0:
            mend = "Start from the smallest number, with a step above 0."
            fault = (f"{show(value)} is negative", mend)
        if not fault and key == "step" and parse_number(value).value == 0:
            fault = ("with a step of 0 all numbers are the same", "Write a step above 0.")
        if fault:
            yield owner.problem("bad-value", f"{key}: {fault[0]}", fault[1], "numbers", key)
