"""Books made in memory for the tests of binding, layout and drawing."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from pathlib import Path

from bookmaker.layout import PlacedPuzzle, Setting, place_puzzle
from bookmaker.layout.order.book_order import bind_book, bind_slides
from bookmaker.layout.shares import measure_shares
from bookmaker.model import (
    Book,
    BoundBook,
    Box,
    Certificate,
    CertifiedPage,
    Chapter,
    Estimate,
    Link,
    Number,
    OrderedBook,
    OrderedChapter,
    Page,
    Picture,
    Spot,
    progression,
)
from bookmaker.teaching.example import worked_example
from bookmaker.typeset import Sheet
from bookmaker.words import load

ONE, TWO = Number(Fraction(1), "1"), Number(Fraction(2), "2")
KINDS = ("howto", "contents", "record", "own", "credits", "key")
SPOTS = (("nose", 20.0, 20.0), ("back", 50.0, 50.0), ("tail", 80.0, 20.0), ("paw", 50.0, 85.0))
LINKS = (("nose", "back"), ("back", "tail"), ("back", "paw"))
SOLUTION = (3, 1, 5, 7)
"""At nose, back, tail and paw: the differences 2, 4 and 6."""


@dataclass(frozen=True)
class Shape:
    """What a test book is like."""

    chapters: int = 3
    pages: int = 4
    name: str = "Creature {}"
    title: str = "A book for a test"
    introduction: str = "Where the water is cold and clear, three of them live under a stone."
    artist: str = "the artist"
    wide: bool = False


def picture(wide: bool = False) -> Picture:
    """A picture that nobody looks at, upright or wide."""
    width, height = (1200.0, 800.0) if wide else (1000.0, 1200.0)
    digest = hashlib.sha256(str(wide).encode()).hexdigest()
    return Picture("svg", width, height, Box(0, 0, 1, 1), b"<svg/>", digest, cover=0.4)


def ordered_book(shape: Shape, paper: str = "a4", language: str = "en") -> OrderedBook:
    """A certified book in its order."""
    chapters = tuple(_chapter(shape, number) for number in range(1, shape.chapters + 1))
    book = Book(
        name="test",
        title=shape.title,
        file="book.toml",
        grade="3",
        paper=paper,
        order="ramp",
        language=language,
        weeks=6,
        climb_to="sheer",
        chapters=chapters,
        school="Class 3b",
    )
    return OrderedBook.of(book, chapters)


def _chapter(shape: Shape, number: int) -> OrderedChapter:
    first = (number - 1) * shape.pages + 1
    pages = tuple(_page(shape, number, first + place) for place in range(shape.pages))
    told = Chapter(
        id=f"{number:02}-chapter",
        title=shape.title,
        introduction=shape.introduction,
        file=f"{number:02}-chapter.toml",
        optional=False,
        pages=pages,
    )
    return OrderedChapter.of(told, pages)


def _page(shape: Shape, chapter: int, number: int) -> CertifiedPage:
    page = Page(
        id=f"creature-{number}",
        name=shape.name.format(number),
        chapter=f"{chapter:02}-chapter",
        file="chapter.toml",
        line=number,
        art=Path("wide.svg" if shape.wide else "upright.svg"),
        artist=f"{shape.artist} {number % 3}",
        licence="CC-BY-4.0",
        spots=tuple(Spot(*spot) for spot in SPOTS),
        links=tuple(Link(*link) for link in LINKS),
        numbers=progression(ONE, TWO, 4),
    )
    solution = tuple(Fraction(number) for number in SOLUTION)
    certificate = Certificate("star", solution, 12, 1, 2.0, Estimate(6.0), Estimate(6.0))
    return CertifiedPage.of(page, certificate)


PICTURES = {Path("upright.svg"): picture(), Path("wide.svg"): picture(wide=True)}


@cache
def placed_once(shape: Shape, paper: str, language: str, scale: float) -> PlacedPuzzle:
    """One page of the book laid out; the others have the same tree."""
    page = ordered_book(shape, paper, language).pages[0]
    sheet = Sheet(paper, recto=True, scale=scale)
    return place_puzzle(page, PICTURES[page.art or Path()], sheet, load(language))


def bound_book(ordered: OrderedBook, with_key: bool = False, scale: float = 1.0) -> BoundBook:
    words = load(ordered.language)
    titles = {kind: words(f"{kind}.title") for kind in KINDS}
    shares = measure_shares(ordered, words, scale)
    bind = bind_slides if ordered.paper == "board" else bind_book
    return bind(ordered, shares, worked_example(ordered), titles, with_key)


def setting_of(
    shape: Shape, paper: str = "a4", language: str = "en", scale: float = 1.0
) -> Setting:
    """Everything that layout is told of a book of ``shape``."""
    ordered = ordered_book(shape, paper, language)
    placed = placed_once(shape, paper, language, scale)
    puzzles = {page.id: placed for page in ordered.pages}
    bound = bound_book(ordered, scale=scale)
    return Setting(paper, load(language), bound, PICTURES, puzzles, scale)


def with_key(setting: Setting) -> Setting:
    return replace(setting, bound=bound_book(setting.bound.ordered, with_key=True))
