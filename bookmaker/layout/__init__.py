"""Layout: a side of the book and its paper in, a ``PlacedPage`` out, all in millimetres.

What sides are furnished with (``head``, ``paragraph``, ``contained``, ...) is here for stages that
place pages of their own.
"""

from bookmaker.layout.booklet import lay_out_booklet
from bookmaker.layout.drawn import has_moved, place_drawn, tree_for_sheet
from bookmaker.layout.furniture import contained, head, label_width, row_height, to_write
from bookmaker.layout.key import measure_key
from bookmaker.layout.moving import Move, moved
from bookmaker.layout.proof import lay_out_grid, tight_gaps
from bookmaker.layout.puzzle import lowered, page_sizes, place_puzzle
from bookmaker.layout.remembered import Arrange, remembering
from bookmaker.layout.setting import PlacedPuzzle, Setting
from bookmaker.layout.shares import measure_loose, measure_shares
from bookmaker.layout.sheet import LARGE, PAPERS, Sheet
from bookmaker.layout.sides import lay_out
from bookmaker.layout.text import paragraph
from bookmaker.layout.tree import NoCleanLayout, fit_art
from bookmaker.layout.tree.join import Joined, join
from bookmaker.layout.tree.placing import place_tree

__all__ = [
    "LARGE",
    "PAPERS",
    "Arrange",
    "Joined",
    "Move",
    "NoCleanLayout",
    "PlacedPuzzle",
    "Setting",
    "Sheet",
    "contained",
    "fit_art",
    "has_moved",
    "head",
    "join",
    "label_width",
    "lay_out",
    "lay_out_booklet",
    "lay_out_grid",
    "lowered",
    "measure_key",
    "measure_loose",
    "measure_shares",
    "moved",
    "page_sizes",
    "paragraph",
    "place_drawn",
    "place_puzzle",
    "place_tree",
    "remembering",
    "row_height",
    "tight_gaps",
    "to_write",
    "tree_for_sheet",
]
