"""A page for those at home: how it works, that many answers are right, how to help."""

from __future__ import annotations

from bookmaker.layout.furniture import head, row_height
from bookmaker.layout.howto import Worked
from bookmaker.layout.setting import LaidOut, Setting
from bookmaker.layout.snail import HEIGHT, WIDTH
from bookmaker.model import Family, Item, Line, Side
from bookmaker.typeset import ascent, paragraph

SIZE, NARROW_SIZE = 14.0, 12.0
HEAD_SIZE = 16.0
SECTIONS = ("how", "many", "help", "stuck")
GAP = 8.0
APART = 5.0
"""Between sections, where there is room for it: on large paper."""
ABOVE = 2.5
"""Air over the example: its arrow rises higher than its picture."""


def lay_out_family(side: Side, content: Family, setting: Setting) -> LaidOut:
    """Short sections in plain words, and the example before and after its swap."""
    sheet, words = setting.sheet(side), setting.words
    area = sheet.area
    size = NARROW_SIZE if sheet.is_narrow else SIZE
    title, y = head(sheet, words("family.title"))
    items: list[Item] = [*title]
    for section in SECTIONS:
        base = y + ascent("strong", HEAD_SIZE) + 2
        headed = words(f"family.{section}.head")
        items.append(Line(area.x, base, headed, HEAD_SIZE, "strong", "start", "heading", "H2"))
        start = (area.x, base + row_height(size) * 1.2)
        lines, below = paragraph(words(f"family.{section}"), start, area.width, size)
        items += lines
        y = below - row_height(size) * 0.5 + (0.0 if sheet.is_narrow else APART)
        if section == "how":
            y += ABOVE - (0.0 if sheet.is_narrow else APART)
            wide = (area.width - GAP) / 2
            worked = Worked(content.example, words)
            for place, step in enumerate((3, 4)):
                x = area.x + place * (wide + GAP)
                items += worked.picture_at(step, (x, y), wide / WIDTH)
            y += wide / WIDTH * HEIGHT + 3 + (0.0 if sheet.is_narrow else APART)
    return sheet, tuple(items)
