"""How much goes onto a side: measured here, because it depends on paper and words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from bookmaker.layout.contents import share_contents
from bookmaker.layout.credits import share_credits
from bookmaker.layout.loose import share_tokens
from bookmaker.layout.record import share_record
from bookmaker.layout.setting import PlacedPuzzle
from bookmaker.layout.slips import share_slips
from bookmaker.layout.trial import trial_sides
from bookmaker.model import LooseShares, OrderedBook, Shares, Slip
from bookmaker.typeset import sheet_of
from bookmaker.words import Words


def measure_shares(ordered: OrderedBook, words: Words, scale: float = 1.0) -> Shares:
    """What stands on each side of contents, record and credits on the book's paper, and which
    steps of the worked example: in large print it takes two sides."""
    sheet = sheet_of(ordered, scale)
    return Shares(
        share_contents(ordered, sheet, words),
        share_record(ordered, sheet, words),
        share_credits(ordered, sheet, words),
        ((1, 2), (3, 4)) if scale > 1 else ((1, 2, 3, 4),),
    )


def measure_loose(
    ordered: OrderedBook,
    slips: Sequence[Slip],
    puzzles: Mapping[str, PlacedPuzzle],
    words: Words,
) -> LooseShares:
    """What stands on each side of tokens and slips, and how many sides each trial sheet takes."""
    sheet = sheet_of(ordered)
    trials = tuple(
        (page, trial_sides(page, puzzles[page.id], sheet, words)) for page in ordered.pages
    )
    tokens, strips = share_tokens(ordered, sheet, words), share_slips(slips, sheet, words)
    return LooseShares(tokens, strips, trials)
