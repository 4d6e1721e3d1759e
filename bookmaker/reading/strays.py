"""Keys that were written under the wrong heading.

In TOML whatever follows a heading like ``[page.spots]`` belongs to it, so a key of the page
written below it silently becomes a spot. Such keys are told, and read as if they stood right.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from bookmaker.model import Problem
from bookmaker.reading.kinds import Keys
from bookmaker.reading.table import Table

Homes = Mapping[str, Callable[[str, object], bool]]
"""For each table within a table: whether a key with this value is at home in it."""


def gather(table: Table, keys: Keys, homes: Homes) -> Table:
    """``table`` with those of its ``keys`` that stray in one of ``homes`` brought back."""
    values, moved, strays = dict(table.values), dict(table.moved), list(table.strays)
    for home, is_at_home in homes.items():
        inside = values.get(home)
        if not isinstance(inside, dict):
            continue
        astray = [key for key in inside if key in keys and not is_at_home(key, inside[key])]
        for key in astray:
            where = (*table.where, home, key)
            strays.append(where)
            if key not in table:
                moved[key] = where
                values.setdefault(key, inside[key])
        if astray:
            values[home] = {key: inside[key] for key in inside if key not in astray}
    return replace(table, values=values, moved=moved, strays=tuple(strays))


def check_strays(table: Table) -> Iterator[Problem]:
    """Tells each key that ``gather`` brought back."""
    owner = "page." if table.where else ""
    for *_, home, key in table.strays:
        heading = f"[{owner}{home}]"
        read_as = "the name of a spot" if home == "spots" else "a part of it"
        message = f"{key} stands below {heading} and is read as {read_as}"
        yield table.problem(
            "unknown-key", message, f"Move its line up, above {heading}.", home, key
        )
