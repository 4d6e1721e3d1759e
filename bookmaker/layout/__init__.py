"""Layout: a side of the book and its paper in, a ``PlacedPage`` out, all in millimetres.

``order`` says which side follows which. What sides are furnished with (``head``, ``contained``,
...) is here for rooms that place pages of their own.
"""

from bookmaker.layout.booklet import impose_booklet, upright
from bookmaker.layout.drawn import has_moved, place_drawn, tree_for_sheet
from bookmaker.layout.fitting import fit_book, refusal
from bookmaker.layout.furniture import contained, head, label_width, row_height, to_write
from bookmaker.layout.key.saying import said
from bookmaker.layout.order.binding import Binding, bind
from bookmaker.layout.order.imposition import MOST_SHEETS
from bookmaker.layout.proof import lay_out_grid, tight_gaps
from bookmaker.layout.puzzle import lowered, place_puzzle
from bookmaker.layout.setting import PlacedPuzzle, Setting
from bookmaker.layout.sides import lay_out
from bookmaker.layout.standing import UNKNOWN, place_as_it_stands

__all__ = [
    "MOST_SHEETS",
    "UNKNOWN",
    "Binding",
    "Folded",
    "PlacedPuzzle",
    "Setting",
    "bind",
    "contained",
    "fit_book",
    "has_moved",
    "head",
    "impose_booklet",
    "label_width",
    "lay_out",
    "lay_out_grid",
    "lowered",
    "place_as_it_stands",
    "place_drawn",
    "place_puzzle",
    "refusal",
    "row_height",
    "said",
    "tight_gaps",
    "to_write",
    "tree_for_sheet",
    "upright",
]
