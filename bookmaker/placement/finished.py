"""A finished placing measured once more: what in it comes too near something else."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bookmaker.model import Box, PlacedLink, Point
from bookmaker.placement.sizes import Sizes
from bookmaker.placement.tree_placement import TreePlacement

if TYPE_CHECKING:
    from bookmaker.placement.clearance import Breach


def faults(tree: TreePlacement, bounds: Box, sizes: Sizes) -> list[Breach]:
    """Every breach of ``sizes`` and ``bounds`` (mm) in ``tree``, by the places of its items.

    The links' names say which spots they join, ``"a-b"``.
    """
    import numpy as np  # takes long to load, and few placings are measured again

    from bookmaker.placement.clearance import Laid, breaches

    place = {spot.name: i for i, spot in enumerate(tree.spots)}
    edges = []
    for link in tree.links:
        a, b = (place[name] for name in link.name.split("-"))
        edges.append((a, b))
    laid = Laid(
        np.array([(spot.x, spot.y) for spot in tree.spots]),
        tuple(edges),
        np.array([_controls(link) for link in tree.links]),
        np.array([tag.box.middle for tag in tree.tags]),
    )
    return breaches(laid, bounds, sizes)


def _controls(link: PlacedLink) -> tuple[Point, ...]:
    """A link as a cubic: a straight one has its handles at its thirds."""
    if len(link.curve) == 4:
        return link.curve
    (ax, ay), (bx, by) = link.curve
    dx, dy = (bx - ax) / 3, (by - ay) / 3
    return ((ax, ay), (ax + dx, ay + dy), (bx - dx, by - dy), (bx, by))
