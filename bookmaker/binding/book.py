"""The run of sides of a pupils' book and of its key."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from bookmaker.model import (
    Answers,
    Blank,
    BoundBook,
    Content,
    Contents,
    Cover,
    Opener,
    OrderedBook,
    OrderedChapter,
    Puzzle,
    Side,
)

CONTENTS_PER_SIDE = 12
ANSWERS_PER_SIDE = 4


@dataclass(frozen=True, slots=True)
class _Piece:
    """A side that has not got its place yet. ``section`` decides how its number is written."""

    name: str
    section: str
    content: Content
    bookmark: tuple[int, str] | None = None


def bind_book(ordered: OrderedBook, titles: dict[str, str], with_key: bool = True) -> BoundBook:
    """The pupils' book: cover, contents, the puzzles, and at the back the key.

    ``titles`` are the words of the outline ("contents", "key").
    """
    pieces = [_Piece("cover", "front", Cover(), (0, ordered.book.title))]
    pieces += _contents(ordered, titles)
    pieces += _puzzles(ordered)
    if with_key:
        pieces += _answers(ordered, titles)
    return BoundBook(ordered, tuple(_placed(pieces)))


def bind_part(ordered: OrderedBook, titles: dict[str, str], with_key: bool = True) -> BoundBook:
    """Some pages of a book, without its front matter, and their key."""
    pieces = list(_puzzles(ordered, openers=False))
    if with_key:
        pieces += _answers(ordered, titles)
    return BoundBook(ordered, tuple(_placed(pieces)))


def bind_key(ordered: OrderedBook, titles: dict[str, str]) -> BoundBook:
    """The teacher's answers alone."""
    return BoundBook(ordered, tuple(_placed(_answers(ordered, titles))))


def _contents(ordered: OrderedBook, titles: dict[str, str]) -> Iterator[_Piece]:
    for place, entries in enumerate(_shared_out(ordered, CONTENTS_PER_SIDE)):
        bookmark = (0, titles["contents"]) if place == 0 else None
        yield _Piece(f"contents-{place + 1}", "front", Contents(entries), bookmark)


def _shared_out(ordered: OrderedBook, size: int) -> list[tuple[OrderedChapter, ...]]:
    """Chapters shared out over sides of at most ``size`` pages; a long chapter is split."""
    sides: list[list[OrderedChapter]] = [[]]
    room = size
    for chapter in ordered.chapters:
        pages = chapter.pages
        while pages:
            if room == 0 or (len(pages) > room and len(pages) <= size):
                sides.append([])
                room = size
            sides[-1].append(OrderedChapter(chapter.chapter, pages[:room]))
            taken = len(pages[:room])
            pages, room = pages[room:], room - taken
    return [tuple(side) for side in sides]


def _puzzles(ordered: OrderedBook, openers: bool = True) -> Iterator[_Piece]:
    for chapter in ordered.chapters:
        told = chapter.chapter
        if openers:
            yield _Piece(f"chapter-{told.id}", "body", Opener(chapter), (0, told.title))
        for page in chapter.pages:
            bookmark = (1 if openers else 0, page.page.name)
            yield _Piece(f"page-{page.page.id}", "body", Puzzle(page), bookmark)


def _answers(ordered: OrderedBook, titles: dict[str, str]) -> Iterator[_Piece]:
    pages = ordered.pages
    for place, first in enumerate(range(0, len(pages), ANSWERS_PER_SIDE)):
        bookmark = (0, titles["key"]) if place == 0 else None
        answers = Answers(pages[first : first + ANSWERS_PER_SIDE])
        yield _Piece(f"key-{place + 1}", "key", answers, bookmark)


def _placed(pieces: Iterable[_Piece]) -> Iterator[Side]:
    """Give each side its place and number; the body and the key begin on a right-hand side."""
    numbers = {"front": 0, "body": 0, "key": 0}
    written: Mapping[str, Callable[[int], str]] = {
        "front": _roman,
        "body": str,
        "key": lambda number: f"A{number}",
    }
    place, section = 0, ""
    for piece in pieces:
        if piece.section != section and place % 2:
            yield Side(f"blank-{place + 1}", "", False, Blank())
            place += 1
        section = piece.section
        numbers[section] += 1
        label = written[section](numbers[section])
        yield Side(piece.name, label, place % 2 == 0, piece.content, piece.bookmark)
        place += 1


def _roman(number: int) -> str:
    """Lower-case Roman numerals, as front matter is numbered."""
    values = ((100, "c"), (90, "xc"), (50, "l"), (40, "xl"), (10, "x"), (9, "ix"), (5, "v"))
    text = ""
    for value, letters in (*values, (4, "iv"), (1, "i")):
        count, number = divmod(number, value)
        text += letters * count
    return text
