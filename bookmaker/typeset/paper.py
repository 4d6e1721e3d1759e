"""Paper: its sizes, its margins, and the area of a side that may hold ink."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

from bookmaker.model import Binding, Book, Box

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
BINDINGS: Final[Mapping[Binding, float]] = {"punch": 20.0, "staple": BINDING, "none": MARGIN}
"""The margin at the binding side, mm. Two holes for filing have their middle 12 mm from the edge
and are 6 mm wide (ISO 838:1974, from memory), so that 20 leaves 5 to the ink."""
LARGE: Final = 1.4
"""How much larger everything is in large print."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One side of paper; ``recto`` is a right-hand side, bound on its left.

    In large print (``scale`` over 1) a side is laid out on paper that is so much smaller, and
    enlarged as a whole when it is finished: every measure here is of the smaller paper; but the
    margins are those of the paper itself.
    """

    paper: str
    recto: bool
    turned: bool = False
    scale: float = 1.0
    binding: Binding = "staple"

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
        bound = margin if self.is_board else BINDINGS[self.binding] / self.scale
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


def sheet_of(book: Book, scale: float = 1.0) -> Sheet:
    """A right-hand side of the paper of ``book``."""
    return Sheet(book.paper, recto=True, scale=scale, binding=book.binding)


def sheets_to_try(book: Book, scale: float) -> tuple[Sheet, ...]:
    """The sheets for ``book``, whose pages all stand on one paper.

    In large print (``scale`` over 1) that is never smaller than A4 or letter, and A3 where a page
    needs the room.
    """
    papers = [book.paper]
    if scale > 1 and book.paper != "board":
        papers = list(dict.fromkeys((ROOMIER.get(book.paper, book.paper), "a3")))
    return tuple(replace(sheet_of(book, scale), paper=name) for name in papers)
