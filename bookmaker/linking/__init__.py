"""Linking: pictures and wishes in, spots and links for the pages that leave them to us out.

``join_pages`` chooses links, ``spot_pages`` places for spots that have none, ``find_figure`` tells
the creature from its ground.
"""

from bookmaker.linking.choose import Choice, join_pages
from bookmaker.linking.figure import Figure, find_figure
from bookmaker.linking.plane_trees import Joined, join
from bookmaker.linking.proposing import Proposal, propose_spots
from bookmaker.linking.spot_shapes import place_tree
from bookmaker.linking.spotting import spot_pages

__all__ = [
    "Choice",
    "Figure",
    "Joined",
    "Proposal",
    "find_figure",
    "join",
    "join_pages",
    "place_tree",
    "propose_spots",
    "spot_pages",
]
