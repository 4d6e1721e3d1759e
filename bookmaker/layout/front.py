"""Cover, contents and chapter openers."""

from __future__ import annotations

from bookmaker.layout.setting import Setting
from bookmaker.layout.sheet import Sheet
from bookmaker.layout.text import heading, paragraph
from bookmaker.model import (
    Blank,
    Box,
    CertifiedPage,
    Contents,
    Cover,
    Item,
    Jump,
    Line,
    Opener,
    Picture,
    PlacedArt,
    Puzzle,
    Side,
)
from bookmaker.type import POINT, ascent, fit_size, width

COVER_SIZES = (60.0, 52.0, 46.0, 40.0, 34.0, 28.0, 24.0, 20.0)
HEAD_SIZES = (34.0, 30.0, 26.0, 22.0, 18.0)
PUPIL_SIZE = 16.0
SMALL_SIZE = 13.0
COLUMNS = 3

Laid = tuple[Sheet, tuple[Item, ...]]


def lay_out_cover(side: Side, content: Cover, setting: Setting) -> Laid:
    """The book's title over its cover picture, or over its first page's picture."""
    sheet = Sheet(setting.paper, side.recto)
    area = sheet.area
    book = setting.bound.ordered.book
    middle = area.x + area.width / 2
    size, lines = fit_size(book.title, "title", COVER_SIZES, area.width, 3)
    title, below = heading(lines, (middle, area.y + 10 + ascent("title", size)), size, "middle")
    count = setting.words("cover.puzzles", len(setting.bound.ordered.pages))
    base = area.bottom - 4
    foot: list[Line] = [Line(middle, base, count, PUPIL_SIZE, "text", "middle", "quiet")]
    if book.school:
        foot.append(Line(middle, base - 10, book.school, 20, "strong", "middle", "body"))
    frame = Box(area.x, below + 10, area.width, base - 22 - below - 10)
    picture = setting.pictures.get(book.cover) if book.cover else None
    picture = picture or _first_picture(setting)
    art = (contained(picture, frame, alt=book.title),) if picture else ()
    return sheet, (*art, *title, *foot)


def _first_picture(setting: Setting) -> Picture | None:
    pictures = (setting.picture_of(page.page) for page in setting.bound.ordered.pages)
    return next((picture for picture in pictures if picture), None)


def contained(picture: Picture, frame: Box, alt: str = "", small: bool = False) -> PlacedArt:
    """The trimmed picture as large as ``frame`` allows, in its middle."""
    trim = picture.trim
    wide, high = picture.width * trim.width, picture.height * trim.height
    scale = min(frame.width / wide, frame.height / high)
    window = Box(
        frame.x + (frame.width - wide * scale) / 2,
        frame.y + (frame.height - high * scale) / 2,
        wide * scale,
        high * scale,
    )
    box = Box(
        window.x - trim.x * picture.width * scale,
        window.y - trim.y * picture.height * scale,
        picture.width * scale,
        picture.height * scale,
    )
    return PlacedArt(picture.digest, box, window, alt, small)


def lay_out_contents(side: Side, content: Contents, setting: Setting) -> Laid:
    """Chapters with a small picture, the name and the side of each of their pages."""
    sheet = Sheet(setting.paper, side.recto)
    area = sheet.area
    size, lines = fit_size(setting.words("contents.title"), "title", HEAD_SIZES, area.width, 1)
    top = area.y + 2 + ascent("title", size)
    title, y = heading(lines, (area.x, top), size)
    rows = sum(-(-len(entry.pages) // COLUMNS) for entry in content.entries)
    heads = 11.0 * len(content.entries)
    high = min(62.0, (area.bottom - 8 - y - heads) / max(rows, 1))
    items: list[Item] = []
    for entry in content.entries:
        y += 11.0
        items.append(
            Line(area.x, y, entry.chapter.title, PUPIL_SIZE, "strong", "start", "heading", "H2")
        )
        for place, page in enumerate(entry.pages):
            row, column = divmod(place, COLUMNS)
            wide = area.width / COLUMNS
            cell = Box(area.x + column * wide, y + 2 + row * high, wide, high)
            items += _entry(page, cell, setting)
        y += -(-len(entry.pages) // COLUMNS) * high
    art = [item for item in items if isinstance(item, PlacedArt)]
    rest = [item for item in items if not isinstance(item, PlacedArt)]
    return sheet, (*art, *title, *rest)


def _entry(page: CertifiedPage, cell: Box, setting: Setting) -> list[Item]:
    where = setting.bound.side_of(Puzzle)[page.page.id]
    caption = 6.5
    frame = Box(cell.x + 2, cell.y + 1, cell.width - 4, cell.height - caption - 4)
    picture = setting.picture_of(page.page)
    number_width = width(where.label, "strong", SMALL_SIZE) + 2
    size, lines = fit_size(
        page.page.name, "text", (SMALL_SIZE, 11, 9, 8), frame.width - number_width, 1
    )
    base = cell.bottom - 4
    items: list[Item] = [contained(picture, frame, page.page.name, True)] if picture else []
    items.append(Line(frame.x, base, where.label, SMALL_SIZE, "strong", "start", "heading"))
    items += [
        Line(
            frame.x + number_width,
            base + place * size * POINT,
            text,
            size,
            "text",
            "start",
            "body",
            "P",
            True,
        )
        for place, text in enumerate(lines)
    ]
    items.append(Jump(cell, where.name))
    return items


def lay_out_opener(side: Side, content: Opener, setting: Setting) -> Laid:
    """The chapter's title and introduction over its ornament."""
    sheet = Sheet(setting.paper, side.recto)
    area = sheet.area
    chapter = content.chapter.chapter
    size, lines = fit_size(chapter.title, "title", COVER_SIZES, area.width, 3)
    title, below = heading(lines, (area.x, area.y + area.height * 0.24), size)
    text, _ = paragraph(
        chapter.introduction, (area.x, below + 16), min(area.width, 150), PUPIL_SIZE
    )
    picture = setting.pictures.get(chapter.ornament) if chapter.ornament else None
    ornament: tuple[Item, ...] = ()
    if picture:
        bottom = text[-1].y if text else below
        frame = Box(area.x, bottom + 14, area.width, area.bottom - 14 - bottom - 14)
        ornament = (contained(picture, frame),)
    return sheet, (*ornament, *title, *text)


def lay_out_blank(side: Side, content: Blank, setting: Setting) -> Laid:
    return Sheet(setting.paper, side.recto), ()
