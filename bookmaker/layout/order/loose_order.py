"""The run of loose sheets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from bookmaker.layout.order.leaves import Piece, Titles, placed
from bookmaker.model import (
    Blank,
    BoundBook,
    Example,
    Family,
    LooseShares,
    OrderedBook,
    PrintTest,
    Slips,
    Tokens,
    Trial,
)


def bind_loose(
    ordered: OrderedBook, shares: LooseShares, example: Example, titles: Titles
) -> BoundBook:
    """A test print, tokens, hint slips, a trial sheet for each page, and the family page.

    What is cut apart has a blank back, so that printing on both sides spoils nothing; what is
    handed out begins on a leaf of its own, so that no family gets the test print. ``titles``
    are the words of the outline: "test", "tokens", "slips", "trial", "family".
    """
    pieces = [
        Piece("test", "body", PrintTest(), (0, titles["test"])),
        Piece("family", "body", Family(example), (0, titles["family"]), opens=True),
        *_to_cut("tokens", titles["tokens"], [Tokens(rows) for rows in shares.tokens]),
        *_to_cut("slips", titles["slips"], [Slips(slips) for slips in shares.slips]),
    ]
    for page, sides in shares.trials:
        bookmark = (0, f"{titles['trial']}: {page.name}")
        name, content = f"trial-{page.id}", Trial(page)
        pieces.append(Piece(name, "body", content, bookmark, opens=True))
        pieces += (Piece(f"{name}-back", "body", content) for _ in range(sides - 1))
    return BoundBook(ordered, tuple(placed(pieces)))


def _to_cut(name: str, title: str, contents: Sequence[Tokens | Slips]) -> Iterator[Piece]:
    for place, content in enumerate(contents, 1):
        bookmark = (0, title) if place == 1 else None
        yield Piece(f"{name}-{place}", "body", content, bookmark, opens=True)
        yield Piece(f"{name}-{place}-back", "body", Blank())
