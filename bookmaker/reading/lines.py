"""The text of a TOML file in, the line of every value in it out.

A TOML reader gives values and forgets where they stood. This scanner gives places and forgets
the values: it knows headers, keys, strings, lists and inline tables, and no more. Where the text
is not TOML it leaves the broken statement out and goes on with the next, so that one slip does not
hide the faults behind it.
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import dataclass

Where = tuple[str | int, ...]
"""The way to a value: ``("page", 0, "links", 2)``."""

DEEPEST = 50
"""Lists within lists, and parts of a dotted key; a manifest needs three."""

_DEEPEST_KEY = 8
"""Longest way whose line is kept; a manifest needs five."""

_BLANK = re.compile(r"(?:[ \t\n]|#[^\n]*)*+")
_SPACE = re.compile(r"[ \t]*+")
_REST = re.compile(r"[ \t]*+(?:#[^\n]*)?(?=\n|\Z)")
_KEY = re.compile(r""""(?:[^"\\\n]|\\.)*+"|'[^'\n]*+'|[^\s=.\[\]"'#,{}]+""")
_STRING = re.compile(
    r'''"""(?:[^"\\]|\\.|"(?!""))*+"""(?:"{0,2})'''
    r"""|'''(?:[^']|'(?!''))*+'''(?:'{0,2})"""
    r'''|"(?!"")(?:[^"\\\n]|\\[^\n])*+"'''
    r"""|'(?!'')[^'\n]*+'""",
    re.DOTALL,
)
_BARE = re.compile(r"""[^\s,\[\]{}#"'=][^,\[\]{}#\n"'=]*+""")
_STARTS = re.compile(  # how a line looks that starts a new statement
    r"""^[ \t]*+(?:\[\[?[ \t]*+[^\W\d][^"'\n,]*\]"""
    r"""|(?:[^\s=\[\]"'#,{}]+|"[^"\n]*"|'[^'\n]*')[ \t]*=)""",
    re.MULTILINE,
)


@dataclass(frozen=True, slots=True)
class Statement:
    """One header or ``key = value``: ``text[start:end]``, first on ``line``.

    ``where`` is the way to what it defines. ``broken`` says what the scanner missed in it (""
    for nothing) and ``broken_line`` where; ``first`` is the line on which the same key was
    written before (0 for nowhere).
    """

    start: int
    end: int
    line: int
    where: Where
    is_header: bool
    broken: str = ""
    broken_line: int = 0
    first: int = 0


@dataclass(frozen=True, slots=True)
class Outline:
    """``lines`` gives the line of every value, counted from 1."""

    lines: Mapping[Where, int]
    statements: tuple[Statement, ...]


def outline(text: str) -> Outline:
    """Find the statements and the lines of ``text``, whose line ends are ``\\n`` alone.

    Never raises: what is no TOML is a ``broken`` statement.
    """
    scanner = _Scanner(text)
    scanner.document()
    return Outline(scanner.lines, tuple(scanner.statements))


