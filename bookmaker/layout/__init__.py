"""Layout: a side of the book and its paper in, a ``PlacedPage`` out, all in millimetres."""

from bookmaker.layout.booklet import lay_out_booklet
from bookmaker.layout.drawn import has_moved, place_drawn, tree_for_sheet
from bookmaker.layout.key import measure_key
from bookmaker.layout.proof import lay_out_grid, tight_gaps
from bookmaker.layout.puzzle import lowered, page_sizes, place_puzzle
from bookmaker.layout.remembered import Arrange, remembering
from bookmaker.layout.setting import PlacedPuzzle, Setting
from bookmaker.layout.shares import measure_loose, measure_shares
from bookmaker.layout.sheet import LARGE, PAPERS, Sheet
from bookmaker.layout.sides import lay_out
from bookmaker.layout.tree import NoCleanLayout, fit_art
from bookmaker.layout.tree.join import Joined, join
from bookmaker.layout.tree.placing import place_tree

__all__ = [
    "LARGE",
    "PAPERS",
    "Arrange",
    "Joined",
    "NoCleanLayout",
    "PlacedPuzzle",
    "Setting",
    "Sheet",
    "fit_art",
    "has_moved",
    "join",
    "lay_out",
    "lay_out_booklet",
    "lay_out_grid",
    "lowered",
    "measure_key",
    "measure_loose",
    "measure_shares",
    "page_sizes",
    "place_drawn",
    "place_puzzle",
    "place_tree",
    "remembering",
    "tight_gaps",
    "tree_for_sheet",
]
