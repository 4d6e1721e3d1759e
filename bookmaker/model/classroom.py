"""A class that draws its own edition: its pupils, and which sheet went to whom."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

Permission = Literal["class", "own", "no"]
"""Where a drawing may stand: in the class's book, in the child's own copy alone, or nowhere."""


def folded(name: str) -> str:
    """``name`` as names are compared: capitals, blanks and how an accent is coded do not count."""
    return " ".join(unicodedata.normalize("NFC", name).casefold().split())


def pupil_key(name: str) -> str:
    """``name`` as pupils are told apart: ``folded``, and a number by its value, since a spreadsheet
    makes 7 of 007."""
    key = folded(name)
    number = re.fullmatch(r"0*([0-9]+?)([.,]0+)?", key)
    return number[1] if number else key


@dataclass(frozen=True, slots=True)
class Pupil:
    """One row of the roster. ``page`` is a page id or "", ``spots`` a wish or None.

    ``credit`` is what is printed under the drawing where ``show_name`` allows it; ``creature``
    the page's new title, or "" for a neutral one.
    """

    name: str
    page: str = ""
    drawing: Permission = "no"
    show_name: bool = False
    creature: str = ""
    credit: str = ""
    spots: int | None = None
    line: int = 0


@dataclass(frozen=True, slots=True)
class Swap:
    """A picture of the teacher's for a page: ``key`` as ``class.toml`` writes the page's id.

    ``name``, ``artist`` and ``licence`` are "" where nothing is said.
    """

    key: str
    page: str
    picture: Path
    name: str = ""
    artist: str = ""
    licence: str = ""


@dataclass(frozen=True, slots=True)
class Classroom:
    """A class as its ``class.toml`` and roster tell of it. ``folder`` holds everything of it.

    ``may_print`` are words that may be printed though they are pupils' names; ``cover`` is a sheet
    or a picture for the cover of the class's book.
    """

    name: str
    title: str
    file: str
    folder: Path
    book: Path
    roster_file: str
    pupils: tuple[Pupil, ...]
    swaps: tuple[Swap, ...] = ()
    may_print: tuple[str, ...] = ()
    cover: int | Path | None = None
    lines: tuple[tuple[str, int], ...] = ()

    def pupil(self, name: str) -> Pupil | None:
        """The pupil of that name, as ``pupil_key`` compares them."""
        asked = pupil_key(name)
        return next((p for p in self.pupils if pupil_key(p.name) == asked), None)


@dataclass(frozen=True, slots=True)
class SheetEntry:
    """One row of the register: fixed when the sheet is printed, whatever happens to the roster.

    ``pupil`` is "" for a spare sheet, ``page`` "" for a free one. ``marks`` is what was printed
    pale in the frame, one line as ``scanning.pale`` writes it; ``paper`` that of the sheet.
    """

    sheet: int
    pupil: str
    page: str
    paper: str
    class_code: str
    marks: str
    format: int
