"""The first side of the teacher's section: how to mark, and the ramp of the whole book."""

from __future__ import annotations

from collections.abc import Iterator

from bookmaker.layout.furniture import folio
from bookmaker.layout.key.ramp import chapters_by_number, ramp
from bookmaker.layout.key.saying import said, short
from bookmaker.layout.key.setting import FOOT, Set, columns, heading, text, title
from bookmaker.layout.setting import LaidOut, Setting
from bookmaker.model import Box, Guide, GuidePart, Item, MarkingNotes, Side
from bookmaker.typeset import Sheet

PARAGRAPH_GAP = 3.0
PART_GAP = 6.0
MOST_LEGEND = 0.2
NO_BREAK = "\N{NO-BREAK SPACE}"


def guide_sides(sheet: Sheet) -> tuple[tuple[GuidePart, ...], ...]:
    """Both parts on one side, or, where paper is small, each on its own."""
    if sheet.is_narrow or sheet.is_board:
        return (("marking",), ("ramp",))
    return (("marking", "ramp"),)


def lay_out_guide(side: Side, content: Guide, setting: Setting) -> LaidOut:
    """How to mark in two columns, and under it the ramp."""
    sheet, words = setting.sheet(side), setting.words
    area = sheet.area
    items, y = title(sheet, words("key.for"))
    if "marking" in content.parts:
        told, y = _marking(content.notes, Box(area.x, y, area.width, 0.0), setting)
        items = (*items, *told)
    if "ramp" in content.parts:
        room = Box(area.x, y, area.width, area.bottom - FOOT - y)
        items = (*items, *_ramp(room, setting))
    return sheet, (*items, folio(side, sheet))


def _marking(notes: MarkingNotes, box: Box, setting: Setting) -> Set:
    head, top = heading(setting.words("marking.title"), box.x, box.y, box.width)
    told = [(said(a, setting.words), said(b, setting.words)) for a, b in notes.paragraphs]
    count = 1 if box.width < 130 else 2
    places = columns(Box(box.x, top, box.width, 0.0), count)
    heights = [_paragraph(each, (0.0, 0.0), places[0].width)[1] for each in told]
    half = sum(heights) / count
    items: list[Item] = [*head]
    column, y, lowest = 0, top, top
    for each, high in zip(told, heights, strict=True):
        if y > top and y - top + high * 0.5 > half and column + 1 < count:
            column, y = column + 1, top
        placed, y = _paragraph(each, (places[column].x, y), places[column].width)
        items += placed
        lowest = max(lowest, y)
    return tuple(items), lowest + PART_GAP - PARAGRAPH_GAP


def _paragraph(told: tuple[str, str], at: tuple[float, float], measure: float) -> Set:
    """A strong first line and what it says."""
    head, y = text(told[0], *at, measure, "strong")
    body, y = text(told[1], at[0], y, measure)
    return (*head, *body), y + PARAGRAPH_GAP


def _legend(room: Box, setting: Setting) -> tuple[str, ...]:
    """The chapters' titles by their numbers, where the plot has no room for them."""
    chapters = setting.bound.ordered.chapters
    if not chapters_by_number(room.width, setting):
        return ()
    told = (f"{place}{NO_BREAK}{short(chapter.title)}" for place, chapter in enumerate(chapters, 1))
    legend = setting.words("list.apart").join(told)
    _, end = text(legend, 0.0, 0.0, room.width)
    return (legend,) if end <= room.height * MOST_LEGEND else ()


def _ramp(room: Box, setting: Setting) -> Iterator[Item]:
    words = setting.words
    head, y = heading(words("ramp.title"), room.x, room.y, room.width)
    yield from head
    optional = any(chapter.optional for chapter in setting.bound.ordered.chapters)
    told = words("ramp.how") + (f" {words('ramp.optional')}" if optional else "")
    for each in (told, words("ramp.work"), *_legend(room, setting)):
        lines, y = text(each, room.x, y, room.width)
        yield from lines
        y += 1.5
    yield from ramp(Box(room.x, y + 1.0, room.width, room.bottom - y - 1.0), setting)