class _Broken(Exception):
    def __init__(self, what: str, line: int, where: Where = ()) -> None:
        self.what = what
        self.line = line
        self.where = where


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.pos = 0
        self.table: Where = ()
        self.lines: dict[Where, int] = {}
        self.statements: list[Statement] = []
        self._written: dict[Where, int] = {}
        self._counts: dict[Where, int] = {}
        self._ends = [found.start() for found in re.finditer("\n", text)]

    def document(self) -> None:
        self._skip(_BLANK)
        while self.pos < len(self.text):
            self._statement()
            self._skip(_BLANK)

    def _statement(self) -> None:
        start, line = self.pos, self._line()
        is_header = self.text[start] == "["
        where: Where = ()
        broken, broken_line, first = "", 0, 0
        try:
            where = self._header_keys() if is_header else self._pair_keys()
            first = self._written.setdefault(where, line)
            first = 0 if first == line else first
            if not is_header:
                self._value(None if first else where, 0)
            if not self._skip(_REST):
                raise _Broken("end", self._line())
        except _Broken as fault:
            broken, broken_line = fault.what, fault.line
            where = where or fault.where
            self.pos = self._next_start(start, broken)
        self.statements.append(
            Statement(start, self.pos, line, where, is_header, broken, broken_line, first)
        )

    def _next_start(self, start: int, broken: str) -> int:
        """Where to go on after a broken statement: the next line that looks like one."""
        line_end = self.text.find("\n", start)
        if broken == "long text" or line_end < 0:
            return len(self.text)
        found = _STARTS.search(self.text, line_end + 1)
        return found.start() if found else len(self.text)

    def _header_keys(self) -> Where:
        line = self._line()
        opening = self._brackets("[")
        keys = self._keys()
        closing = self._brackets("]")
        where = self._place((), keys, line)
        if max(opening, closing) == 2:
            self._counts[where] = self._counts.get(where, 0) + 1
            self.lines.setdefault(where, line)
        if where in self._counts:
            where += (self._counts[where] - 1,)
        if where not in self._written:
            self.lines[where] = line
        self.table = where
        if opening != closing:
            raise _Broken("header", line, where)
        return where

    def _brackets(self, sign: str) -> int:
        count = 2 if self.text.startswith(sign * 2, self.pos) else 1
        count *= self.text.startswith(sign, self.pos)
        self.pos += count
        return count

    def _pair_keys(self) -> Where:
        """The keys before an equals sign, the sign and what surrounds it."""
        return self._pair_place(self.table) or ()

    def _pair_place(self, base: Where | None) -> Where | None:
        line = self._line()
        keys = self._keys()
        if not self.text.startswith("=", self.pos):
            raise _Broken("equals", line, (*(base or ()), keys[0].rstrip(":")))
        self.pos += 1
        self._skip(_SPACE)
        if base is None:
            return None
        where = self._place(base, keys, line)
        self.lines.setdefault(where, line)
        return where

    def _place(self, base: Where, keys: list[str], line: int) -> Where:
        """The way to ``keys`` from ``base``, through the last table of a list of tables."""
        where = base
        for key in keys[:-1][:_DEEPEST_KEY]:
            where += (key,)
            self.lines.setdefault(where, line)
            if where in self._counts:
                where += (self._counts[where] - 1,)
        return (*where, keys[-1])

    def _keys(self) -> list[str]:
        keys: list[str] = []
        while True:
            self._skip(_SPACE)
            found = _KEY.match(self.text, self.pos)
            if not found:
                raise _Broken("key", self._line())
            if len(keys) == DEEPEST:
                raise _Broken("depth", self._line())
            keys.append(_unquote(found[0]))
            self.pos = found.end()
            self._skip(_SPACE)
            if not self.text.startswith(".", self.pos):
                return keys
            self.pos += 1

    def _value(self, where: Where | None, depth: int) -> None:
        if depth > DEEPEST:
            raise _Broken("depth", self._line())
        start = self.text[self.pos : self.pos + 1]
        if start == "[":
            self._list(where, depth)
        elif start == "{":
            self._inline_table(where, depth)
        elif start in ("'", '"'):
            long = self.text.startswith(start * 3, self.pos)
            self._expect(_STRING, "long text" if long else "text")
        else:
            self._expect(_BARE, "value")

    def _list(self, where: Where | None, depth: int) -> None:
        opened = self._line()
        self.pos += 1
        self._skip(_BLANK)
        count = 0
        while not self._take("]"):
            entry = (*where, count) if where is not None and len(where) < _DEEPEST_KEY else None
            if entry is not None:
                self.lines[entry] = self._line()
            if self.pos >= len(self.text) or self.text[self.pos] in ",=}":
                raise _Broken("list", opened)
            self._value(entry, depth + 1)
            self._comma("]", "list", opened)
            count += 1

    def _inline_table(self, where: Where | None, depth: int) -> None:
        opened = self._line()
        self.pos += 1
        self._skip(_BLANK)
        while not self._take("}"):
            deep = where is None or len(where) >= _DEEPEST_KEY
            entry = self._pair_place(None if deep else where)
            self._value(entry, depth + 1)
            self._comma("}", "table", opened)

    def _comma(self, closing: str, what: str, opened: int) -> None:
        """A comma before the next entry, or the closing bracket to come."""
        line = self._line()
        self._skip(_BLANK)
        if self._take(","):
            self._skip(_BLANK)
        elif not self.text.startswith(closing, self.pos):
            entry = re.compile(r"""["'\d+]""").match(self.text, self.pos)
            raise _Broken("comma", line) if entry else _Broken(what, opened)

    def _take(self, sign: str) -> bool:
        taken = self.text.startswith(sign, self.pos)
        self.pos += taken
        return taken

    def _expect(self, form: re.Pattern[str], what: str) -> None:
        found = form.match(self.text, self.pos)
        if not found:
            raise _Broken(what, self._line())
        self.pos = found.end()

    def _skip(self, form: re.Pattern[str]) -> bool:
        found = form.match(self.text, self.pos)
        self.pos = found.end() if found else self.pos
        return found is not None

    def _line(self) -> int:
        return bisect_left(self._ends, self.pos) + 1


def _unquote(key: str) -> str:
    if key[0] not in "\"'":
        return key
    if "\\" not in key:
        return key[1:-1]
    try:
        return str(tomllib.loads(f"key = {key}")["key"])
    except tomllib.TOMLDecodeError:
        return key[1:-1]
