"""Marks painted as the content of a page, each in its marked content or as an artifact.

What a reader is told is written in the same go: whatever is painted stands in the marked content
of one element (ISO 32000-1, 14.7.4.3) or in an artifact (14.8.2.2), and nothing in both.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass, replace
from functools import singledispatchmethod
from typing import Final, Protocol

from bookmaker.model import Box, Face, Point
from bookmaker.pdf.embedding import Subset
from bookmaker.pdf.marks import AltText, ArtMark, Circle, Group, Mark, Path, Rect, TextRun, faded
from bookmaker.pdf.operators import Content, numbers
from bookmaker.typeset import POINT, width

Matrix = tuple[float, float, float, float, float, float]

FIGURE: Final = "Figure"
"""The tag of a picture."""
HEADER: Final = "Header"
FOOTER: Final = "Footer"
"""Tags of lines that belong to the paper and not to the text: a title that goes on from the side
before, a label of a line to write on; a side's number, the credit of its picture."""

CELLS: Final = ("THead", "TH", "TR", "TD")
"""Tags of a table's cells as lines have them: the first of a head's row, another of that row, the
first of any other row, another of that row."""

_ARTIFACTS: Final[Mapping[str, str]] = {
    "": "/Artifact BMC",
    HEADER: "/Artifact <</Type /Pagination /Subtype /Header>> BDC",
    FOOTER: "/Artifact <</Type /Pagination /Subtype /Footer>> BDC",
}


@dataclass(frozen=True, slots=True)
class Tagged:
    """An element of a page's text: its tag, and the numbers of its pieces of marked content.

    ``alt`` are its words where it is a picture, which stands in ``box``.
    """

    tag: str
    numbers: tuple[int, ...] = ()
    alt: str = ""
    box: Box | None = None


@dataclass(frozen=True, slots=True)
class PaintedPage:
    """A page's operators, and what a reader is told, in its order."""

    content: bytes
    tagged: tuple[Tagged, ...]
    faces: frozenset[Face]


class Art(Protocol):
    """Where pictures are kept."""

    def shown(self, mark: ArtMark) -> tuple[str, Matrix] | None:
        """The picture's name on a page, and the matrix that makes it the unit square, upright."""

    def fade(self, mark: ArtMark) -> str:
        """The state in which paper is laid over the picture, by its name; "" for none."""


def paint_page(
    height: float, groups: Sequence[Group], subsets: Mapping[Face, Subset], art: Art
) -> PaintedPage:
    """Paint ``groups`` onto a page that is ``height`` millimetres high; pictures lie undermost."""
    painter = _Painter(height, subsets, art)
    marks = [mark for group in groups for mark in group.marks if _leaves_something(mark)]
    painter.lay_art([mark for mark in marks if isinstance(mark, ArtMark)])
    for run in _runs(marks):
        painter.paint_run(run)
    told = painter.numbers
    tagged = [_tagged(mark, told[id(mark)]) for mark in marks if id(mark) in told]
    return PaintedPage(bytes(painter.content), tuple(tagged), frozenset(painter.faces))


def _leaves_something(mark: Mark) -> bool:
    """Not so a line without a word, but for a cell that has to be there for its column."""
    return not isinstance(mark, TextRun) or bool(mark.text) or mark.tag in CELLS


def _tagged(head: Mark, numbers: Sequence[int]) -> Tagged:
    if isinstance(head, ArtMark | AltText):
        return Tagged(FIGURE, tuple(numbers), head.alt, head.window)
    return Tagged(_tag(head), tuple(numbers))


@dataclass(slots=True)
class _Run:
    """Marks that stand together: a paragraph's lines, a drawing's shapes, or artifacts.

    ``head`` is the mark that the element is made of, None for artifacts with their ``tag``.
    """

    tag: str
    head: Mark | None
    marks: list[Mark]


def _runs(marks: Sequence[Mark]) -> Iterator[_Run]:
    """Everything but pictures, in its order: what stands in a described drawing is its own."""
    drawings = [mark for mark in marks if isinstance(mark, AltText)]
    run: _Run | None = None
    for mark in marks:
        if isinstance(mark, ArtMark):
            if run:
                yield run
            run = None
            continue
        following = _begun(mark, drawings)
        if run and isinstance(mark, TextRun) and mark.joins and mark.tag == run.tag and _tag(mark):
            run.marks[-1] = _spaced(run.marks[-1])
            run.marks.append(mark)
        elif run and run.tag == following.tag and run.head is following.head:
            run.marks += following.marks
        else:
            if run:
                yield run
            run = following
    if run:
        yield run


