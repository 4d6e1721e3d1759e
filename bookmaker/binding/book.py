"""The run of sides of a pupils' book, of a part of it, and of its key."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from bookmaker.binding.key import key_pieces
from bookmaker.binding.sides import Piece, placed
from bookmaker.model import (
    BoundBook,
    Contents,
    Cover,
    Credits,
    Example,
    Handout,
    HowTo,
    KeyShares,
    Opener,
    OrderedBook,
    OrderedChapter,
    Own,
    Puzzle,
    Record,
    Shares,
)

Titles = Mapping[str, str]
"""The words of the outline: "howto", "contents", "record", "own", "credits", "key"."""

ALL_STEPS = (1, 2, 3, 4)


def bind_book(
    ordered: OrderedBook,
    shares: Shares,
    example: Example,
    titles: Titles,
    with_key: bool = True,
) -> BoundBook:
    """The pupils' book: front matter, the chapters, what goes with them, and the key."""
    pieces = [
        Piece("cover", "front", Cover(), (0, ordered.book.title)),
        Piece("howto", "front", HowTo(example, ALL_STEPS), (0, titles["howto"])),
        *_contents(shares, titles),
        *_chapters(ordered),
        *_end_matter(shares, titles),
    ]
    if with_key:
        pieces += key_pieces(ordered, titles, shares.key)
    return _bound(ordered, pieces)


def bind_slides(
    ordered: OrderedBook,
    shares: Shares,
    example: Example,
    titles: Titles,
    with_key: bool = True,
) -> BoundBook:
    """The book for a board: the example step by step, and nothing that asks for a pencil."""
    pieces = [Piece("cover", "front", Cover(), (0, ordered.book.title))]
    for place, step in enumerate(ALL_STEPS):
        bookmark = (0, titles["howto"]) if place == 0 else None
        pieces.append(Piece(_nth("howto", place), "front", HowTo(example, (step,)), bookmark))
    pieces += [*_contents(shares, titles), *_chapters(ordered), *_credits(shares, titles)]
    if with_key:
        pieces += key_pieces(ordered, titles, shares.key)
    return _bound(ordered, pieces)


def bind_part(
    ordered: OrderedBook,
    shares: Shares,
    title: str,
    titles: Titles,
    with_key: bool = True,
) -> BoundBook:
    """Some pages of a book behind a side with ``title`` and their record.

    One page stands alone, and so do pages for a board, where nobody writes a name.
    """
    pieces: list[Piece] = []
    if len(ordered.pages) > 1 and ordered.book.paper != "board":
        for place, entries in enumerate(shares.record):
            bookmark = (0, title) if place == 0 else None
            handout = Handout(title, entries, place == 0)
            pieces.append(Piece(_nth("record", place), "body", handout, bookmark))
    pieces += (page for chapter in ordered.chapters for page in _puzzles(chapter, level=0))
    if with_key:
        pieces += key_pieces(ordered, titles, shares.key)
    return _bound(ordered, pieces)


def bind_key(
    ordered: OrderedBook, titles: Titles, shares: KeyShares | None = None, whole: bool = True
) -> BoundBook:
    """The teacher's section alone; of a ``whole`` book it names the pages by their numbers."""
    bound = _bound(ordered, key_pieces(ordered, titles, shares))
    book = _bound(ordered, _chapters(ordered)).side_of(Puzzle) if whole else {}
    return replace(bound, labels={page: side.label for page, side in book.items()})


def _bound(ordered: OrderedBook, pieces: Iterable[Piece]) -> BoundBook:
    """On a board one side follows the other; on paper left and right face each other."""
    return BoundBook(ordered, tuple(placed(pieces, facing=ordered.book.paper != "board")))


def _contents(shares: Shares, titles: Titles) -> Iterator[Piece]:
    last = len(shares.contents) - 1
    for place, entries in enumerate(shares.contents):
        content = Contents(entries, place == 0, place == last)
        bookmark = (0, titles["contents"]) if place == 0 else None
        yield Piece(_nth("contents", place), "front", content, bookmark)


def _chapters(ordered: OrderedBook) -> Iterator[Piece]:
    for chapter in ordered.chapters:
        told = chapter.chapter
        yield Piece(f"chapter-{told.id}", "body", Opener(chapter), (0, told.title), opens=True)
        yield from _puzzles(chapter, level=1)


def _puzzles(chapter: OrderedChapter, level: int) -> Iterator[Piece]:
    for page in chapter.pages:
        yield Piece(f"page-{page.page.id}", "body", Puzzle(page), (level, page.page.name))


def _end_matter(shares: Shares, titles: Titles) -> Iterator[Piece]:
    for place, entries in enumerate(shares.record):
        bookmark = (0, titles["record"]) if place == 0 else None
        yield Piece(_nth("record", place), "body", Record(entries, place == 0), bookmark)
    yield Piece("own", "body", Own(), (0, titles["own"]))
    yield from _credits(shares, titles)


def _credits(shares: Shares, titles: Titles) -> Iterator[Piece]:
    for place, credits in enumerate(shares.credits):
        bookmark = (0, titles["credits"]) if place == 0 else None
        yield Piece(_nth("credits", place), "body", Credits(credits), bookmark)


def _nth(name: str, place: int) -> str:
    """The name of a side: the first is the one that others lead to."""
    return f"{name}-{place + 1}" if place else name
