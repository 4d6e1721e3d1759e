"""Hint slips: a strip for each rung of a page's ladder, to be cut apart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from bookmaker.layout.furniture import FOOT, head
from bookmaker.layout.loose import NOTE_SIZE
from bookmaker.layout.moving import Move, moved
from bookmaker.layout.setting import PlacedPuzzle, Setting
from bookmaker.layout.sheet import Sheet
from bookmaker.layout.text import paragraph
from bookmaker.model import Box, Disc, Item, Line, PlacedSpot, Rule, Side, Slip, Slips
from bookmaker.type import ascent, fit_size
from bookmaker.words import Words

STRIP = 27.0
LEAST_WIDTH = 84.0
PAD = 2.5
TREE = 32.0
"""Width of the little tree on a slip."""
NAME_SIZES = (12.0, 11.0, 10.0, 9.0, 8.0, 7.0)
SAYING_SIZES = (14.0, 12.0, 11.0, 10.0)


def share_slips(slips: Sequence[Slip], sheet: Sheet, words: Words) -> tuple[tuple[Slip, ...], ...]:
    """What stands on each side of the slips."""
    _, top = _opening(sheet, words)
    rows = max(1, int((sheet.area.bottom - FOOT - top) // STRIP))
    count = rows * _columns(sheet)
    return tuple(tuple(slips[i : i + count]) for i in range(0, len(slips), count))


def lay_out_slips(side: Side, content: Slips, setting: Setting) -> tuple[Sheet, tuple[Item, ...]]:
    """Strips below each other, column by column, with lines to cut along."""
    sheet = setting.sheet(side)
    opening, top = _opening(sheet, setting.words)
    columns = _columns(sheet)
    wide = sheet.area.width / columns
    rows = -(-len(content.slips) // columns)
    items: list[Item] = [*opening]
    for place, slip in enumerate(content.slips):
        column, row = divmod(place, rows)
        box = Box(sheet.area.x + column * wide, top + row * STRIP, wide, STRIP)
        items += _slip(slip, box, setting)
    left, right, bottom = sheet.area.x, sheet.area.right, top + rows * STRIP
    items += [
        Rule((left, top + i * STRIP), (right, top + i * STRIP), "cut") for i in range(rows + 1)
    ]
    items += [
        Rule((left + i * wide, top), (left + i * wide, bottom), "cut") for i in range(1, columns)
    ]
    return sheet, tuple(items)


def _columns(sheet: Sheet) -> int:
    return max(1, int(sheet.area.width // LEAST_WIDTH))


def _opening(sheet: Sheet, words: Words) -> tuple[tuple[Item, ...], float]:
    area = sheet.area
    title, y = head(sheet, words("slips.title"))
    how, y = paragraph(words("slips.how"), (area.x, y + 3), area.width, NOTE_SIZE)
    care, y = paragraph(words("loose.care"), (area.x, y), area.width, NOTE_SIZE)
    return (*title, *how, *care), y


def _slip(slip: Slip, box: Box, setting: Setting) -> Iterator[Item]:
    words = setting.words
    page = slip.page.page
    inner = Box(box.x + PAD, box.y + PAD, box.width - 2 * PAD, box.height - 2 * PAD)
    tree = Box(inner.x, inner.y, TREE, inner.height)
    yield from _little_tree(setting.puzzles[page.id], tree, slip.spot)
    x = inner.x + TREE + 3
    measure = inner.right - x
    headed = words("slip.head", page=page.name, step=slip.step)
    size, lines = fit_size(headed, "strong", NAME_SIZES, measure, 2)
    placed, y = paragraph("\n".join(lines), (x, inner.y + ascent("strong", size)), measure, size)
    for line in placed:
        yield Line(line.x, line.y, line.text, size, "strong", "start", "heading", "H2", line.joins)
    size, _ = fit_size(saying(slip, words), "text", SAYING_SIZES, measure, 2)
    said, _ = paragraph(saying(slip, words), (x, y + 0.5), measure, size)
    yield from said


def saying(slip: Slip, words: Words) -> str:
    """The hint in words."""
    shown = [words.number(number.text) for number in slip.numbers]
    if slip.spot:
        return words("slip.number", number=shown[0])
    if len(shown) == 2:
        return words(f"slip.{slip.fact}", a=shown[0], b=shown[1])
    return words("slip.different")


def _little_tree(placed: PlacedPuzzle, frame: Box, marked: str) -> Iterator[Item]:
    """The page's tree without its picture, the ``marked`` spot dark."""
    spots = placed.tree.spots
    left = min(spot.x - spot.radius for spot in spots)
    top = min(spot.y - spot.radius for spot in spots)
    wide = max(spot.x + spot.radius for spot in spots) - left
    high = max(spot.y + spot.radius for spot in spots) - top
    scale = min(frame.width / wide, frame.height / high)
    dx = frame.x - left * scale + (frame.width - wide * scale) / 2
    dy = frame.y - top * scale + (frame.height - high * scale) / 2
    move = Move(dx, dy, scale)
    yield from moved(placed.tree.links, move)
    for spot in moved(spots, move):
        assert isinstance(spot, PlacedSpot)
        yield spot
        if spot.name == marked:
            yield Disc(spot.x, spot.y, spot.radius, "marked")
