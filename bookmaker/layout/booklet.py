"""A booklet's sheets: two pages side by side, marks to fold and staple by, how to print it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from bookmaker.layout.order.imposition import Folded, impose
from bookmaker.model import Book, InternalLink, Item, Line, PlacedPage, Rule
from bookmaker.typeset import PAPERS, Move, moved
from bookmaker.words import Words

DOUBLED = {"a5": "a4", "a4": "a3"}
"""ISO 216 rounds halves down, so that two A5 sheets are a millimetre less than one A4."""
MARK = 4.0
MARK_FROM_EDGE = 3.0
SAYING_SIZE = 8.0
STAPLES = (0.25, 0.75)


def booklet_size(paper: str) -> tuple[float, float]:
    """Width and height of the sheet that holds two upright pages of ``paper``, in millimetres."""
    width, height = PAPERS[paper]
    if paper in DOUBLED:
        short, long = PAPERS[DOUBLED[paper]]
        return long, short
    return 2 * width, height


def upright(book: Book) -> Book:
    """A booklet's pages share their sheets: none of them lies on its side, staples hold them."""
    chapters = (
        replace(chapter, pages=tuple(replace(page, turn=False) for page in chapter.pages))
        for chapter in book.chapters
    )
    return replace(book, chapters=tuple(chapters), binding="staple")


def impose_booklet(pages: Sequence[PlacedPage], paper: str, words: Words) -> tuple[PlacedPage, ...]:
    """``pages`` two by two on sheets of doubled paper, in the order in which they are printed."""
    return lay_out_booklet(pages, impose(len(pages)), paper, words)


def lay_out_booklet(
    pages: Sequence[PlacedPage], sheets: Sequence[Folded], paper: str, words: Words
) -> tuple[PlacedPage, ...]:
    """Outside and inside of each sheet in turn: printed on both sides, they fold into the book."""
    return tuple(
        _side(pages, sheet, pair, paper, words)
        for sheet in sheets
        for pair in (sheet.outside, sheet.inside)
    )


def _side(
    pages: Sequence[PlacedPage],
    sheet: Folded,
    pair: tuple[int, int],
    paper: str,
    words: Words,
) -> PlacedPage:
    width, height = booklet_size(paper)
    fold = width / 2
    starts = (fold - PAPERS[paper][0] + sheet.creep, fold - sheet.creep)
    items: list[Item] = []
    for number, start in zip(pair, starts, strict=True):
        if number <= len(pages):
            page = pages[number - 1]
            shown = (item for item in page.items if not isinstance(item, InternalLink))
            items += moved(shown, Move(start, (height - page.height) / 2))
    outside = pair == sheet.outside
    if sheet.number == 1:
        items += _marks(fold, height) if outside else _saying(width, height, words)
    name = f"sheet-{sheet.number}-{'outside' if outside else 'inside'}"
    return PlacedPage(name, width, height, tuple(items), f"{sheet.number}{'a' if outside else 'b'}")


def _marks(fold: float, height: float) -> Iterator[Item]:
    """Where to fold, at head and foot, and where the two staples go."""
    for y in (MARK_FROM_EDGE, height - MARK_FROM_EDGE - MARK):
        yield Rule((fold, y), (fold, y + MARK), "fold")
    for share in STAPLES:
        y = height * share
        yield Rule((fold, y - MARK), (fold, y + MARK), "staple")


def _saying(width: float, height: float, words: Words) -> Iterator[Item]:
    saying = words("booklet.print")
    yield Line(width / 2, height - 4.0, saying, SAYING_SIZE, "text", "middle", "quiet", "")
