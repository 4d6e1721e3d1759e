"""The right page of the map: from the reed bed to the sea."""

from __future__ import annotations

from art.kit.river_map import half
from art.kit.sheet import Sheet

NAME = "The map, right"
DESCRIPTION = (
    "The river comes in from the left between reeds, turns through a salt marsh with creeks and "
    "opens into the deep sea below a cliff."
)


def draw() -> Sheet:
    return half("right")
