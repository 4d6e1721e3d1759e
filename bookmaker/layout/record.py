"""Sides to tick: the record at the end of a book, and the first side of a handout."""

from __future__ import annotations

from bookmaker.layout.furniture import (
    FOOT,
    PUPIL_SIZE,
    folio,
    head,
    label_width,
    row_height,
    to_write,
)
from bookmaker.layout.gallery import Gallery, Hanging, Lead, Rooms, common_row, share_out
from bookmaker.layout.setting import LaidOut, Setting
from bookmaker.model import (
    CertifiedPage,
    Disc,
    Handout,
    Item,
    OrderedBook,
    OrderedChapter,
    Record,
    Side,
)
from bookmaker.typeset import Sheet, ascent, paragraph
from bookmaker.words import Words

RING = 3.6
"""Radius of a ring to tick."""
LEAD = 2 * RING + 3.0


def share_record(
    ordered: OrderedBook, sheet: Sheet, words: Words
) -> tuple[tuple[OrderedChapter, ...], ...]:
    """What stands on each side of the record."""
    rooms = _rooms(sheet, words("record.title"), words)
    return share_out(ordered, Gallery.of(sheet, ordered, rooms), rooms)


def lay_out_record(side: Side, content: Record, setting: Setting) -> LaidOut:
    """A mark to colour in, a ring to tick and a name for each page: the child's own record."""
    return _to_tick(side, content, setting.words("record.title"), setting)


def lay_out_handout(side: Side, content: Handout, setting: Setting) -> LaidOut:
    """The title of a part of the book over the record of its pages."""
    return _to_tick(side, content, content.title, setting)


def _to_tick(side: Side, content: Record | Handout, title: str, setting: Setting) -> LaidOut:
    sheet, words = setting.sheet(side), setting.words
    area = sheet.area
    rooms = _rooms(sheet, title, words)
    kin = (s.content for s in setting.bound.sides if isinstance(s.content, Record | Handout))
    sides = tuple(one.entries for one in kin)
    gallery = Gallery.hung(sheet, setting.bound.ordered, sides, rooms)
    row = common_row(sides, gallery, rooms)
    opening, top = _opening(sheet, title, words) if content.first else ((), area.y - 2)
    hanging = Hanging(gallery, row, _ring, LEAD, setting, marks=True, above=title)
    items, _ = hanging.hang(content.entries, area.x, top)
    return sheet, (*opening, *items, folio(side, sheet))


def _ring(page: CertifiedPage) -> Lead:
    def draw(x: float, base: float) -> tuple[Item, ...]:
        return (Disc(x + RING, base - ascent("text", PUPIL_SIZE) / 2, RING, "tick-ring"),)

    return draw


def _opening(sheet: Sheet, title: str, words: Words) -> tuple[tuple[Item, ...], float]:
    """Title, a line for a name, and what to do."""
    area = sheet.area
    titled, y = head(sheet, title)
    label = words("puzzle.name")
    base = y + 12
    name = to_write(label, (area.x, base), min(110.0, area.width - label_width(label)))
    told, below = paragraph(words("record.how"), (area.x, base + 11), area.width, PUPIL_SIZE)
    return (*titled, *name, *told), below - row_height(PUPIL_SIZE) + 3


def _rooms(sheet: Sheet, title: str, words: Words) -> Rooms:
    """The height that the first side has for chapters, and each other."""
    _, top = _opening(sheet, title, words)
    return Rooms(sheet.area.bottom - FOOT - top, sheet.area.height - FOOT + 2)
