"""How much goes onto a side: measured here, because it depends on paper and words."""

from __future__ import annotations

from bookmaker.layout.contents import share_contents
from bookmaker.layout.credits import share_credits
from bookmaker.layout.record import share_record
from bookmaker.layout.sheet import Sheet
from bookmaker.model import OrderedBook, Shares
from bookmaker.words import Words


def measure_shares(ordered: OrderedBook, words: Words, scale: float = 1.0) -> Shares:
    """What stands on each side of contents, record and credits on the book's paper."""
    sheet = Sheet(ordered.book.paper, recto=True, scale=scale)
    return Shares(
        share_contents(ordered, sheet, words),
        share_record(ordered, sheet, words),
        share_credits(ordered, sheet, words),
    )
