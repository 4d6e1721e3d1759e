"""Ways over a creature: how far its places are from each other, going along its limbs."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np

OVER_GROUND = 3
"""A step over sky, water or paper counts this many times."""
BESIDE = 1.5
"""Cells whose middles are at most this many cells apart have no ground between them."""


def distances(places: np.ndarray, cell: int) -> np.ndarray:
    """Lengths of the shortest ways between ``places`` (n, 2), whole numbers in any unit.

    A way goes from place to neighbouring place, ``BESIDE`` cells of ``cell`` units at most, or
    straight over the ground, which counts ``OVER_GROUND`` times. Whole numbers come out the same
    on any machine. All pairs at once: Floyd 1962, Communications of the ACM 5(6).
    """
    import numpy as np

    x, y = places.T
    squares = (x[:, None] - x) ** 2 + (y[:, None] - y) ** 2
    straight = np.sqrt(squares).round().astype(np.int32)  # a square root is rounded exactly
    near = squares <= int((BESIDE * cell) ** 2)
    ways: np.ndarray = np.where(near, straight, OVER_GROUND * straight)
    for through in range(len(places)):
        np.minimum(ways, ways[:, through, None] + ways[None, through, :], out=ways)
    return ways
