"""Where the creature is among a picture's pixels, told from sky, water or paper about it.

The ground is grown from the picture's edge (seeded region growing: Adams and Bischof 1994, IEEE
Transactions on Pattern Analysis and Machine Intelligence 16(6)) through pixels that are of the
edge's own colours; the figure is the rest. Where that is a frame, its inside is looked at again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bookmaker.linking.pieces import pieces

if TYPE_CHECKING:
    import numpy as np

ALIKE = 28
"""Colours nearer than this in RGB (levels of 255) pass for one."""
OFTEN = 0.04
"""The part of the edge a colour must have to be the ground's: a leg that is cut off has less."""
SPECK = 0.005
"""A piece that takes less of the picture than this is a wave or a reed, and no creature."""
LEAST, MOST = 0.03, 0.95
"""A figure that takes less or more of the picture than this says nothing."""
FRAME = 0.93
"""A piece that fills so much of its own box is no creature but a card or a frame."""
LARGE = 0.2
"""A card takes so much of the picture at least."""
LEAST_SIDE, RIM = 24, 3
"""How wide a card is at least, and what of it may be its edge, pixels."""
MOST_INSIDE = 0.8
"""A creature on a card leaves some of it bare."""
BESIDE = 0.2
"""A piece that is smaller than this beside the largest is no second creature."""
SHADES = 12
"""Colours of the edge are rounded to steps of so many levels before they are counted."""


def creature(colours: np.ndarray) -> np.ndarray:
    """Which pixels (height, width) of ``colours`` (height, width, 3; bytes) are the creature's.

    Less than ``LEAST`` of them, or more than ``MOST``, means that the colours do not tell.
    """
    import numpy as np

    found = _main_pieces(_not_ground(colours))
    inside = _card(found)
    if inside is None:
        return found
    within = creature(colours[inside])
    if not LEAST <= within.mean() <= MOST_INSIDE:
        return found
    found = np.zeros_like(found)
    found[inside] = within
    return found


def _not_ground(colours: np.ndarray) -> np.ndarray:
    """True where no way leads from the edge over the edge's colours, but for specks."""
    import numpy as np

    rimmed = np.pad(_like_the_edge(colours), 1, constant_values=True)  # all at the edge is one
    rest = pieces(pieces(rimmed) != 1)
    sizes = np.bincount(rest.ravel())
    large = sizes >= SPECK * (rimmed.size)
    large[0] = False
    found: np.ndarray = large[rest][1:-1, 1:-1]
    return found


def _like_the_edge(colours: np.ndarray) -> np.ndarray:
    """Which pixels are of a colour that enough of the picture's edge has."""
    import numpy as np

    whole = colours.astype(np.int32)
    edge = np.concatenate([whole[0], whole[-1], whole[1:-1, 0], whole[1:-1, -1]])
    shades, counts = np.unique((edge + SHADES // 2) // SHADES, axis=0, return_counts=True)
    often = np.zeros(whole.shape[:2], dtype=np.int32)
    for shade, count in zip(shades * SHADES, counts, strict=True):
        apart = ((whole - shade) ** 2).sum(axis=2)
        often += count * (apart < ALIKE**2)
    return often >= OFTEN * len(edge)


def _main_pieces(found: np.ndarray) -> np.ndarray:
    """The largest piece, and those that are not small beside it: a cloud, a flower, a word."""
    import numpy as np

    marked = pieces(found)
    sizes = np.bincount(marked.ravel())
    sizes[0] = 0
    kept: np.ndarray = (sizes >= max(BESIDE * sizes.max(), 1))[marked]
    return kept


def _card(found: np.ndarray) -> tuple[slice, slice] | None:
    """What lies within the figure, where that is a card or a frame; else None."""
    import numpy as np

    rows, columns = np.nonzero(found)
    if len(rows) < LARGE * found.size:
        return None
    top, bottom = int(rows.min()), int(rows.max()) + 1
    left, right = int(columns.min()), int(columns.max()) + 1
    high, wide = bottom - top, right - left
    if len(rows) < FRAME * high * wide or min(high, wide) < LEAST_SIDE:
        return None
    return slice(top + RIM, bottom - RIM), slice(left + RIM, right - RIM)
