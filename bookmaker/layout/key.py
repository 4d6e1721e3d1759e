"""The key: each page small, solved, its spots lettered, with what the certificate says of it."""

from __future__ import annotations

from collections.abc import Iterator

from bookmaker.layout.moving import Move, moved
from bookmaker.layout.puzzle import written_in_spot
from bookmaker.layout.setting import PlacedPuzzle, Setting
from bookmaker.layout.sheet import Sheet
from bookmaker.model import (
    Anchor,
    Answers,
    Box,
    CertifiedPage,
    Disc,
    Item,
    Jump,
    Line,
    PlacedArt,
    PlacedSpot,
    PlacedTag,
    Puzzle,
    Side,
)
from bookmaker.type import POINT, ascent, fit_size, width
from bookmaker.words import Words

TEACHER_SIZE = 11.0
NAME_SIZES = (16.0, 14.0, 12.0, 11.0)
LETTER_SIZE = 11.0
GUTTER = 8.0
TEXT_HEIGHT = 22.0


def lay_out_answers(
    side: Side, content: Answers, setting: Setting
) -> tuple[Sheet, tuple[Item, ...]]:
    """Up to four answers, two beside each other, on one side."""
    sheet = Sheet(setting.paper, side.recto)
    area = sheet.area
    heading = setting.words("key.title")
    head = Line(area.x, area.y + ascent("title", 20), heading, 20, "title", "start", "title", "H1")
    top = area.y + 14
    wide = (area.width - GUTTER) / 2
    high = (area.bottom - 8 - top - GUTTER) / 2
    items: list[Item] = []
    for place, page in enumerate(content.pages):
        row, column = divmod(place, 2)
        cell = Box(area.x + column * (wide + GUTTER), top + row * (high + GUTTER), wide, high)
        items += _answer(page, cell, setting)
    art = [item for item in items if isinstance(item, PlacedArt)]
    rest = [item for item in items if not isinstance(item, PlacedArt)]
    outer = area.right if side.recto else area.x
    anchor: Anchor = "end" if side.recto else "start"
    folio = Line(outer, area.bottom - 0.5, side.label, 11, "strong", anchor, "quiet", "")
    return sheet, (*art, head, *rest, folio)


def _answer(page: CertifiedPage, cell: Box, setting: Setting) -> Iterator[Item]:
    words = setting.words
    told = page.page
    where = setting.bound.side_of(Puzzle).get(told.id)
    label = where.label if where else ""
    number_width = width(label, "strong", TEACHER_SIZE) + 3 if label else 0
    size, lines = fit_size(told.name, "strong", NAME_SIZES, cell.width - number_width, 2)
    base = cell.y + ascent("strong", size)
    for place, text in enumerate(lines):
        y = base + place * size * POINT * 1.2
        yield Line(cell.x, y, text, size, "strong", "start", "heading", "H2", place > 0)
    if where:
        yield Line(cell.right, base, label, TEACHER_SIZE, "strong", "end", "quiet")
        yield Jump(Box(cell.x, cell.y, cell.width, size * POINT * 1.2), where.name)
    top = base + (len(lines) - 1) * size * POINT * 1.2 + 3
    frame = Box(cell.x, top, cell.width, cell.bottom - top - TEXT_HEIGHT)
    yield from solved_picture(page, setting.puzzles[told.id], frame, words)
    yield Line(
        cell.x,
        cell.bottom - TEXT_HEIGHT + 6,
        _count(page, words),
        TEACHER_SIZE,
        "text",
        "start",
        "body",
    )


def _count(page: CertifiedPage, words: Words) -> str:
    solutions = page.certificate.solutions
    if solutions is None:
        return words("key.solutions-many")
    return words("key.solutions", solutions)


def solved_picture(
    page: CertifiedPage, placed: PlacedPuzzle, frame: Box, words: Words
) -> Iterator[Item]:
    """The page's picture, spots and links made small, with the certificate's solution in them."""
    window = placed.art.window if placed.art else placed.frame
    scale = min(frame.width / window.width, frame.height / window.height)
    dx = frame.x + (frame.width - window.width * scale) / 2 - window.x * scale
    move = Move(dx, frame.y - window.y * scale, scale)
    if placed.art:
        yield from moved((placed.art,), move)
    tree = placed.tree
    yield from moved((*tree.links, *tree.tags, *tree.spots), move)
    for tag in moved(tree.tags, move):
        assert isinstance(tag, PlacedTag)
        yield _written_in_tag(tag, page.differences[tag.link].text, words)
    for spot in moved(tree.spots, move):
        assert isinstance(spot, PlacedSpot)
        yield written_in_spot(spot, page.solution[spot.name].text, "solved", words)
        yield from _letter(spot, page.letters[spot.name])


def _written_in_tag(tag: PlacedTag, text: str, words: Words) -> Line:
    shown = words.number(text)
    size = tag.box.height * 0.72 / POINT
    size = min(size, size * tag.box.width * 0.85 / max(width(shown, "text", size), 0.01))
    middle = tag.box.y + tag.box.height / 2 + ascent("text", size) / 2
    return Line(tag.box.x + tag.box.width / 2, middle, shown, size, "text", "middle", "difference")


def _letter(spot: PlacedSpot, letter: str) -> Iterator[Item]:

    x, y = spot.x - spot.radius * 0.8, spot.y - spot.radius * 0.8
    yield Disc(x, y, 2.3, "letter-disc")
    size = 8.0 if len(letter) == 1 else 6.0
    yield Line(x, y + ascent("strong", size) / 2, letter, size, "strong", "middle", "letter", "")
