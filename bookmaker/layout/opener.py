"""The side that opens a chapter: title, introduction, ornament, and who lives there."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from bookmaker.layout.furniture import FOOT, contained, fit_title, folio
from bookmaker.layout.setting import LaidOut, Setting
from bookmaker.model import Box, Chapter, Item, Line, Opener, OrderedChapter, PlacedArt, Rule, Side
from bookmaker.typeset import Sheet, ascent, heading, paragraph

SIZES = (56.0, 50.0, 44.0, 38.0, 33.0, 28.0, 24.0, 20.0, 17.0, 14.0)
TEXT_SIZES = (20.0, 18.0, 16.0, 14.0, 12.0, 11.0)
NARROW_TEXT_SIZES = TEXT_SIZES[2:]
MEASURE = 120.0
"""With 30 mm more, lines no longer than this in 20 points: some fifty letters."""
MOST_TEXT = 0.62
"""Where the introduction ends at the latest, as a part of the height."""
TEASERS = 3
TEASER_HEIGHT = 68.0
GAP = 10.0
BOARD_COLUMN = 0.42
"""The part of a board that the title and what is under it take; creatures stand beside it."""


def lay_out_opener(side: Side, content: Opener, setting: Setting) -> LaidOut:
    """The chapter's title and introduction over its ornament and its first creatures."""
    sheet = setting.sheet(side)
    area = sheet.area
    if sheet.is_board:
        column = replace(area, width=area.width * BOARD_COLUMN)
        told, free = _told(content.chapter, column, sheet)
        ornament = _ornament(content.chapter, free, setting)
        x = column.right + 2 * GAP
        beside = Box(x, area.y, area.right - x, free.bottom - area.y)
        items: tuple[Item, ...] = (*ornament, *_teasers(content.chapter, beside, setting))
        return sheet, (*told, *items, folio(side, sheet))
    told, free = _told(content.chapter, area, sheet)
    row = min(TEASER_HEIGHT, free.height * 0.45)
    high = Box(free.x, free.y, free.width, free.height - row - GAP)
    ornament = _ornament(content.chapter, high, setting)
    low = Box(free.x, free.bottom - row, free.width, row) if ornament else free
    least = TEASERS if ornament else 1
    items = (*ornament, *_teasers(content.chapter, low, setting, least))
    return sheet, (*told, *items, folio(side, sheet))


def _told(chapter: Chapter, area: Box, sheet: Sheet) -> tuple[tuple[Line, ...], Box]:
    """The chapter's title and introduction, and the room under them."""
    size, lines = fit_title(chapter.title, SIZES, area.width)
    high = area.height * (0.1 if sheet.is_board else 0.16)
    title, below = heading(lines, (area.x, area.y + high + ascent("title", size)), size)
    text, y = _introduction(chapter.introduction, below + 8, area, sheet.is_narrow)
    return (*title, *text), Box(area.x, y, area.width, area.bottom - FOOT - 5 - y)


def _ornament(chapter: Chapter, frame: Box, setting: Setting) -> tuple[PlacedArt, ...]:
    picture = setting.pictures.get(chapter.ornament) if chapter.ornament else None
    if not picture:
        return ()
    return (replace(contained(picture, frame, align=(0.0, 0.75)), ornament=True),)


def _introduction(text: str, top: float, area: Box, narrow: bool) -> tuple[tuple[Line, ...], float]:
    """The chapter's introduction from ``top`` down, smaller where there is much of it."""
    for size in NARROW_TEXT_SIZES if narrow else TEXT_SIZES:
        start = (area.x, top + ascent("text", size))
        measure = min(area.width, MEASURE * size / 20 + 30)
        lines, y = paragraph(text, start, measure, size)
        if y < area.y + area.height * MOST_TEXT:
            break
    return lines, y


def _teasers(
    chapter: OrderedChapter, frame: Box, setting: Setting, least: int = TEASERS
) -> tuple[Item, ...]:
    """The chapter's first creatures side by side, standing on the foot of ``frame``.

    The width is shared out among those that there are, or among ``least`` if they are fewer.
    """
    found = [(page.name, setting.picture_of(page)) for page in chapter.pages]
    shown = [(name, picture) for name, picture in found if picture][:TEASERS]
    if not shown or frame.height < 12:
        return ()
    places = max(len(shown), least)
    wide = (frame.width - (places - 1) * GAP) / places
    art: list[PlacedArt] = []
    x = frame.x
    for name, picture in shown:
        box = Box(x, frame.y, wide, frame.height)
        placed = contained(picture, box, name, True, (0.0, 1.0))
        art.append(placed)
        x = placed.window.right + GAP
    joints = pairwise(art)
    middle = frame.bottom - min(placed.window.height for placed in art) / 2
    strokes = [
        Rule((one.window.right, middle), (other.window.x, middle), "link-stroke")
        for one, other in joints
    ]
    return (*strokes, *art)
