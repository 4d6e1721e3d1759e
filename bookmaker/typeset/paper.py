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
LARGE: Final = 1.4
"""How much larger everything is in large print."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One side of paper; ``recto`` is a right-hand side, bound on its left.

    In large print (``scale`` over 1) a side is laid out on paper that is so much smaller, and
    enlarged as a whole when it is finished: every measure here is of the smaller paper.
    """

    paper: str
    recto: bool
    turned: bool = False
    scale: float = 1.0

    @property
    def real_size(self) -> tuple[float, float]:
        """Width and height of the paper itself, in millimetres."""
        width, height = PAPERS[self.paper]
        return (height, width) if self.turned else (width, height)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height to lay out on, in millimetres."""
        width, height = self.real_size
        return width / self.scale, height / self.scale

    @property
    def area(self) -> Box:
        """What the margins leave."""
        width, height = self.size
        margin = MARGIN / self.scale
        bound = margin if self.is_board else BINDING / self.scale
        left, right = (bound, margin) if self.recto else (margin, bound)
        return Box(left, margin, width - left - right, height - 2 * margin)

    @property
    def is_board(self) -> bool:
        return self.paper == "board"

    @property
    def is_narrow(self) -> bool:
        """Whether lines are as short as on A5, half-letter, or A4 in large print."""
        return self.area.width < 160


ROOMIER: Final[Mapping[str, str]] = {"a5": "a4", "half-letter": "letter"}
"""Papers too small for large print, and what takes their place."""


def sheets_to_try(paper: str, scale: float) -> tuple[Sheet, ...]:
    """The sheets for a book that its manifest puts on ``paper``; every page stands on one paper.

    In large print (``scale`` over 1) that is never smaller than A4 or letter, and A3 where a page
    needs the room.
    """
    papers = [paper]
    if scale > 1 and paper != "board":
        papers = list(dict.fromkeys((ROOMIER.get(paper, paper), "a3")))
    return tuple(Sheet(name, recto=True, scale=scale) for name in papers)
