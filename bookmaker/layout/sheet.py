"""Paper: its sizes, its margins, and the area of a side that may hold ink."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from bookmaker.model import Box

PAPERS: Final[Mapping[str, tuple[float, float]]] = {
    "a4": (210.0, 297.0),
    "letter": (215.9, 279.4),
    "a5": (148.0, 210.0),
    "half-letter": (139.7, 215.9),
    "a3": (297.0, 420.0),
    "board": (338.7, 190.5),
}
"""Width and height in millimetres: ISO 216:2007, ANSI/ASME Y14.1, and 16:9 for a board."""

MARGIN: Final = 10.0
BINDING: Final = 14.0


@dataclass(frozen=True, slots=True)
class Sheet:
    """One side of paper; ``recto`` is a right-hand side, bound on its left."""

    paper: str
    recto: bool
    turned: bool = False

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in millimetres."""
        width, height = PAPERS[self.paper]
        return (height, width) if self.turned else (width, height)

    @property
    def area(self) -> Box:
        """What the margins leave."""
        width, height = self.size
        bound = BINDING if self.paper != "board" else MARGIN
        left = bound if self.recto else MARGIN
        right = MARGIN if self.recto else bound
        return Box(left, MARGIN, width - left - right, height - 2 * MARGIN)

    @property
    def is_small(self) -> bool:
        return self.paper in ("a5", "half-letter")
