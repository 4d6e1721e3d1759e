"""Order: ordered pages in, the run of sides out: what stands on which side of the paper."""

from bookmaker.layout.order.book_order import bind_book, bind_key, bind_part, bind_slides
from bookmaker.layout.order.imposition import MOST_SHEETS, Folded, impose
from bookmaker.layout.order.loose_order import bind_loose

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
