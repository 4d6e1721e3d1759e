"""Where the creature is among a picture's pixels, told from sky, water or paper about it.

The ground is grown from the picture's edge (seeded region growing: Adams and Bischof 1994, IEEE
Transactions on Pattern Analysis and Machine Intelligence 16(6)) through pixels that are of the
edge's own colours; the figure is the rest. Where that is a frame, its inside is looked at again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PIL import Image, ImageFilter

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
SCANT, MARKED = 0.12, 0.2
"""A figure that takes less than this may be lines, on paper whose edge has less than that on it."""
STEP = 32
"""Colours are counted in steps of so many levels."""
FAINT, OVER_GRAIN = 10.0, 5.0
"""Levels by which a pencil's line differs from paper, and how many times as much as its grain."""
CLOSED = 3
"""Half of the gaps in a line that are closed, pixels."""
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

    found = _main_pieces(_not_ground(_like_the_edge(colours)))
    if found.mean() < SCANT:
        held = _main_pieces(_held_by_lines(colours))
        found = held if found.mean() < held.mean() <= MOST_INSIDE else found
    inside = _card(found)
    if inside is None:
        return found
    within = creature(colours[inside])
    if not LEAST <= within.mean() <= MOST_INSIDE:
        return found
    found = np.zeros_like(found)
    found[inside] = within
    return found


def edge_of(colours: np.ndarray) -> np.ndarray:
    """The colours of the picture's outermost pixels, as numbers that can be reckoned with."""
    import numpy as np

    whole = colours.astype(np.int32)
    return np.concatenate([whole[0], whole[-1], whole[1:-1, 0], whole[1:-1, -1]])


def variety(edge: np.ndarray) -> float:
    """How many colours an edge has, each counted by how common it is.

    The reciprocal of Simpson's index (1949, Nature 163).
    """
    import numpy as np

    _, counts = np.unique((edge + STEP // 2) // STEP, axis=0, return_counts=True)
    return float(len(edge) ** 2 / (counts**2).sum())


def _held_by_lines(colours: np.ndarray) -> np.ndarray:
    """What faint lines on plain paper hold, gaps in them closed; nothing where it is not plain."""
    import numpy as np

    edge = edge_of(colours)
    paper = np.median(edge, axis=0)
    grain = np.abs(edge - paper).max(axis=1)
    faint = max(FAINT, OVER_GRAIN * float(np.median(grain)))
    inked = np.abs(colours - paper).max(axis=2) > faint
    if (grain > faint).mean() > MARKED:
        return np.zeros_like(inked)
    image = Image.fromarray(np.pad(inked, 2 * CLOSED).astype(np.uint8))
    thick = np.asarray(image.filter(ImageFilter.MaxFilter(2 * CLOSED + 1)))
    filled = Image.fromarray(_not_ground(thick == 0).astype(np.uint8))
    held = np.asarray(filled.filter(ImageFilter.MinFilter(2 * CLOSED + 1))) > 0
    return held[2 * CLOSED : -2 * CLOSED, 2 * CLOSED : -2 * CLOSED]


def _not_ground(like_ground: np.ndarray) -> np.ndarray:
    """True where no way leads from the edge over what is like it, but for specks."""
    import numpy as np

    rimmed = np.pad(like_ground, 1, constant_values=True)  # all at the edge is one
    rest = pieces(pieces(rimmed) != 1)
    sizes = np.bincount(rest.ravel())
    large = sizes >= SPECK * (rimmed.size)
    large[0] = False
    found: np.ndarray = large[rest][1:-1, 1:-1]
    return found


def _like_the_edge(colours: np.ndarray) -> np.ndarray:
    """Which pixels are of a colour that enough of the picture's edge has."""
    import numpy as np

    whole, edge = colours.astype(np.int32), edge_of(colours)
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
