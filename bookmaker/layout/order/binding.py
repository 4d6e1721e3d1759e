"""Which sides a document has, and in which order, by what is made of the book."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from bookmaker.layout.key import measure_key
from bookmaker.layout.order.book_order import (
    PartOfBook,
    bind_book,
    bind_key,
    bind_part,
    bind_slides,
    numbers_in,
)
from bookmaker.layout.order.leaves import Titles
from bookmaker.layout.order.loose_order import bind_loose
from bookmaker.layout.setting import PlacedPuzzle
from bookmaker.layout.shares import measure_loose, measure_shares
from bookmaker.model import BoundBook, KeyShares, Matter, OrderedBook, Output
from bookmaker.words import Words

IN_BOOK = ("howto", "contents", "record", "own", "credits", "answers", "notes", "plan")
LOOSE = ("test", "tokens", "slips", "family")


@dataclass(frozen=True, slots=True)
class Binding:
    """How a book is bound: as which document, in which words, at which scale; ``part`` is what a
    part of it is headed with, "" for the whole, which ``whole`` is; ``is_week`` where that is a
    week."""

    output: Output
    words: Words
    scale: float = 1.0
    part: str = ""
    whole: OrderedBook | None = None
    is_week: bool = False


def bind(
    ordered: OrderedBook, matter: Matter, binding: Binding, puzzles: Mapping[str, PlacedPuzzle]
) -> BoundBook:
    """The run of sides of one document."""
    words, whole = binding.words, not binding.part
    numbers = numbers_in(binding.whole or ordered)
    if binding.output == "loose":
        loose = measure_loose(ordered, matter.slips, puzzles, words)
        titles = {**_titles(LOOSE, words), "trial": words("trial.outline")}
        return bind_loose(ordered, loose, matter.example, titles)
    titles = {**_titles(IN_BOOK, words), "key": words("key.for" if whole else "key.title")}
    key = KeyShares()
    if matter.teaching:
        key = measure_key(ordered, matter.teaching, words, binding.scale)
    if binding.output == "key":
        return bind_key(ordered, titles, key, numbers)
    shares = replace(measure_shares(ordered, words, binding.scale), key=key)
    with_key = binding.output == "book"
    if not whole:
        part = PartOfBook(binding.part, numbers, binding.is_week)
        return bind_part(ordered, shares, part, titles, with_key)
    bind_whole = bind_slides if ordered.paper == "board" else bind_book
    return bind_whole(ordered, shares, matter.example, titles, with_key)


def _titles(kinds: tuple[str, ...], words: Words) -> Titles:
    return {kind: words(f"{kind}.title") for kind in kinds}
