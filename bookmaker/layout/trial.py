"""Trial sheets: a page's tree, blank, as often as it can be written in, over lines to work on."""

from __future__ import annotations

from collections.abc import Iterator

from bookmaker.layout.furniture import FOOT, PUPIL_SIZE, fit_title, label_width, to_write
from bookmaker.layout.moving import Move, moved
from bookmaker.layout.puzzle import written_in_spot
from bookmaker.layout.setting import PlacedPuzzle, Setting
from bookmaker.layout.sheet import Sheet
from bookmaker.layout.text import heading
from bookmaker.layout.tools import NumberRows
from bookmaker.model import Box, CertifiedPage, Item, Line, PlacedSpot, Rule, Side, Trial
from bookmaker.type import POINT, ascent
from bookmaker.words import Words

SIZES = (26.0, 23.0, 20.0, 18.0, 16.0, 14.0, 12.0, 10.0)
WANTED = 4
"""Trees for a page."""
GUTTER = 8.0
BLANK = 10.0
"""Length of a line for one number."""
PAD = 3.0
LEAST_SPOT = 11.0
"""Least diameter of a spot to write two digits in; common practice, no source."""
LEAST_TAG = (9.0, 7.5)
"""Least width and height of a tag."""
LINE_HEIGHT = 9.0
SUM = 3 * BLANK + 12.0
"""Length of a line for one subtraction."""


def lay_out_trial(side: Side, content: Trial, setting: Setting) -> tuple[Sheet, tuple[Item, ...]]:
    """The numbers, and four, two or one trees, each over its lines."""
    sheet = setting.sheet(side)
    area = sheet.area
    head, field = _field(content.page, sheet, setting.words)
    columns, rows = _grid(
        setting.puzzles[content.page.page.id], field, len(content.page.page.links)
    )
    items: list[Item] = [*head]
    for row in range(rows):
        for column in range(columns):
            items += _one(content.page, _cell(field, columns, rows, column, row), setting)
    if columns > 1:
        middle = field.x + field.width / 2
        items.append(Rule((middle, field.y), (middle, field.bottom), "rule"))
    if rows > 1:
        middle = field.y + field.height / 2
        items.append(Rule((area.x, middle), (area.right, middle), "rule"))
    return sheet, tuple(items)


def trial_sides(certified: CertifiedPage, placed: PlacedPuzzle, sheet: Sheet, words: Words) -> int:
    """One side where it holds four trees, else both of a leaf."""
    _, field = _field(certified, sheet, words)
    columns, rows = _grid(placed, field, len(certified.page.links))
    return 1 if columns * rows == WANTED else 2


def _field(certified: CertifiedPage, sheet: Sheet, words: Words) -> tuple[list[Item], Box]:
    """What stands above the trees, and their room."""
    area = sheet.area
    head, top = _head(certified, sheet, words)
    return head, Box(area.x, top, area.width, area.bottom - FOOT - top)


def _head(certified: CertifiedPage, sheet: Sheet, words: Words) -> tuple[list[Item], float]:
    """A line for the child's name, the page's name, its numbers; and where the rest may begin."""
    page, area = certified.page, sheet.area
    label = words("puzzle.name")
    base = area.y + 5.0
    name = to_write(label, (area.x, base), min(80.0, area.width - label_width(label)))
    size, lines = fit_title(words("trial.title", page=page.name), SIZES, area.width)
    titled, y = heading(lines, (area.x, base + 6 + ascent("title", size)), size)
    shown = tuple(words.number(number.text) for number in page.numbers)
    numbers = NumberRows(shown, area.width, 8.0, 16.0, 2.5)
    top = y + size * POINT * 0.25 + 2.0
    return [*name, *titled, *numbers.at(area.x, top)], top + numbers.height + 3.0


