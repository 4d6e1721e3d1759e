"""The left page of the map: from the spring to the meadow."""

from __future__ import annotations

from art.kit.river_map import half
from art.kit.sheet import Sheet

NAME = "The map, left"
DESCRIPTION = (
    "A river comes down from a mossy spring, runs through a wood into a mill pond and winds on "
    "through a flowering meadow to the right edge, a paper boat on it."
)


def draw() -> Sheet:
    return half("left")
