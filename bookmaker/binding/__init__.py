"""Binding: ordered pages in, the run of sides out: what stands on which side of the paper."""

from bookmaker.binding.book import bind_book, bind_key, bind_part, bind_slides
from bookmaker.binding.imposition import MOST_SHEETS, Folded, impose
from bookmaker.binding.loose import bind_loose

__all__ = [
    "MOST_SHEETS",
    "Folded",
    "bind_book",
    "bind_key",
    "bind_loose",
    "bind_part",
    "bind_slides",
    "impose",
]
