"""The run of sides of a pupils' book, of a part of it, and of its key."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from bookmaker.layout.order.key_order import key_pieces
from bookmaker.layout.order.leaves import Piece, Titles, in_turn, placed, written
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
    Side,
)

ALL_STEPS = (1, 2, 3, 4)


def bind_book(
    ordered: OrderedBook,
    shares: Shares,
    example: Example,
    titles: Titles,
    with_key: bool = True,
) -> BoundBook:
    """The pupils' book: front matter, the chapters, what goes with them, and the key."""
    steps = [HowTo(example, some) for some in shares.howto]
    pieces = [
        Piece("cover", "front", Cover(), (0, ordered.title)),
        *in_turn("howto", "front", steps, (0, titles["howto"])),
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
    steps = [HowTo(example, (step,)) for step in ALL_STEPS]
    pieces = [
        Piece("cover", "front", Cover(), (0, ordered.title)),
        *in_turn("howto", "front", steps, (0, titles["howto"])),
        *_contents(shares, titles),
        *_chapters(ordered),
        *_credits(shares, titles),
    ]
    if with_key:
        pieces += key_pieces(ordered, titles, shares.key)
    return _bound(ordered, pieces)


@dataclass(frozen=True, slots=True)
class PartOfBook:
    """What a part is headed with, the numbers of its puzzles in the whole book by page id, and
    whether it is a week's, which is headed even where it is one page."""

    title: str
    numbers: Mapping[str, str]
    is_week: bool = False


def numbers_in(whole: OrderedBook) -> dict[str, str]:
    """The page numbers of the puzzles in the pupils' book, by page id."""
    sides = _bound(whole, _chapters(whole)).side_of(Puzzle)
    return {page: side.label for page, side in sides.items()}


def bind_part(
    ordered: OrderedBook, shares: Shares, part: PartOfBook, titles: Titles, with_key: bool = True
) -> BoundBook:
    """Some pages of a book behind a side with their title and their record, numbered as there.

    One page stands alone, and so do pages for a board, where nobody writes a name.
    """
    pieces: list[Piece] = []
    title = part.title
    if (part.is_week or len(ordered.pages) > 1) and ordered.paper != "board":
        handouts = [Handout(title, side, place == 0) for place, side in enumerate(shares.record)]
        pieces += in_turn("record", "body", handouts, (0, title))
    pieces += (page for chapter in ordered.chapters for page in _puzzles(chapter, level=0))
    if with_key:
        pieces += key_pieces(ordered, titles, shares.key)
    bound = _bound(ordered, pieces)
    return replace(bound, sides=tuple(_numbered(bound.sides, part.numbers)))


def _numbered(sides: Iterable[Side], numbers: Mapping[str, str]) -> Iterator[Side]:
    """Puzzles bear their numbers in the book, and what stands before them Roman ones."""
    for place, side in enumerate(sides, 1):
        if isinstance(side.content, Puzzle):
            yield replace(side, label=numbers[side.content.page.id])
        else:
            is_title = isinstance(side.content, Handout)
            yield replace(side, label=written("front", place)) if is_title else side


def bind_key(
    ordered: OrderedBook,
    titles: Titles,
    shares: KeyShares | None = None,
    numbers: Mapping[str, str] | None = None,
) -> BoundBook:
    """The teacher's section alone; it names the pages by their ``numbers`` in the pupils' book."""
    bound = _bound(ordered, key_pieces(ordered, titles, shares))
    return replace(bound, labels=numbers_in(ordered) if numbers is None else numbers)


def _bound(ordered: OrderedBook, pieces: Iterable[Piece]) -> BoundBook:
    """On a board one side follows the other; on paper left and right face each other."""
    return BoundBook(ordered, tuple(placed(pieces, facing=ordered.paper != "board")))


def _contents(shares: Shares, titles: Titles) -> Iterator[Piece]:
    last = len(shares.contents) - 1
    sides = (
        Contents(side, place == 0, place == last) for place, side in enumerate(shares.contents)
    )
    return in_turn("contents", "front", sides, (0, titles["contents"]))


def _chapters(ordered: OrderedBook) -> Iterator[Piece]:
    for chapter in ordered.chapters:
        yield Piece(
            f"chapter-{chapter.id}", "body", Opener(chapter), (0, chapter.title), opens=True
        )
        yield from _puzzles(chapter, level=1)


def _puzzles(chapter: OrderedChapter, level: int) -> Iterator[Piece]:
    for page in chapter.pages:
        yield Piece(f"page-{page.id}", "body", Puzzle(page), (level, page.name))


def _end_matter(shares: Shares, titles: Titles) -> Iterator[Piece]:
    sides = (Record(side, place == 0) for place, side in enumerate(shares.record))
    yield from in_turn("record", "body", sides, (0, titles["record"]))
    yield Piece("own", "body", Own(), (0, titles["own"]))
    yield from _credits(shares, titles)


def _credits(shares: Shares, titles: Titles) -> Iterator[Piece]:
    return in_turn("credits", "body", map(Credits, shares.credits), (0, titles["credits"]))
