"""The bytes of a TOML file in, its values with their lines and every slip in the writing out."""

from __future__ import annotations

import os
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from bookmaker.reading.lines import Outline, Statement, Where, outline
from bookmaker.reading.slips import Slip, slip_of_bytes, slip_of_document, slip_of_statement

_CODE = re.compile(r"(?<!\\)(?:\\\\)*\\[uU]")
LARGEST = 500_000
"""Bytes; a term book of sixty pages takes 60,000."""


@dataclass(frozen=True, slots=True)
class Written:
    """A decimal number as the file writes it; ``float`` would lose its last digits."""

    text: str


@dataclass(frozen=True, slots=True)
class Parsed:
    """What a file says. ``values`` is None where nothing could be made of it.

    ``unreadable`` are the ways to keys that are there but can't be read: each has a slip, so
    that nobody need call them missing. ``coded`` are the ways to values with a sign in them that
    is written by its number, as \\u00e9: a folder's name may begin so by mistake.
    """

    values: dict[str, object] | None
    lines: Mapping[Where, int] = field(default_factory=dict)
    unreadable: frozenset[Where] = frozenset()
    coded: frozenset[Where] = frozenset()
    slips: tuple[Slip, ...] = ()


def read_toml(path: Path) -> Parsed:
    """The file at ``path`` parsed, if it is not larger than any manifest; raises OSError."""
    with path.open("rb") as file:
        size = os.fstat(file.fileno()).st_size
        return _too_large(size) if size > LARGEST else parse(file.read(LARGEST + 1))


def parse(data: bytes) -> Parsed:
    """Read TOML (UTF-8, with or without a byte-order mark), as much of it as can be read.

    Decimal numbers come as ``Written``. A slip costs the statement that it is in, and no other.
    Never raises.
    """
    if len(data) > LARGEST:
        return _too_large(len(data))
    try:
        text = data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        return Parsed(None, slips=(slip_of_bytes(data, error.start),))
    if data[:400].count(0) > len(data[:400]) // 4:  # UTF-16 without a mark is valid UTF-8
        return Parsed(None, slips=(slip_of_bytes(data, data.index(0)),))
    found = outline(text)
    try:
        if not any(each.broken == "depth" for each in found.statements):  # tomllib would choke
            return Parsed(_load(text), found.lines, coded=_coded(text, found))
    except (ValueError, RecursionError):
        pass
    return _recover(text, found)


def _too_large(size: int) -> Parsed:
    message = f"the file has {size:,} bytes, more than any manifest needs"
    mend = "Check that it is the file you mean, or share its pages out among several chapters."
    return Parsed(None, slips=(Slip(1, "bad-toml", message, mend),))


def _load(text: str) -> dict[str, object]:
    return tomllib.loads(text, parse_float=Written)


def _recover(text: str, found: Outline) -> Parsed:
    """Leave out each statement that is no TOML of its own, and read the rest."""
    slips, unreadable, pieces, done = [], set[Where](), [], 0
    lost = False  # the table that we are in has a heading of no use
    for each in found.statements:
        slip = _slip_of(text, each)
        lost = bool(slip) and not _repaired(text, each) if each.is_header else lost
        if not slip and not lost:
            continue
        pieces += [text[done : each.start], _repaired(text, each)]
        pieces.append("\n" * text.count("\n", each.start, each.end))
        done = each.end
        if slip and (each.is_header or not lost):
            slips.append(slip)
            unreadable.add(each.where)
    try:
        values = _load("".join([*pieces, text[done:]]))
    except (ValueError, RecursionError) as error:
        values = None
        slips = slips or [slip_of_document(error)]
    return Parsed(values, found.lines, frozenset(unreadable), _coded(text, found), tuple(slips))


def _coded(text: str, found: Outline) -> frozenset[Where]:
    if "\\u" not in text.lower():
        return frozenset()
    pieces = ((text[each.start : each.end], each.where) for each in found.statements)
    return frozenset(where for piece, where in pieces if _CODE.search(piece))


def _slip_of(text: str, statement: Statement) -> Slip | None:
    piece = text[statement.start : statement.end]
    if statement.broken == "depth":
        return slip_of_statement(piece, statement, RecursionError())
    try:
        _load(piece)
        error: Exception | None = None
    except (ValueError, RecursionError) as caught:
        error = caught
    if error is None and not statement.first:
        return None
    return slip_of_statement(piece, statement, error)


def _repaired(text: str, statement: Statement) -> str:
    """A heading whose brackets do not match, as it was surely meant; "" for all else."""
    if statement.broken != "header":
        return ""
    heading = text[statement.start : statement.end].partition("#")[0].strip()
    brackets = 2 if heading.startswith("[[") or heading.endswith("]]") else 1
    return "[" * brackets + heading.strip("[] \t") + "]" * brackets
