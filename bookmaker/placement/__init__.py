"""Placement: a tree on its picture in, its spots, links and tags in clean places (mm) out.

``arrange`` places spots, links and tags; ``fit_art`` the picture under them. What can't be placed
cleanly raises NoCleanLayout.
"""

from bookmaker.placement.arrange import arrange
from bookmaker.placement.art_place import ArtPlace, fit_art
from bookmaker.placement.finished import faults
from bookmaker.placement.remembered import Arrange, remembering
from bookmaker.placement.sizes import STROKE, Sizes, page_sizes, widest_text
from bookmaker.placement.tree_placement import NoCleanLayout, TreePlacement, scaled

__all__ = [
    "STROKE",
    "Arrange",
    "ArtPlace",
    "NoCleanLayout",
    "Sizes",
    "TreePlacement",
    "arrange",
    "faults",
    "fit_art",
    "page_sizes",
    "remembering",
    "scaled",
    "widest_text",
]
