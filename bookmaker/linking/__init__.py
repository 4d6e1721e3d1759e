"""Linking: pictures and wishes in, spots and links for the pages that leave them to us out.

``link_book`` does it for a whole book: ``spot_pages`` gives spots a place, ``join_pages`` chooses
links, page by page or for a whole climb. ``find_figure`` tells the creature from its ground.
"""

from bookmaker.linking.choose import Choice
from bookmaker.linking.figure import Figure, find_figure
from bookmaker.linking.hiding import hidden_creatures
from bookmaker.linking.join_book import LinkedBook, join_pages, link_book
from bookmaker.linking.plane_trees import Joined, join
from bookmaker.linking.proposing import Proposal, propose_spots
from bookmaker.linking.spot_shapes import place_tree
from bookmaker.linking.spotting import spot_pages

__all__ = [
    "Choice",
    "Figure",
    "Joined",
    "LinkedBook",
    "Proposal",
    "find_figure",
    "hidden_creatures",
    "join",
    "join_pages",
    "link_book",
    "place_tree",
    "propose_spots",
    "spot_pages",
]
