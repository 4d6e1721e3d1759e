"""A creature of your own: an empty frame, and the rules in four lines."""

from __future__ import annotations

from bookmaker.layout.furniture import FOOT, PUPIL_SIZE, folio, head, label_width, to_write
from bookmaker.layout.setting import LaidOut, Setting
from bookmaker.model import Box, Frame, Item, Line, Own, Side
from bookmaker.typeset import paragraph

RULES = ("own.draw", "own.spots", "own.lines", "own.solve")
NUMBER = 7.0
"""Room for a rule's number."""


def lay_out_own(side: Side, content: Own, setting: Setting) -> LaidOut:
    """The rules, the frame to draw in, and a line for the creature's name."""
    sheet, words = setting.sheet(side), setting.words
    area = sheet.area
    title, y = head(sheet, words("own.title"))
    items: list[Item] = [*title]
    base = y + 4
    for place, key in enumerate(RULES, 1):
        items.append(Line(area.x, base, str(place), PUPIL_SIZE, "strong", "start", "heading"))
        lines, base = paragraph(
            words(key), (area.x + NUMBER, base), area.width - NUMBER, PUPIL_SIZE
        )
        items += lines
    label = words("own.name")
    foot = area.bottom - FOOT - 3
    items += to_write(label, (area.x, foot), min(110.0, area.width - label_width(label)))
    top = base - 1
    items.append(Frame(Box(area.x + 0.3, top, area.width - 0.6, foot - 12 - top), "own-frame", 4.0))
    return sheet, (*items, folio(side, sheet))
