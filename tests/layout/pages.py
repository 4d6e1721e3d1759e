"""Turning what the engine placed into the SVG of a page, for the judge and for the eye."""

from __future__ import annotations

from bookmaker.model import Box, PlacedArt, PlacedPage
from bookmaker.pdf import INKS
from bookmaker.pdf.svg_page import page_svg
from bookmaker.placement.tree_placement import TreePlacement
from tests.layout.sets import PAPERS


def drawn(placement: TreePlacement, paper: str, frame: Box) -> str:
    """The placement's page as SVG; the frame stands for the picture."""
    width, height = PAPERS[paper]
    art = PlacedArt("", frame, frame)
    items = (art, *placement.links, *placement.tags, *placement.spots)
    return page_svg(PlacedPage("page", width, height, items), INKS["full"], {})
