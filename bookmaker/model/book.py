"""What manifests say: books, chapters, pages, spots and links."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from bookmaker.model.numbers import Number
from bookmaker.model.placed import Drawn

Band = Literal["gentle", "steady", "steep", "sheer"]
BANDS: tuple[Band, ...] = ("gentle", "steady", "steep", "sheer")
GRADES = ("K", "1", "2", "3", "4", "5", "6", "7", "8")
"""School grades, K before the first, by their places; curricula have names of their own."""
Order = Literal["ramp", "as-written"]
Binding = Literal["punch", "staple", "none"]


@dataclass(frozen=True, slots=True)
class Spot:
    """A place for a number; ``x`` and ``y`` in per cent of the picture, from its top left."""

    name: str
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Link:
    """A line between two spots; ``name`` keeps the manifest's spelling, ``"a-b"``."""

    a: str
    b: str

    @property
    def name(self) -> str:
        return f"{self.a}-{self.b}"

    @property
    def ends(self) -> tuple[str, str]:
        return (self.a, self.b)


@dataclass(frozen=True, slots=True)
class Wish:
    """What a page asks for where it leaves its links to us (``links = "auto"``)."""

    band: Band | None = None
    one_in: float | None = None


@dataclass(frozen=True, slots=True)
class Page:
    """One puzzle as its manifest tells it.

    ``art`` is a path that can be opened, or None for a page without a picture; ``mark`` is one
    of a small picture to colour in, which the record shows. ``fact`` is a line to read aloud,
    printed under the puzzle.
    ``numbers`` are as many as ``spots`` and in the manifest's order; ``given`` pairs spot names
    with numbers. ``lines`` pairs manifest keys of this page ("art", "links", "spots",
    "spots.nose", "links.nose-back", ...) with their line in ``file``. Where a pupil drew the
    picture, ``sheet`` is the number of the drawing sheet, and ``drawn`` the tree that it had (None
    where the picture was there before its spots); ``spots`` and ``links`` agree. ``graded``: its
    numbers are to be chosen for the grade and the week.
    """

    id: str
    name: str
    chapter: str
    file: str
    line: int
    art: Path | None
    artist: str
    licence: str
    spots: tuple[Spot, ...]
    links: tuple[Link, ...]
    numbers: tuple[Number, ...]
    given: tuple[tuple[str, Number], ...] = ()
    position: int | None = None
    fixed: bool = False
    turn: bool = False
    wish: Wish | None = None
    description: str = ""
    fact: str = ""
    mark: Path | None = None
    unplaced: bool = False
    graded: bool = False
    lines: tuple[tuple[str, int], ...] = ()
    drawn: Drawn | None = None
    sheet: int | None = None

    def line_of(self, *keys: str) -> int:
        """The line of the first of ``keys`` that the manifest has, else the page's own."""
        known = dict(self.lines)
        return next((known[key] for key in keys if key in known), self.line)

    @property
    def spot_names(self) -> tuple[str, ...]:
        return tuple(spot.name for spot in self.spots)

    @property
    def edges(self) -> tuple[tuple[int, int], ...]:
        """The links as pairs of indices into ``spots``."""
        index = {spot.name: i for i, spot in enumerate(self.spots)}
        return tuple((index[link.a], index[link.b]) for link in self.links)


@dataclass(frozen=True, slots=True)
class Chapter:
    """A titled, ordered group of pages: one manifest file."""

    id: str
    title: str
    introduction: str
    file: str
    optional: bool
    pages: tuple[Page, ...]
    ornament: Path | None = None
    lines: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Book:
    """A whole book. ``name`` is the stem of its output files.

    ``artist`` and ``licence`` are those of the cover and of the chapters' ornaments. ``climb``: the
    links that are left to us are planned over all pages at once. ``grade`` is one of ``GRADES``,
    whatever the ``curriculum`` calls it.
    """

    name: str
    title: str
    file: str
    grade: str
    paper: str
    order: Order
    language: str
    weeks: int
    climb_to: Band
    chapters: tuple[Chapter, ...]
    school: str = ""
    author: str = ""
    artist: str = ""
    licence: str = ""
    cover: Path | None = None
    climb: bool = False
    binding: Binding = "staple"
    curriculum: str = "us"
    lines: tuple[tuple[str, int], ...] = ()

    @property
    def pages(self) -> tuple[Page, ...]:
        return tuple(page for chapter in self.chapters for page in chapter.pages)