def _grid(placed: PlacedPuzzle, field: Box, links: int) -> tuple[int, int]:
    """The most trees that are large enough to be written in: columns and rows.

    Two at least stand over lines for all their subtractions, or four and two, or one, over none.
    """
    need = _least_scale(placed)
    extent = _extent(placed)

    def scale(grid: tuple[int, int], with_lines: bool) -> float:
        cell = _cell(field, *grid, 0, 0)
        lines = -(-links // _sums(cell)) * LINE_HEIGHT if with_lines else 0.0
        return min(cell.width / extent.width, (cell.height - lines - 2 * PAD) / extent.height)

    for with_lines in (True, False):
        pair = max(((1, 2), (2, 1)), key=lambda grid: scale(grid, with_lines))
        for grid in ((2, 2), pair):
            if scale(grid, with_lines) >= need:
                return grid
    return (1, 1)


def _sums(cell: Box) -> int:
    """How many subtractions stand beside each other."""
    return max(1, int(cell.width // SUM))


def _cell(field: Box, columns: int, rows: int, column: int, row: int) -> Box:
    wide = (field.width - (columns - 1) * GUTTER) / columns
    high = (field.height - (rows - 1) * GUTTER) / rows
    return Box(field.x + column * (wide + GUTTER), field.y + row * (high + GUTTER), wide, high)


def _one(certified: CertifiedPage, box: Box, setting: Setting) -> Iterator[Item]:
    """A tree and, below it, as many lines as leave it large enough."""
    page = certified.page
    placed = setting.puzzles[page.id]
    columns = _sums(box)
    room = box.height - 2 * PAD - _extent(placed).height * _least_scale(placed)
    rows = -(-len(page.links) // columns)
    rows = rows if rows * LINE_HEIGHT <= room + 1e-6 else 0
    sums_high = rows * LINE_HEIGHT
    frame = Box(box.x, box.y + PAD, box.width, box.height - sums_high - 2 * PAD)
    tree = _tree(placed, frame)
    yield from tree
    given = dict(page.given)
    for spot in tree:
        if isinstance(spot, PlacedSpot) and spot.name in given:
            yield written_in_spot(spot, given[spot.name].text, "given", setting.words)
    for place in range(min(len(page.links), rows * columns)):
        column, row = divmod(place, rows)
        base = box.bottom - sums_high + (row + 1) * LINE_HEIGHT - 1.5
        yield from _subtraction(box.x + column * box.width / columns, base)


def _subtraction(x: float, base: float) -> Iterator[Item]:
    for place, sign in enumerate(("−", "=", "")):
        start = x + place * (BLANK + 5)
        yield Rule((start, base), (start + BLANK, base), "write")
        if sign:
            yield Line(start + BLANK + 2.5, base, sign, PUPIL_SIZE, "text", "middle", "quiet")


def _tree(placed: PlacedPuzzle, frame: Box) -> tuple[Item, ...]:
    """Links, tags and spots without the picture, as large as the frame allows."""
    tree, extent = placed.tree, _extent(placed)
    scale = min(frame.width / extent.width, frame.height / extent.height, 1.0)
    dx = frame.x + (frame.width - extent.width * scale) / 2 - extent.x * scale
    dy = frame.y + (frame.height - extent.height * scale) / 2 - extent.y * scale
    return moved((*tree.links, *tree.tags, *tree.spots), Move(dx, dy, scale))


def _extent(placed: PlacedPuzzle) -> Box:
    """The box round spots and tags, with half a millimetre for their strokes."""
    tree = placed.tree
    xs = [v for s in tree.spots for v in (s.x - s.radius, s.x + s.radius)]
    ys = [v for s in tree.spots for v in (s.y - s.radius, s.y + s.radius)]
    xs += [v for t in tree.tags for v in (t.box.x, t.box.right)]
    ys += [v for t in tree.tags for v in (t.box.y, t.box.bottom)]
    left, top = min(xs) - 0.5, min(ys) - 0.5
    return Box(left, top, max(xs) + 0.5 - left, max(ys) + 0.5 - top)


def _least_scale(placed: PlacedPuzzle) -> float:
    """How small the tree may get, so that a child can still write in it; never above 1."""
    tree = placed.tree
    wide, high = LEAST_TAG
    ratios = [LEAST_SPOT / (2 * spot.radius) for spot in tree.spots]
    ratios += [max(wide / tag.box.width, high / tag.box.height) for tag in tree.tags]
    return min(1.0, max(ratios))
