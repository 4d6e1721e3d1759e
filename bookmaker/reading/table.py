"""A table of a manifest: its values, where each stands, and how a fault in it is told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

from bookmaker.model import Problem
from bookmaker.reading.lines import Where
from bookmaker.reading.toml import Parsed


@dataclass(frozen=True)
class Source:
    """A manifest that was parsed: ``file`` as the user would type it, ``path`` to open it."""

    file: str
    path: Path
    parsed: Parsed

    @cached_property
    def spoilt(self) -> frozenset[Where]:
        """The ways to all that can't be read, and to what it stands in."""
        ways = self.parsed.unreadable
        return frozenset(way[:end] for way in ways for end in range(len(way) + 1))

    @property
    def folder(self) -> Path:
        return self.path.parent

    def line(self, where: Where) -> int:
        """The line of the value at ``where``, else of what it stands in; line 1 for the file."""
        lines = self.parsed.lines
        while where and where not in lines:
            where = where[:-1]
        return lines.get(where, 1)


@dataclass(frozen=True, slots=True)
class Table:
    """The table at ``where`` in ``source``; ``page`` is the page's name for its problems.

    ``strays`` are the ways to keys that stand below a wrong heading; ``moved`` those of them
    that are read as this table's own, by key.
    """

    source: Source
    where: Where
    values: Mapping[str, object]
    page: str = ""
    moved: Mapping[str | int, Where] = field(default_factory=dict)
    strays: tuple[Where, ...] = ()
    unplaced: bool = False

    def __contains__(self, key: str) -> bool:
        return key in self.values or self.is_unreadable(key)

    def __iter__(self) -> Iterator[str]:
        return iter(self.values)

    def get(self, key: str) -> object:
        return self.values.get(key)

    def is_unreadable(self, *keys: str | int) -> bool:
        """Whether ``keys``, or something in them, can't be read (and has been told)."""
        return self._way(keys) in self.source.spoilt

    def is_coded(self, *keys: str | int) -> bool:
        """Whether a sign in ``keys`` is written by its number."""
        return self._way(keys) in self.source.parsed.coded

    def line(self, *keys: str | int) -> int:
        return self.source.line(self._way(keys))

    def key_lines(self) -> tuple[tuple[str, int], ...]:
        """Each key with its line."""
        return tuple((key, self.line(key)) for key in self.values)

    def problem(self, code: str, message: str, mend: str, *keys: str | int) -> Problem:
        """A problem at the line of ``keys``, ways from this table (none: the table itself)."""
        line = self.line(*keys)
        return Problem(self.source.file, line, self.page, code, message, mend)

    def tables(self, key: str) -> Iterator[Table]:
        """The tables of a list of tables."""
        value = self.values.get(key)
        entries = value if isinstance(value, list) else []
        for place, entry in enumerate(entries):
            if isinstance(entry, dict):
                yield Table(self.source, (*self.where, key, place), entry, self.page)

    def table(self, key: str) -> Table:
        """The table at ``key``; an empty one where there is none."""
        value = self.values.get(key)
        values = value if isinstance(value, dict) else {}
        return Table(self.source, self._way((key,)), values, self.page)

    def _way(self, keys: Where) -> Where:
        if keys and keys[0] in self.moved:
            return (*self.moved[keys[0]], *keys[1:])
        return (*self.where, *keys)
