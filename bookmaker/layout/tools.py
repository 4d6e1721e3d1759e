"""What a page gives beside its picture: numbers to tick off, how steep it is, a fact."""

from __future__ import annotations

from dataclasses import dataclass, replace

from bookmaker.model import BANDS, Band, Box, Frame, Item, Line
from bookmaker.typeset import LEADING, POINT, ascent, fit_size, width

STEP = 3.6
"""One step of the little climb, wide and high."""
CLIMB = 4 * STEP
LEAST_GAP = 1.6
"""Between two boxes with numbers, so that a tick stays in its own."""


@dataclass(frozen=True, slots=True)
class NumberRows:
    """Numbers in boxes, as evenly over rows as can be; measures in millimetres.

    ``box`` is the height of a box, ``size`` that of its number in points.
    """

    texts: tuple[str, ...]
    measure: float
    box: float = 10.0
    size: float = 20.0
    gap: float = 3.0

    @property
    def wide(self) -> float:
        """The width of a box: wide enough for the longest number."""
        return max([self.box, *(width(text, "strong", self.size) + 4 for text in self.texts)])

    @property
    def columns(self) -> int:
        fitting = max(1, int((self.measure + self.gap) // (self.wide + self.gap)))
        rows = -(-len(self.texts) // fitting)
        return -(-len(self.texts) // max(rows, 1))

    @property
    def rows(self) -> int:
        return -(-len(self.texts) // max(self.columns, 1))

    @property
    def height(self) -> float:
        return self.rows * (self.box + self.gap) - self.gap

    def closed_up(self) -> NumberRows:
        """The same, its boxes nearer each other where that saves a row."""
        close = replace(self, gap=LEAST_GAP)
        return close if close.rows < self.rows else self

    def at(self, start: float, y: float) -> tuple[Item, ...]:
        """The boxes from their top left down."""
        boxes: list[Item] = []
        lines: list[Item] = []
        for place, text in enumerate(self.texts):
            row, column = divmod(place, self.columns)
            left = start + column * (self.wide + self.gap)
            top = y + row * (self.box + self.gap)
            middle = top + self.box / 2 + ascent("strong", self.size) / 2
            boxes.append(Frame(Box(left, top, self.wide, self.box), "number-box", 1.5))
            x = left + self.wide / 2 - width(text, "strong", self.size) / 2
            lines.append(Line(x, middle, text, self.size, "strong", role="number", joins=place > 0))
        return (*boxes, *lines)


def climb(band: Band, x: float, bottom: float) -> tuple[Item, ...]:
    """One to four steps, each higher than the last: how steep the page is."""
    steps = BANDS.index(band) + 1
    return tuple(
        Frame(
            Box(x + i * STEP, bottom - (i + 1) * STEP * 0.7, STEP - 0.8, (i + 1) * STEP * 0.7),
            "step-on" if i < steps else "step-off",
        )
        for i in range(4)
    )


FACT_SIZES = (14.0, 13.0, 12.0)
SMALL_FACT_SIZES = (14.0, 13.0, 12.0, 11.0, 10.0, 9.0, 8.0)
BOARD_FACT_SIZES = (24.0, 22.0, 20.0, 18.0, 16.0, 14.0, 12.0, 10.0, 8.0)
FACT_GAP = 3.0
"""From what stands above a fact to the tops of its capitals."""
DESCENT = 0.28
"""How far letters hang below their line, in sizes of the type."""


@dataclass(frozen=True, slots=True)
class Told:
    """A fact set in ``lines`` of ``size`` points; no line where a page has none."""

    size: float
    lines: tuple[str, ...]

    @property
    def height(self) -> float:
        """Of all lines with the gap above them, in millimetres."""
        if not self.lines:
            return 0.0
        below = (len(self.lines) - 1) * LEADING + DESCENT
        return FACT_GAP + ascent("text", self.size) + below * self.size * POINT

    def at(self, x: float, y: float) -> tuple[Line, ...]:
        """The lines from their left end on, under what ends at ``y``."""
        base = y + FACT_GAP + ascent("text", self.size)
        step = self.size * POINT * LEADING
        return tuple(
            Line(x, base + place * step, line, self.size, joins=place > 0)
            for place, line in enumerate(self.lines)
        )


def told(fact: str, measure: float) -> Told:
    """A fact on one line where it is legible so, else on two."""
    alone = Told(*fit_size(fact, "text", FACT_SIZES, measure, 1))
    if len(alone.lines) <= 1:
        return alone
    return Told(*fit_size(fact, "text", SMALL_FACT_SIZES, measure, 2))


def told_on_board(fact: str, measure: float, room: float) -> Told:
    """A fact as large as a column of ``measure`` and the height ``room`` allow."""
    ways = (Told(*fit_size(fact, "text", (size,), measure, 99)) for size in BOARD_FACT_SIZES)
    last = Told(0.0, ())
    for last in ways:
        if last.height <= room:
            break
    return last
