"""Layout: a side of the book and its paper in, a ``PlacedPage`` out, all in millimetres.

``order`` says which side follows which. What sides are furnished with (``head``, ``contained``,
...) is here for rooms that place pages of their own.
"""

from bookmaker.layout.booklet import lay_out_booklet
from bookmaker.layout.drawn import has_moved, place_drawn, tree_for_sheet
from bookmaker.layout.fitting import place_puzzles, refusal
from bookmaker.layout.furniture import contained, head, label_width, row_height, to_write
from bookmaker.layout.key.shares import measure_key
from bookmaker.layout.order.book_order import bind_book, bind_key, bind_part, bind_slides
from bookmaker.layout.order.imposition import MOST_SHEETS, Folded, impose
from bookmaker.layout.order.loose_order import bind_loose
from bookmaker.layout.proof import lay_out_grid, tight_gaps
from bookmaker.layout.puzzle import lowered, place_puzzle
from bookmaker.layout.setting import PlacedPuzzle, Setting
from bookmaker.layout.shares import measure_loose, measure_shares
from bookmaker.layout.sides import lay_out

__all__ = [
    "MOST_SHEETS",
    "Folded",
    "PlacedPuzzle",
    "Setting",
    "bind_book",
    "bind_key",
    "bind_loose",
    "bind_part",
    "bind_slides",
    "contained",
    "has_moved",
    "head",
    "impose",
    "label_width",
    "lay_out",
    "lay_out_booklet",
    "lay_out_grid",
    "lowered",
    "measure_key",
    "measure_loose",
    "measure_shares",
    "place_drawn",
    "place_puzzle",
    "place_puzzles",
    "refusal",
    "row_height",
    "tight_gaps",
    "to_write",
    "tree_for_sheet",
]
