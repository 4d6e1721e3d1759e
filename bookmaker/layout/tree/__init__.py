"""The tree on its picture: spots, links and wishes in, clean places in millimetres out.

``arrange`` places spots, links and tags; ``fit_art`` the picture under them; ``join`` chooses links
where the teacher leaves them to us; ``place_tree`` chooses places for spots that have none.
"""

from bookmaker.layout.tree.arrange import arrange
from bookmaker.layout.tree.art import ArtPlace, fit_art
from bookmaker.layout.tree.finished import faults
from bookmaker.layout.tree.placement import NoCleanLayout, TreePlacement, scaled
from bookmaker.layout.tree.sizes import Sizes

__all__ = [
    "ArtPlace",
    "NoCleanLayout",
    "Sizes",
    "TreePlacement",
    "arrange",
    "faults",
    "fit_art",
    "scaled",
]
