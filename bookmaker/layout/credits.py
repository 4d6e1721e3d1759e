"""Credits: who made the pictures, and under which licence they may be used."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from bookmaker.layout.furniture import FOOT, contained, folio, head, row_height
from bookmaker.layout.setting import LaidOut, Setting
from bookmaker.model import Box, Credit, Credits, Face, Item, Line, OrderedBook, PlacedArt, Side
from bookmaker.typeset import Sheet, paragraph
from bookmaker.words import Words
from bookmaker.words.licences import licence_words

SIZE = 12.0
ARTIST_SIZE = 14.0
GROUP_GAP = 5.0
ABOVE_FOOT = 5.0


def share_credits(
    ordered: OrderedBook, sheet: Sheet, words: Words
) -> tuple[tuple[Credit, ...], ...]:
    """What stands on each side of the credits."""
    _, top, room = _opening(sheet, words)
    sides: list[list[Credit]] = [[]]
    y = top
    for credit in _groups(ordered, words):
        for part in _split(credit, sheet.area.width, room, words):
            _, below = _set(part, (0.0, y), sheet.area.width, words)
            if below > top + room and sides[-1]:
                sides.append([])
                _, below = _set(part, (0.0, top), sheet.area.width, words)
            sides[-1].append(part)
            y = below
    return tuple(tuple(side) for side in sides)


def lay_out_credits(side: Side, content: Credits, setting: Setting) -> LaidOut:
    """Pictures grouped by artist and licence, artists in the order of their first picture."""
    sheet, words = setting.sheet(side), setting.words
    opening, y, _ = _opening(sheet, words)
    items: list[Item] = [*opening]
    for credit in content.credits:
        lines, y = _set(credit, (sheet.area.x, y), sheet.area.width, words)
        items += lines
    return sheet, (*items, *_tailpiece(side, y, sheet, setting), folio(side, sheet))


def _tailpiece(side: Side, top: float, sheet: Sheet, setting: Setting) -> tuple[PlacedArt, ...]:
    """The last chapter's ornament once more, to end the children's book where it has room."""
    bound, area = setting.bound, sheet.area
    last = next(s for s in reversed(bound.sides) if isinstance(s.content, Credits))
    ornament = bound.ordered.chapters[-1].ornament
    picture = setting.pictures.get(ornament) if ornament else None
    if side is not last or picture is None or sheet.is_board:
        return ()
    frame = Box(area.x, top, area.width, area.bottom - FOOT - ABOVE_FOOT - top)
    placed = contained(picture, frame, align=(0.0, 1.0)) if frame.height > 0 else None
    if placed is None or placed.window.width < 0.99 * area.width:
        return ()
    return (replace(placed, ornament=True),)


def _opening(sheet: Sheet, words: Words) -> tuple[tuple[Line, ...], float, float]:
    """Title and what holds for all pictures; where the groups begin, and their room."""
    area = sheet.area
    title, y = head(sheet, words("credits.title"))
    said, below = paragraph(words("credits.changes"), (area.x, y + 3), area.width, SIZE)
    return (*title, *said), below + 2, area.bottom - FOOT - 4 - below - 2


def _groups(ordered: OrderedBook, words: Words) -> Iterator[Credit]:
    names: dict[tuple[str, str], list[str]] = {}
    for page in ordered.pages:
        if page.art and (page.artist or page.licence):
            names.setdefault((page.artist, page.licence), []).append(page.name)
    ornaments = any(chapter.ornament for chapter in ordered.chapters)
    if (ordered.has_own_cover or ornaments) and (ordered.artist or ordered.licence):
        what = "ornaments" if ordered.has_own_cover and ornaments else "chapters"
        what = what if ornaments else "cover"
        names.setdefault((ordered.artist, ordered.licence), []).append(words(f"credits.{what}"))
    for (artist, licence), found in names.items():
        yield Credit(artist, licence, tuple(found))


def _split(credit: Credit, measure: float, room: float, words: Words) -> Iterator[Credit]:
    """The group in parts of which each fits on one side."""
    _, below = _set(credit, (0.0, 0.0), measure, words)
    half = len(credit.names) // 2
    if below <= room or not half:
        yield credit
        return
    for names in (credit.names[:half], credit.names[half:]):
        yield from _split(replace(credit, names=names), measure, room, words)


def _set(
    credit: Credit, at: tuple[float, float], measure: float, words: Words
) -> tuple[list[Line], float]:
    """One group from its top left down; gives its lines and where the next may begin."""
    x, y = at
    lines: list[Line] = []
    parts: tuple[tuple[str, float, Face, str], ...] = (
        (credit.artist, ARTIST_SIZE, "strong", "heading"),
        (words("list.mark").join(credit.names), SIZE, "text", "body"),
        (licence_words(credit.licence), SIZE, "text", "quiet"),
    )
    for text, size, face, role in parts:
        base = y + row_height(size) * 0.8
        placed, below = paragraph(text, (x, base), measure, size, face, role)
        lines += placed
        y += below - base
    return lines, y + GROUP_GAP
