"""Trial sheets: a page's tree, blank, as often as it can be written in, over lines to work on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from bookmaker.layout.furniture import FOOT, PUPIL_SIZE, fit_title, label_width, to_write
from bookmaker.layout.puzzle import in_words, written_in_spot
from bookmaker.layout.setting import LaidOut, PlacedPuzzle, Setting
from bookmaker.layout.tools import NumberRows
from bookmaker.model import (
    Box,
    CertifiedPage,
    Description,
    Item,
    Line,
    PlacedSpot,
    Rule,
    Side,
    Trial,
)
from bookmaker.typeset import POINT, Move, Sheet, ascent, heading, moved
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
Lines = Literal["below", "beside", ""]
WRITTEN: tuple[Lines, ...] = ("below", "beside")
BARE: tuple[Lines, ...] = ("",)


@dataclass(frozen=True, slots=True)
class Plan:
    """Trees in columns and rows, and where each has its lines: below, beside it, or nowhere."""

    columns: int
    rows: int
    lines: Lines

    def cell(self, field: Box, column: int, row: int) -> Box:
        wide = (field.width - (self.columns - 1) * GUTTER) / self.columns
        high = (field.height - (self.rows - 1) * GUTTER) / self.rows
        return Box(field.x + column * (wide + GUTTER), field.y + row * (high + GUTTER), wide, high)

    def cells(self, field: Box) -> Iterator[Box]:
        for row in range(self.rows):
            for column in range(self.columns):
                yield self.cell(field, column, row)

    def across(self, cell: Box) -> int:
        """How many subtractions stand beside each other."""
        return max(1, int(cell.width // SUM)) if self.lines == "below" else 1

    def sums(self, cell: Box, links: int) -> Box:
        """The room for a line for each of ``links``."""
        high = -(-links // self.across(cell)) * LINE_HEIGHT if self.lines else 0.0
        if self.lines == "beside":
            return Box(cell.right - SUM, cell.y + (cell.height - high) / 2, SUM, high)
        return Box(cell.x, cell.bottom - high, cell.width, high)

    def frame(self, cell: Box, links: int) -> Box:
        """The room for the tree; of no height where its lines leave it none."""
        sums = self.sums(cell, links)
        wide, high = cell.width, cell.height - 2 * PAD
        if self.lines == "beside":
            wide -= sums.width + GUTTER
            high = high if sums.height <= high else 0.0
        else:
            high -= sums.height
        return Box(cell.x, cell.y + PAD, max(wide, 0.0), max(high, 0.0))


def lay_out_trial(side: Side, content: Trial, setting: Setting) -> LaidOut:
    """The numbers, and four, two or one trees, each with its lines."""
    sheet = setting.sheet(side)
    area = sheet.area
    head, field = _field(content.page, sheet, setting.words)
    plan = _plan(setting.puzzles[content.page.id], field, len(content.page.links))
    items: list[Item] = [*head]
    for cell in plan.cells(field):
        items += _one(content.page, cell, plan, setting)
    if plan.columns > 1:
        middle = field.x + field.width / 2
        items.append(Rule((middle, field.y), (middle, field.bottom), "rule"))
    if plan.rows > 1:
        middle = field.y + field.height / 2
        items.append(Rule((area.x, middle), (area.right, middle), "rule"))
    return sheet, tuple(items)


def trial_sides(page: CertifiedPage, placed: PlacedPuzzle, sheet: Sheet, words: Words) -> int:
    """One side where it holds four trees, else both of a leaf."""
    _, field = _field(page, sheet, words)
    plan = _plan(placed, field, len(page.links))
    return 1 if plan.columns * plan.rows == WANTED else 2


def _field(page: CertifiedPage, sheet: Sheet, words: Words) -> tuple[list[Item], Box]:
    """What stands above the trees, and their room."""
    area = sheet.area
    head, top = _head(page, sheet, words)
    return head, Box(area.x, top, area.width, area.bottom - FOOT - top)


def _head(page: CertifiedPage, sheet: Sheet, words: Words) -> tuple[list[Item], float]:
    """A line for the child's name, the page's name, its numbers; and where the rest may begin."""
    area = sheet.area
    label = words("puzzle.name")
    base = area.y + 5.0
    name = to_write(label, (area.x, base), min(80.0, area.width - label_width(label)))
    size, lines = fit_title(words("trial.title", page=page.name), SIZES, area.width)
    titled, y = heading(lines, (area.x, base + 6 + ascent("title", size)), size)
    shown = tuple(words.number(number.text) for number in page.numbers)
    numbers = NumberRows(shown, area.width, 8.0, 16.0, 2.5)
    top = y + size * POINT * 0.25 + 2.0
    return [*name, *titled, *numbers.at(area.x, top)], top + numbers.height + 3.0


def _plan(placed: PlacedPuzzle, field: Box, links: int) -> Plan:
    """The most trees that are large enough to be written in, with their lines where they can be.

    Two at least stand with lines for all their subtractions, or four, two or one with none.
    """
    need, extent = _least_scale(placed), _extent(placed)

    def scale(plan: Plan) -> float:
        frame = plan.frame(plan.cell(field, 0, 0), links)
        return min(frame.width / extent.width, frame.height / extent.height, 1.0)

    for ways in (WRITTEN, BARE):
        fours = [Plan(2, 2, way) for way in ways]
        pairs = [Plan(*grid, way) for grid in ((1, 2), (2, 1)) for way in ways]
        for plans in (fours, pairs):
            best = max(plans, key=scale)
            if scale(best) >= need:
                return best
    alone = [Plan(1, 1, way) for way in (*WRITTEN, *BARE)]
    return next((plan for plan in alone if scale(plan) >= need), alone[-1])


def _one(page: CertifiedPage, cell: Box, plan: Plan, setting: Setting) -> Iterator[Item]:
    """A tree and a line for each of its subtractions."""
    frame = plan.frame(cell, len(page.links))
    tree = _tree(setting.puzzles[page.id], frame)
    yield Description(frame, in_words(page, setting.words))
    yield from tree
    given = dict(page.given)
    for spot in tree:
        if isinstance(spot, PlacedSpot) and spot.name in given:
            yield written_in_spot(spot, given[spot.name].text, "given", setting.words)
    if plan.lines:
        sums, across = plan.sums(cell, len(page.links)), plan.across(cell)
        rows = -(-len(page.links) // across)
        for place in range(len(page.links)):
            column, row = divmod(place, rows)
            base = sums.y + (row + 1) * LINE_HEIGHT - 1.5
            yield from _subtraction(sums.x + column * sums.width / across, base)


def _subtraction(x: float, base: float) -> Iterator[Item]:
    for place, sign in enumerate(("−", "=", "")):
        start = x + place * (BLANK + 5)
        yield Rule((start, base), (start + BLANK, base), "write")
        if sign:
            yield Line(start + BLANK + 2.5, base, sign, PUPIL_SIZE, "text", "middle", "quiet", "")


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
