"""Pieces of a book put onto sides of paper: left and right, numbers, blanks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from bookmaker.model import Blank, Content, Side

Section = Literal["front", "body", "key"]
Bookmark = tuple[int, str]
"""An entry of the outline: its level, from 0, and its words."""
Titles = Mapping[str, str]
"""The words of the outline, by what they lead to: "howto", "contents", "key", ..."""


@dataclass(frozen=True, slots=True)
class Piece:
    """What stands on one side that has not got its place yet.

    ``section`` decides how its number is written; ``opens`` asks for a right-hand side.
    """

    name: str
    section: Section
    content: Content
    bookmark: Bookmark | None = None
    opens: bool = False


def in_turn(
    name: str, section: Section, contents: Iterable[Content], bookmark: Bookmark
) -> Iterator[Piece]:
    """Sides of one kind, one after the other; the first has the bare name, by which others lead
    to it, and the bookmark."""
    for place, content in enumerate(contents):
        if place == 0:
            yield Piece(name, section, content, bookmark)
        else:
            yield Piece(f"{name}-{place + 1}", section, content)


def placed(pieces: Iterable[Piece], facing: bool = True) -> Iterator[Side]:
    """Give each piece its side and number; each section begins on a right-hand side.

    A blank counts in its section, so that right-hand sides bear the odd numbers. Where sides
    do not face each other, as on a board, there are no blanks and no left-hand sides.
    """
    place, section, count = 0, "", 0
    for piece in pieces:
        begins = piece.section != section
        if facing and place % 2 and (begins or piece.opens):
            count += 1
            label = written(section, count)
            yield Side(f"blank-{place + 1}", label, False, Blank())
            place += 1
        if begins:
            section, count = piece.section, 0
        count += 1
        label = written(section, count)
        recto = not facing or place % 2 == 0
        yield Side(piece.name, label, recto, piece.content, piece.bookmark)
        place += 1


def written(section: str, number: int) -> str:
    """The number of a side as its section writes it: "iv", "12", "A3"."""
    if section == "front":
        return _roman(number)
    return f"A{number}" if section == "key" else str(number)


def _roman(number: int) -> str:
    """Lower-case Roman numerals, as front matter is numbered."""
    values = ((100, "c"), (90, "xc"), (50, "l"), (40, "xl"), (10, "x"), (9, "ix"), (5, "v"))
    text = ""
    for value, letters in (*values, (4, "iv"), (1, "i")):
        count, number = divmod(number, value)
        text += letters * count
    return text
