"""What a value may be: each kind is a check that gives nothing, or a fault and its mend."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Container, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from bookmaker.model import Problem
from bookmaker.reading.names import is_near, name_all, nearest, shorten, show
from bookmaker.reading.slips import BACKSLASH
from bookmaker.reading.table import Table

MOST_GUESSED = 5000
"""Unknown keys of one table for which the nearest known one is sought: it takes its time."""

Fault = tuple[str, str] | None
"""What is wrong, and the mend."""

Check = Callable[[str, object], Fault]
"""A kind: takes a key's name and its value."""


@dataclass(frozen=True, slots=True)
class Choice:
    """A kind: one of ``words``, in capitals or not.

    ``also`` says which word another way of writing means; ``meant`` which one is probably meant by
    a word that means several things, and is not taken.
    """

    words: Sequence[str]
    also: Mapping[str, str] = field(default_factory=dict)
    meant: Mapping[str, str] = field(default_factory=dict)

    def taken(self, value: object) -> object:
        """The word that ``value`` is; ``value`` itself where it is none."""
        said = str(value).strip().casefold() if _is_word(value) else ""
        known = {word.casefold(): word for word in self.words}
        return known.get(self.also.get(said, said), value)

    def __call__(self, key: str, value: object) -> Fault:
        if isinstance(self.taken(value), str) and self.taken(value) in self.words:
            return None
        said = str(value).strip() if _is_word(value) else show(value)
        known = name_all([f'"{word}"' for word in self.words], 20)
        likely = self.meant.get(said.casefold()) or nearest(said, self.words) or ""
        mend = f'Did you mean "{likely}"? Known are {known}.'
        if not is_near(said, likely) and said.casefold() not in self.meant:
            mend = f'Write one of these: {known}; the nearest is "{likely}".'
        return f"{key} can't be {show(value)}", mend


@dataclass(frozen=True, slots=True)
class Key:
    """A key that a table may have: its kind and, where the table needs it, a line to add."""

    kind: Check
    needed: str = ""


Keys = Mapping[str, Key]


def check_keys(
    table: Table,
    keys: Keys,
    elsewhere: Mapping[str, str] | None = None,
    excused: Container[str] = (),
) -> Iterator[Problem]:
    """Faults of single keys: unknown, missing, or with a wrong value.

    ``elsewhere`` says of keys that belong in another place which place that is. A missing key
    that is there under a wrong spelling is told once, as the unknown one; one that is ``excused``
    is told elsewhere.
    """
    misspelt = set[str]()
    for key in table:
        if key not in keys:
            likely = nearest(key, keys) if len(misspelt) < MOST_GUESSED else None
            misspelt.add(likely if likely and is_near(key, likely) else key)
            yield _unknown(table, key, likely or "", keys, elsewhere or {})
    for name, key_of in keys.items():
        if name in table.values:
            fault = key_of.kind(name, table.get(name))
            if fault:
                yield table.problem("bad-value", *fault, name)
        elif key_of.needed and not (name in table or name in misspelt or name in excused):
            message = f"{_owner(table)} has no {name}"
            yield table.problem("missing-key", message, f"Add {key_of.needed}.")


def sound(table: Table, keys: Keys, key: str, default: object) -> object:
    """The value of ``key`` where it has one without a fault, else ``default``."""
    kind, value = keys[key].kind, table.get(key)
    if key not in table.values or kind(key, value):
        return default
    return kind.taken(value) if isinstance(kind, Choice) else value


def _owner(table: Table) -> str:
    last = table.where[-1] if table.where else "the file"
    return last if isinstance(last, str) else "the page"


def _unknown(
    table: Table, key: str, likely: str, keys: Keys, elsewhere: Mapping[str, str]
) -> Problem:
    message = f"the key {shorten(key) or show(key)} is not known here"
    if key in elsewhere:
        mend = f"It belongs {elsewhere[key]}; of those known here {likely} is the nearest."
    elif not likely:
        mend = f"Take it out. Known are {name_all([*keys], 20)}."
    elif is_near(key, likely):
        mend = f"Did you mean {likely}? If not, take it out."
        if likely in table.values:
            mend = f"Take it out: {likely}, which is the nearest, is there already."
    else:
        mend = f"Take it out. Known are {name_all([*keys], 20)}; the nearest is {likely}."
    return table.problem("unknown-key", message, mend, key)


def text(most: int, *, empty: bool = False, lines: bool = False) -> Check:
    """Text of at most ``most`` characters, on one line unless ``lines``."""

    def check(key: str, value: object) -> Fault:
        if not isinstance(value, str):
            example = show(value) if isinstance(value, int) else "..."
            return (
                f"{key} must be a text, not {show(value)}",
                f'Write it between quotation marks, like {key} = "{example}".',
            )
        if not value.strip():
            return None if empty else (f"{key} is empty", "Write some words between the marks.")
        if len(value) > most:
            return f"{key} has {len(value):,} characters", f"Shorten it to at most {most:,}."
        if "\n" in value.strip() and not lines:
            return f"{key} runs over several lines", "Write it on one line."
        if any(unicodedata.category(sign) in ("Cc", "Cs") and sign not in "\n\t" for sign in value):
            return f"{key} has an invisible control character in it", "Type the text anew."
        return None

    return check


def filename(most: int) -> Check:
    """The name of a file, on one line."""
    plain = text(most)

    def check(key: str, value: object) -> Fault:
        return backslash_fault(value) or plain(key, value)

    return check


def backslash_fault(value: object) -> Fault:
    """A name in which a backslash has become a sign of its own, as in "pics\\newt.svg"."""
    if not isinstance(value, str) or not any(sign in value for sign in _ESCAPES):
        return None
    return BACKSLASH


_ESCAPES = "\n\t\r\b\f"
"""Signs that TOML makes of a backslash and a letter (TOML 1.0, Strings)."""


def _is_word(value: object) -> bool:
    is_small = isinstance(value, int) and not isinstance(value, bool) and abs(value) < 1000
    return is_small or isinstance(value, str)


def whole(low: int, high: int) -> Check:
    """A whole number from ``low`` to ``high``."""

    def check(key: str, value: object) -> Fault:
        if isinstance(value, int) and not isinstance(value, bool) and low <= value <= high:
            return None
        return (
            f"{key} must be a whole number from {low} to {high}, not {show(value)}",
            f"Write {key} = {low}, say.",
        )

    return check


def truth(key: str, value: object) -> Fault:
    """``true`` or ``false``."""
    if isinstance(value, bool):
        return None
    return (
        f"{key} must be true or false, not {show(value)}",
        f"Write {key} = true or {key} = false, without quotation marks.",
    )


def anything(key: str, value: object) -> Fault:
    """A value that is looked at elsewhere."""
    return None
