"""A side laid out: every item at a fixed place, in millimetres from the paper's top left.

Items say what they are (``role``), never what they look like: colour and stroke belong to
drawing. ``scale`` is the size of an item against its full size on a puzzle page, so that a small
picture in the key gets finer strokes.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from bookmaker.model.picture import Box

Point = tuple[float, float]
Face = Literal["text", "strong", "italic", "title"]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text: ``(x, y)`` is its anchor on the baseline, ``size`` in points.

    ``tag`` is its role for a screen reader ("H1", "H2", "P"; "TOCI" an entry of the contents;
    "THead", "TH", "TR", "TD" cells of a table, the first of a row and the others, in its head and
    below; "Lbl" and "LBody" a label and what it is of, which make a list; "Header" and "Footer"
    what belongs to the paper; "" any other artifact), and ``joins`` says that it goes on from the
    line before.
    """

    x: float
    y: float
    text: str
    size: float
    face: Face = "text"
    anchor: Anchor = "start"
    role: str = "body"
    tag: str = "P"
    joins: bool = False


@dataclass(frozen=True, slots=True)
class PlacedArt:
    """A picture: ``box`` is where the whole of it lies, ``window`` the part that is shown.

    ``picture`` is the digest of the picture; ``small`` asks for its small copy; ``alt`` is its
    text for those who can't see it; ``paled`` is how much paper lies over it at least, 0 to 1, and
    an ``ornament`` stands on bare paper.
    """

    picture: str
    box: Box
    window: Box
    alt: str = ""
    small: bool = False
    paled: float = 0.0
    ornament: bool = False


@dataclass(frozen=True, slots=True)
class PlacedSpot:
    """A spot's outline: the middle of its ring. What is written in it is a ``Line``.

    ``pale`` spots, links and tags are those of a drawing sheet, to be drawn around.
    """

    name: str
    x: float
    y: float
    radius: float
    scale: float = 1.0
    pale: bool = False


@dataclass(frozen=True, slots=True)
class PlacedLink:
    """A link from outline to outline: two points are a straight line, four a cubic Bezier."""

    name: str
    curve: tuple[Point, ...]
    scale: float = 1.0
    pale: bool = False


@dataclass(frozen=True, slots=True)
class PlacedTag:
    """A tag's outline on its link, upright. What is written in it is a ``Line``."""

    link: str
    box: Box
    scale: float = 1.0
    pale: bool = False


@dataclass(frozen=True, slots=True)
class Drawn:
    """A page's tree as a drawing sheet has it, in millimetres from the top left of the sheet's
    frame, which is ``width`` by ``height`` large and which the drawing fills."""

    width: float
    height: float
    spots: tuple[PlacedSpot, ...]
    links: tuple[PlacedLink, ...]
    tags: tuple[PlacedTag, ...]


@dataclass(frozen=True, slots=True)
class Rule:
    """A straight line that is no link: to write on, to cut along, to part things."""

    start: Point
    end: Point
    role: str = "rule"


@dataclass(frozen=True, slots=True)
class Frame:
    """A rectangle, with corners of ``radius``."""

    box: Box
    role: str = "frame"
    radius: float = 0.0


@dataclass(frozen=True, slots=True)
class Disc:
    """A circle that is no spot."""

    x: float
    y: float
    radius: float
    role: str = "disc"


@dataclass(frozen=True, slots=True)
class Outline:
    """A free form: each run of points is a polygon, or open where ``closed`` is false."""

    runs: tuple[tuple[Point, ...], ...]
    role: str = "shape"
    closed: bool = True


@dataclass(frozen=True, slots=True)
class InternalLink:
    """An area that leads to another side when it is touched on a screen."""

    box: Box
    target: str


@dataclass(frozen=True, slots=True)
class Description:
    """What is drawn in ``box`` without a picture, in words for those who can't see it."""

    box: Box
    text: str


Item = (
    Line
    | PlacedArt
    | PlacedSpot
    | PlacedLink
    | PlacedTag
    | Rule
    | Frame
    | Disc
    | Outline
    | InternalLink
    | Description
)


@dataclass(frozen=True, slots=True)
class PlacedPage:
    """One side of paper, ready to be drawn. Items are drawn in their order, art first.

    ``name`` is unique in a document and what ``InternalLink`` leads to; ``label`` is the printed
    page number ("iv", "12", "A3"; "" for none); ``bookmark`` is the outline's entry (level from
    0), None for no entry.
    """

    name: str
    width: float
    height: float
    items: tuple[Item, ...]
    label: str = ""
    bookmark: tuple[int, str] | None = None
