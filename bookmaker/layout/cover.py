"""The cover: title, picture, and a line for whoever the book belongs to."""

from __future__ import annotations

from dataclasses import replace

from bookmaker.layout.furniture import contained, filling, fit_title, label_width, to_write
from bookmaker.layout.puzzle import BOARD_GAP, board_frame
from bookmaker.layout.setting import LaidOut, Setting
from bookmaker.model import Box, Cover, Item, Line, PlacedArt, Side
from bookmaker.typeset import Move, ascent, fit_size, heading, moved
from bookmaker.words import Words

SIZES = (64.0, 56.0, 50.0, 44.0, 38.0, 33.0, 28.0, 24.0, 20.0, 17.0, 14.0)
NAME_SHARE = 0.62
LEAST_FOOT = 0.75
"""How much of the width the lines to write on take at least."""
SCHOOL_SIZES = (20.0, 18.0, 16.0, 14.0, 12.0, 10.0)


def lay_out_cover(side: Side, content: Cover, setting: Setting) -> LaidOut:
    """The book's title over its cover picture, or over its first page's picture."""
    sheet = setting.sheet(side)
    area = sheet.area
    book = setting.bound.ordered
    if sheet.is_board:
        return sheet, _board(area, setting)
    size, lines = fit_title(book.title, SIZES, area.width)
    title, below = heading(lines, (area.x, area.y + 3 + ascent("title", size)), size)
    _, top_of_foot = _foot(area, book.school, setting)
    art = _art(Box(area.x, below + 9, area.width, top_of_foot - 8 - below - 9), setting)
    # What stands under a narrow picture ends where it ends.
    widest = max((each.window.right - area.x for each in art), default=area.width)
    foot, _ = _foot(replace(area, width=max(widest, area.width * LEAST_FOOT)), book.school, setting)
    return sheet, (*title, *art, *foot)


def _board(area: Box, setting: Setting) -> tuple[Item, ...]:
    """On a board: the title beside the picture, which stands where those of the pages do."""
    title = setting.bound.ordered.title
    frame = board_frame(area)
    art = _art(frame, setting)
    spare = min((frame.right - each.window.right for each in art), default=0.0)
    left = min((each.window.x + spare / 2 for each in art), default=frame.right)
    size, lines = fit_size(title, "title", SIZES, left - BOARD_GAP - area.x, 4)
    top = area.y + area.height * 0.3 + ascent("title", size)
    placed, _ = heading(lines, (area.x, top), size)
    return (*placed, *moved(art, Move(spare / 2, 0.0)))


def _art(frame: Box, setting: Setting) -> tuple[PlacedArt, ...]:
    """The book's own cover picture, which may lose a little sky, or a whole creature: the one of a
    page that the book names, else the first."""
    book = setting.bound.ordered
    own = setting.pictures.get(book.cover) if book.cover else None
    if own and setting.bound.ordered.has_own_cover:
        return (filling(own, frame, book.title),)
    if own:
        return (contained(own, frame, book.title, align=(0.0, 0.0)),)
    pictures = (setting.picture_of(page) for page in setting.bound.ordered.pages)
    first = next((picture for picture in pictures if picture), None)
    return (contained(first, frame, book.title, align=(0.0, 0.4)),) if first else ()


def _whose(area: Box, base: float, school: str, words: Words) -> list[Item]:
    """Lines for the name and, where the book is nobody's yet, for the class."""
    label, group = words("puzzle.name"), words("cover.class")
    share = area.width if school else area.width * NAME_SHARE
    items = [*to_write(label, (area.x, base), share - label_width(label))]
    if not school:
        start = area.x + share + 6
        items += to_write(group, (start, base), area.right - start - label_width(group))
    return items


def _foot(area: Box, school: str, setting: Setting) -> tuple[tuple[Item, ...], float]:
    """How many creatures there are, the class, and a line for a name; and where they begin."""
    words = setting.words
    base = area.bottom - 3
    items: list[Item] = _whose(area, base, school, words)
    y = base - 14
    size, lines = fit_size(school, "strong", SCHOOL_SIZES, area.width, 1)
    for text in reversed(lines):
        items.insert(0, Line(area.x, y, text, size, "strong", "start", "body"))
        y -= size * 0.45
    count = words("cover.puzzles", len(setting.bound.ordered.pages))
    items.insert(0, Line(area.x, y, count, 16.0, "text", "start", "quiet"))
    return tuple(items), y - ascent("text", 16.0)
