"""Layout: a side of the book and its paper in, a ``PlacedPage`` out, all in millimetres."""

from bookmaker.layout.setting import PlacedPuzzle, Setting
from bookmaker.layout.sheet import PAPERS, Sheet
from bookmaker.layout.sides import lay_out, place_puzzle
from bookmaker.layout.tree import NoCleanLayout

__all__ = [
    "PAPERS",
    "NoCleanLayout",
    "PlacedPuzzle",
    "Setting",
    "Sheet",
    "lay_out",
    "place_puzzle",
]
