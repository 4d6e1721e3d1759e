"""Trial sheets: a page's tree four times, small and blank, with lines for subtractions."""

from __future__ import annotations

from collections.abc import Iterator

from bookmaker.layout.furniture import FOOT, fit_title, label_width, to_write
from bookmaker.layout.moving import Move, moved
from bookmaker.layout.puzzle import written_in_spot
from bookmaker.layout.setting import PlacedPuzzle, Setting
from bookmaker.layout.sheet import Sheet
from bookmaker.layout.text import heading
from bookmaker.model import Box, CertifiedPage, Item, Line, PlacedSpot, Rule, Side, Trial
from bookmaker.type import ascent

SIZES = (26.0, 23.0, 20.0, 18.0, 16.0, 14.0, 12.0, 10.0)
GUTTER = 8.0
BLANK = 10.0
"""Length of a line for one number."""
PAD = 3.0
LINE_HEIGHT = 9.0
SUM = 3 * BLANK + 12.0
"""Length of a line for one subtraction."""


def lay_out_trial(side: Side, content: Trial, setting: Setting) -> tuple[Sheet, tuple[Item, ...]]:
    """Four trees in four quarters, each over its lines."""
    sheet = setting.sheet(side)
    area = sheet.area
    page = content.page.page
    label = setting.words("puzzle.name")
    base = area.y + 5.0
    name = to_write(label, (area.x, base), min(80.0, area.width - label_width(label)))
    title = setting.words("trial.title", page=page.name)
    size, lines = fit_title(title, SIZES, area.width)
    titled, y = heading(lines, (area.x, base + 6 + ascent("title", size)), size)
    top = y + 6
    wide = (area.width - GUTTER) / 2
    high = (area.bottom - FOOT - top - GUTTER) / 2
    items: list[Item] = [*name, *titled]
    for place in range(4):
        row, column = divmod(place, 2)
        x, y = area.x + column * (wide + GUTTER), top + row * (high + GUTTER)
        items += _quarter(content.page, Box(x, y, wide, high), setting)
    middle_x, middle_y = area.x + area.width / 2, top + high + GUTTER / 2
    items.append(Rule((middle_x, top), (middle_x, area.bottom - FOOT), "rule"))
    items.append(Rule((area.x, middle_y), (area.right, middle_y), "rule"))
    return sheet, tuple(items)


def _quarter(certified: CertifiedPage, box: Box, setting: Setting) -> Iterator[Item]:
    page = certified.page
    links = len(page.links)
    columns = max(1, int(box.width // SUM))
    rows = -(-links // columns)
    sums_high = min(rows * LINE_HEIGHT, box.height * 0.5)
    step = sums_high / rows
    frame = Box(box.x, box.y + PAD, box.width, box.height - sums_high - 2 * PAD)
    tree = _tree(setting.puzzles[page.id], frame)
    yield from tree
    given = dict(page.given)
    for spot in tree:
        if isinstance(spot, PlacedSpot) and spot.name in given:
            yield written_in_spot(spot, given[spot.name].text, "given", setting.words)
    for place in range(links):
        column, row = divmod(place, rows)
        base = box.bottom - sums_high + (row + 1) * step - 1.5
        yield from _subtraction(box.x + column * box.width / columns, base)


def _subtraction(x: float, base: float) -> Iterator[Item]:
    for place, sign in enumerate(("−", "=", "")):
        start = x + place * (BLANK + 5)
        yield Rule((start, base), (start + BLANK, base), "write")
        if sign:
            yield Line(start + BLANK + 2.5, base, sign, 12.0, "text", "middle", "quiet")


def _tree(placed: PlacedPuzzle, frame: Box) -> tuple[Item, ...]:
    """Links, tags and spots without the picture, as large as the frame allows."""
    tree = placed.tree
    xs = [v for s in tree.spots for v in (s.x - s.radius, s.x + s.radius)]
    ys = [v for s in tree.spots for v in (s.y - s.radius, s.y + s.radius)]
    xs += [v for t in tree.tags for v in (t.box.x, t.box.right)]
    ys += [v for t in tree.tags for v in (t.box.y, t.box.bottom)]
    wide, high = max(xs) - min(xs) + 1, max(ys) - min(ys) + 1
    scale = min(frame.width / wide, frame.height / high, 1.0)
    dx = frame.x + (frame.width - wide * scale) / 2 - (min(xs) - 0.5) * scale
    dy = frame.y + (frame.height - high * scale) / 2 - (min(ys) - 0.5) * scale
    return moved((*tree.links, *tree.tags, *tree.spots), Move(dx, dy, scale))
