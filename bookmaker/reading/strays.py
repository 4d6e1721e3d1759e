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
    values, moved = dict(table.values), dict(table.moved)
    for home, is_at_home in homes.items():
        inside = values.get(home)
        if not isinstance(inside, dict):
            continue
        strays = [key for key in inside if key in keys and not is_at_home(key, inside[key])]
        for key in strays:
            moved.setdefault(key, (*table.where, home, key))
            values.setdefault(key, inside[key])
        if strays:
            values[home] = {key: inside[key] for key in inside if key not in strays}
    return replace(table, values=values, moved=moved)


def check_strays(table: Table) -> Iterator[Problem]:
    """Tells each key that ``gather`` brought back."""
    owner = "page." if table.where else ""
    for key, where in table.moved.items():
        heading = f"[{owner}{where[-2]}]"
        message = f"{key} stands below {heading} and is read as a part of it"
        if where[-2] == "spots":
            message = f"{key} stands below {heading} and is read as the name of a spot"
        yield table.problem("unknown-key", message, f"Move its line up, above {heading}.", key)