def _begun(mark: Mark, drawings: Sequence[AltText]) -> _Run:
    tag = _tag(mark)
    if isinstance(mark, AltText):
        return _Run(FIGURE, mark, [])
    if tag not in _ARTIFACTS:
        return _Run(tag, mark, [mark])
    drawing = next((each for each in drawings if not tag and _holds(each.window, mark)), None)
    return _Run(FIGURE if drawing else tag, drawing, [mark])


def _tag(mark: Mark) -> str:
    return mark.tag if isinstance(mark, TextRun) else ""


def _holds(window: Box, mark: Mark) -> bool:
    x, y = _middle(mark)
    return window.x <= x <= window.right and window.y <= y <= window.bottom


def _middle(mark: Mark) -> Point:
    match mark:
        case Circle() | TextRun():
            return mark.x, mark.y
        case Rect():
            return mark.box.middle
        case Path():
            places = [point for segment in mark.segments for point in segment.points]
            xs, ys = zip(*places, strict=True)
            return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
        case _:
            return mark.window.middle


def _spaced(mark: Mark) -> Mark:
    """A line that goes on in the next one, with the space that a reader puts there."""
    if not isinstance(mark, TextRun) or mark.anchor != "start":
        return mark
    return replace(mark, text=f"{mark.text} ")


class _Painter:
    """One page while it is painted.

    ``numbers`` are the numbers of marked content by the ``id`` of the mark that it belongs to.
    """

    def __init__(self, height: float, subsets: Mapping[Face, Subset], art: Art) -> None:
        self.content = Content(height)
        self.faces: set[Face] = set()
        self.numbers: dict[int, list[int]] = {}
        self._count = 0
        self._subsets = subsets
        self._art = art

    def lay_art(self, marks: Sequence[ArtMark]) -> None:
        """Pictures, and then the paper over them."""
        for mark in marks:
            with self._marked(FIGURE if mark.alt else "", mark if mark.alt else None):
                self._picture(mark)
        for mark in marks:
            state = self._art.fade(mark)
            if state:
                with self._marked("", None), self.content.saved():
                    self.content.write(f"/{state} gs 1 g")
                    self.content.rectangle(faded(mark.window))
                    self.content.write("f")

    def _picture(self, mark: ArtMark) -> None:
        shown = self._art.shown(mark)
        if shown is None:
            return
        (name, upright), box = shown, mark.box
        with self.content.saved():
            self.content.rectangle(mark.window)
            self.content.write("W n")
            place = (box.width, 0.0, 0.0, -box.height, box.x, box.bottom)
            self.content.write(f"{numbers(place)} cm {numbers(upright, 6)} cm /{name} Do")

    def paint_run(self, run: _Run) -> None:
        if isinstance(run.head, TextRun) and not run.head.text:
            self.numbers[id(run.head)] = []
            return
        with self._marked(run.tag, run.head):
            for mark in run.marks:
                self._paint(mark)

    def _marked(self, tag: str, head: Mark | None) -> AbstractContextManager[None]:
        if head is None:
            return self.content.marked(_ARTIFACTS[tag])
        number, self._count = self._count, self._count + 1
        self.numbers.setdefault(id(head), []).append(number)
        return self.content.marked(f"/{tag} <</MCID {number}>> BDC")

    @singledispatchmethod
    def _paint(self, mark: Mark) -> None:
        raise TypeError(f"no way to paint {mark!r}")

    @_paint.register
    def _(self, mark: Circle) -> None:
        side = 2 * mark.radius
        box = Box(mark.x - mark.radius, mark.y - mark.radius, side, side)
        self.content.rounded(box, mark.radius)
        self.content.paint(mark.paint)

    @_paint.register
    def _(self, mark: Rect) -> None:
        if mark.corner:
            self.content.rounded(mark.box, mark.corner)
        else:
            self.content.rectangle(mark.box)
        self.content.paint(mark.paint)

    @_paint.register
    def _(self, mark: Path) -> None:
        for segment in mark.segments:
            match segment.step, segment.points:
                case "M", (point,):
                    self.content.move(point)
                case "L", (point,):
                    self.content.line(point)
                case "C", points:
                    self.content.curve(*points)
                case "Z", ():
                    self.content.close()
        self.content.paint(mark.paint)

    @_paint.register
    def _(self, mark: TextRun) -> None:
        share = {"start": 0.0, "middle": 0.5, "end": 1.0}[mark.anchor]
        at = (mark.x - share * width(mark.text, mark.face, mark.size), mark.y)
        subset = self._subsets[mark.face]
        self.faces.add(mark.face)
        self.content.fill_colour(mark.colour)
        self.content.text(at, mark.face, mark.size * POINT, subset.encoded(mark.text))
