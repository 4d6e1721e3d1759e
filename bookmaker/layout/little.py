"""A page's tree without its picture, small: on hint slips, and where a page has no picture."""

from __future__ import annotations

from bookmaker.model import Box, PlacedLink, PlacedSpot
from bookmaker.placement import TreePlacement
from bookmaker.typeset import Move, moved


def little_tree(
    tree: TreePlacement, frame: Box, align: tuple[float, float] = (0.5, 0.5)
) -> tuple[tuple[PlacedLink, ...], tuple[PlacedSpot, ...]]:
    """Links and spots, as large as ``frame`` allows.

    ``align`` says where they stand in room that is left: (0, 0) top left, (1, 1) bottom right.
    """
    left = min(spot.x - spot.radius for spot in tree.spots)
    top = min(spot.y - spot.radius for spot in tree.spots)
    wide = max(spot.x + spot.radius for spot in tree.spots) - left
    high = max(spot.y + spot.radius for spot in tree.spots) - top
    scale = min(frame.width / wide, frame.height / high)
    dx = frame.x - left * scale + (frame.width - wide * scale) * align[0]
    dy = frame.y - top * scale + (frame.height - high * scale) * align[1]
    move = Move(dx, dy, scale)
    return moved(tree.links, move), moved(tree.spots, move)
