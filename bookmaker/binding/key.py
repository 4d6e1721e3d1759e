"""The teacher's section as a run of sides."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from bookmaker.binding.sides import Piece
from bookmaker.model import Answers, OrderedBook

ANSWERS_PER_SIDE = 4


def key_pieces(ordered: OrderedBook, titles: Mapping[str, str]) -> Iterator[Piece]:
    """The answers of ``ordered``, four to a side; ``titles`` has the words of the outline."""
    pages = ordered.pages
    for place, first in enumerate(range(0, len(pages), ANSWERS_PER_SIDE)):
        bookmark = (0, titles["key"]) if place == 0 else None
        answers = Answers(pages[first : first + ANSWERS_PER_SIDE])
        yield Piece(f"key-{place + 1}", "key", answers, bookmark)
