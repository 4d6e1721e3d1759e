"""Drawing: a ``PlacedPage`` in, marks of ink out, and those as SVG.

Marks are the page's one description: ``svg`` writes them down, the press paints the same ones
onto paper. Nothing is decided here but colour and stroke, which ``inks`` looks up by role. The SVG
writer is imported by whoever wants it, since its library takes time to load.
"""

from bookmaker.drawing.inks import INKS, Ink, Paint
from bookmaker.drawing.marks import (
    ArtMark,
    Circle,
    Group,
    Mark,
    Path,
    Rect,
    Segment,
    Unseen,
    Words,
    draw,
    faded,
)

__all__ = [
    "INKS",
    "ArtMark",
    "Circle",
    "Group",
    "Ink",
    "Mark",
    "Paint",
    "Path",
    "Rect",
    "Segment",
    "Unseen",
    "Words",
    "draw",
    "faded",
]
