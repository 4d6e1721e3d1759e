"""Contents: where each creature lives, with a small picture of it."""

from __future__ import annotations

from bookmaker.layout.furniture import FOOT, HEAD_GAP, PUPIL_SIZE, folio, head, row_height
from bookmaker.layout.gallery import Gallery, Hanging, Lead, Rooms, common_row, share_out
from bookmaker.layout.setting import LaidOut, Setting
from bookmaker.model import (
    Box,
    CertifiedPage,
    Contents,
    Credits,
    InternalLink,
    Item,
    Line,
    OrderedBook,
    OrderedChapter,
    Own,
    Puzzle,
    Record,
    Side,
)
from bookmaker.typeset import Sheet, ascent, width
from bookmaker.words import Words

ENTRY = "TOCI"
"""What an entry is for a screen reader."""
LEAD = 9.0
"""Room for a page's number before a name."""
REST = {"record.title": Record, "own.title": Own, "credits.title": Credits}
"""What else stands in the contents: its words and its kind of side."""
REST_HEIGHT = len(REST) * row_height(PUPIL_SIZE) + HEAD_GAP


def share_contents(
    ordered: OrderedBook, sheet: Sheet, words: Words
) -> tuple[tuple[OrderedChapter, ...], ...]:
    """What stands on each side of the contents."""
    rooms = _rooms(sheet, words)
    return share_out(ordered, Gallery.of(sheet, ordered, rooms), rooms)


def lay_out_contents(side: Side, content: Contents, setting: Setting) -> LaidOut:
    """Chapters with a small picture, the name and the side of each of their pages."""
    sheet = setting.sheet(side)
    area = sheet.area
    rooms = _rooms(sheet, setting.words)
    kin = (s.content for s in setting.bound.sides if isinstance(s.content, Contents))
    sides = tuple(one.entries for one in kin)
    gallery = Gallery.hung(sheet, setting.bound.ordered, sides, rooms)
    row = common_row(sides, gallery, rooms)
    title, top = head(sheet, setting.words("contents.title"))
    places = setting.bound.side_of(Puzzle)

    def lead(page: CertifiedPage) -> Lead:
        where = places[page.id]

        def draw(x: float, base: float) -> tuple[Item, ...]:
            number = Line(x, base, where.label, PUPIL_SIZE, "strong", "start", "heading", ENTRY)
            return (
                number,
                InternalLink(Box(x, base - row * 0.7, gallery.cell, row * 0.8), where.name),
            )

        return draw

    y = top if content.first else area.y
    hanging = Hanging(gallery, row, lead, LEAD, setting, tag=ENTRY)
    items, below = hanging.hang(content.entries, area.x, y - 2)
    shown = (*(title if content.first else ()), *items)
    rest = _rest(Box(area.x, below, area.width, 0), setting) if content.last else ()
    return sheet, (*shown, *rest, folio(side, sheet))


def _rooms(sheet: Sheet, words: Words) -> Rooms:
    """The height for chapters; the last side has room for the rest of the book."""
    area = sheet.area
    _, top = head(sheet, words("contents.title"))
    return Rooms(area.bottom - FOOT - top + 2, area.height - FOOT + 2, REST_HEIGHT)


def _rest(area: Box, setting: Setting) -> list[Item]:
    """The sides after the last chapter, a line each."""
    items: list[Item] = []
    base = area.y + 2 + ascent("strong", PUPIL_SIZE)
    for key, kind in REST.items():
        where = next((s for s in setting.bound.sides if isinstance(s.content, kind)), None)
        if where is None:
            continue
        text = setting.words(key)
        number = Line(area.x, base, where.label, PUPIL_SIZE, "strong", "start", "heading", ENTRY)
        title = Line(area.x + LEAD, base, text, PUPIL_SIZE, "text", tag=ENTRY, joins=True)
        items += (number, title)
        wide = LEAD + width(text, "text", PUPIL_SIZE)
        items.append(InternalLink(Box(area.x, base - 5, wide, 6.5), where.name))
        base += row_height(PUPIL_SIZE)
    return items
