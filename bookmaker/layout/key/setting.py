"""Type for teachers: headings, paragraphs and rows behind hanging labels, in one calm size."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from bookmaker.model import Anchor, Box, Face, Item, Line, Rule
from bookmaker.typeset import POINT, Sheet, ascent, fit_size, width, wrap

SIZE: Final = 11.0
"""Teachers' text, in points."""
STEP: Final = SIZE * POINT * 1.26
"""Distance of its baselines."""
RISE: Final = ascent("text", SIZE)
TITLE_SIZES: Final = (20.0, 18.0, 16.0, 14.0)
HEAD_SIZES: Final = (14.0, 13.0, 12.0, 11.0)
GUTTER: Final = 9.0
FOOT: Final = 8.0
ENTRY_GAP: Final = 1.6
LABEL_GAP: Final = 3.0
COLUMN_GAP, LEAST_COLUMN_GAP = 2.8, 1.5

Set = tuple[tuple[Item, ...], float]
"""Items, and where the next thing below them may begin (the top of its capitals)."""


@dataclass(frozen=True, slots=True)
class Entry:
    """Texts behind a hanging label.

    ``table`` has rows of short texts under a first row that heads them, each row with a label.
    """

    label: str
    texts: tuple[str, ...] = ()
    table: tuple[tuple[str, tuple[str, ...]], ...] = ()


def title(sheet: Sheet, text: str) -> Set:
    """A side's title, with a rule under it."""
    area = sheet.area
    size, lines = fit_size(text, "title", TITLE_SIZES, area.width, 2)
    items: list[Item] = []
    base = area.y + 1.0 + ascent("title", size)
    for place, line in enumerate(lines):
        y = base + place * size * POINT * 1.15
        items.append(Line(area.x, y, line, size, "title", "start", "title", "H1", place > 0))
    below = base + (len(lines) - 1) * size * POINT * 1.15 + 2.6
    items.append(Rule((area.x, below), (area.right, below), "rule"))
    return tuple(items), below + 5.0


def columns(area: Box, count: int) -> tuple[Box, ...]:
    """``area`` parted into columns of one width."""
    wide = (area.width - GUTTER * (count - 1)) / count
    return tuple(
        Box(area.x + place * (wide + GUTTER), area.y, wide, area.height) for place in range(count)
    )


def heading(text: str, x: float, top: float, measure: float) -> Set:
    """A heading inside a side."""
    size, lines = fit_size(text, "strong", HEAD_SIZES, measure, 2)
    step = size * POINT * 1.2
    base = top + ascent("strong", size)
    items = tuple(
        Line(x, base + place * step, line, size, "strong", "start", "heading", "H2", place > 0)
        for place, line in enumerate(lines)
    )
    return items, base + (len(lines) - 1) * step + 3.2


def text(told: str, x: float, top: float, measure: float, face: Face = "text") -> Set:
    """A paragraph; what is in italics is quieter."""
    role = "quiet" if face == "italic" else "body"
    lines = wrap(told, face, SIZE, measure)
    items = tuple(
        Line(x, top + RISE + place * STEP, line, SIZE, face, "start", role, "P", place > 0)
        for place, line in enumerate(lines)
    )
    return items, top + len(lines) * STEP


def spaced(line: Line) -> Line:
    """A cell that goes on from the one before it in its row, parted from it by a space.

    The space stands before the text and moves nothing: it is for those who hear the row, or
    copy it.
    """
    x = line.x
    if line.anchor == "middle":
        x += width(line.text, line.face, line.size) / 2
    elif line.anchor == "start":
        x -= width(" ", line.face, line.size)
    anchor: Anchor = "start" if line.anchor == "start" else "end"
    return replace(line, x=x, text=f" {line.text}", anchor=anchor, joins=True)


def label_width(entries: Iterable[Entry]) -> float:
    """How far the texts of ``entries`` are set in behind their labels."""
    labels = [label for entry in entries for label in _labels(entry)]
    return max((width(label, "strong", SIZE) for label in labels), default=0.0) + LABEL_GAP


def _labels(entry: Entry) -> tuple[str, ...]:
    return (entry.label, *(label for label, _ in entry.table))


def entry(each: Entry, x: float, top: float, measure: float, indent: float) -> Set:
    """An entry, its texts set in by ``indent``."""
    if each.table:
        return _table(each.table, x, top, measure, indent)
    items: list[Item] = [_label(each.label, x, top)]
    y = top
    for place, told in enumerate(each.texts):
        lines, y = text(told, x + indent, y, measure - indent)
        first, *more = lines
        assert isinstance(first, Line)
        items += (spaced(first) if place == 0 else first, *more)
    return tuple(items), y + ENTRY_GAP


def _label(told: str, x: float, top: float) -> Line:
    return Line(x, top + RISE, told, SIZE, "strong", "start", "heading")


def _table(
    rows: Sequence[tuple[str, tuple[str, ...]]], x: float, top: float, measure: float, indent: float
) -> Set:
    """Rows of texts in columns as wide as the longest, broken where the measure ends."""
    longest = max(width(cell, "strong", SIZE) for _, cells in rows for cell in cells)
    cells_of_row = len(rows[0][1])
    gap = (measure - indent - cells_of_row * longest) / max(cells_of_row - 1, 1)
    wide = longest + (min(gap, COLUMN_GAP) if gap >= LEAST_COLUMN_GAP else COLUMN_GAP)
    count = max(1, int((measure - indent - longest + 0.01) // wide) + 1)
    items: list[Item] = []
    for first in range(0, cells_of_row, count):
        for place, (label, cells) in enumerate(rows):
            heads, tags = place == 0, ("THead", "TH") if place == 0 else ("TR", "TD")
            items.append(replace(_label(label, x, top), tag=tags[0]))
            for column, cell in enumerate(cells[first : first + count]):
                middle = x + indent + column * wide + longest / 2
                face: Face = "strong" if heads else "text"
                at = (middle, top + RISE)
                line = Line(*at, cell, SIZE, face, "middle", "quiet" if heads else "body")
                line = spaced(line) if label or column else line
                items.append(replace(line, tag=tags[1], joins=False))
            top += STEP
    return tuple(items), top + ENTRY_GAP
