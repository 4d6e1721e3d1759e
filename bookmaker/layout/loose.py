"""Loose sheets to cut and to measure: tokens and the test print."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from bookmaker.layout.furniture import FOOT, head, row_height
from bookmaker.layout.setting import LaidOut, Setting
from bookmaker.model import (
    Box,
    Item,
    Line,
    Number,
    OrderedBook,
    PlacedSpot,
    PlacedTag,
    PrintTest,
    Rule,
    Side,
    TokenRows,
    Tokens,
)
from bookmaker.placement import page_sizes
from bookmaker.typeset import Move, Sheet, ascent, fit_size, moved, paragraph
from bookmaker.words import Words

TOKEN = 25.0
TOKEN_SIZES = (40.0, 34.0, 28.0, 24.0, 20.0, 16.0, 12.0)
SETS = 3
NOTE_SIZE = 12.0
RULE = 100.0
CORNER = 7.0
"""Length of a corner's arms."""
UNDER_CORNERS = 9.0
"""How much lower all else stands on the test print."""
TURNABLE = frozenset("01689")
"""Digits that are digits upside down, too."""


@dataclass(frozen=True, slots=True)
class Block:
    """One set of tokens in ``columns`` by ``rows`` squares, filled along its longer side."""

    columns: int
    rows: int

    @classmethod
    def lying(cls, count: int, most: int) -> Block:
        """A set of ``count`` tokens in rows of ``most`` at the most."""
        rows = -(-count // most)
        return cls(-(-count // rows), rows)

    def on_its_side(self) -> Block:
        return Block(self.rows, self.columns)

    def across(self, columns: int) -> int:
        return columns // self.columns

    def sets(self, columns: int, rows: int) -> int:
        """How many sets a side of so many squares holds."""
        return self.across(columns) * (rows // self.rows)

    def place(self, index: int) -> tuple[int, int]:
        """Column and row of a token in its set."""
        if self.columns >= self.rows:
            return index % self.columns, index // self.columns
        return index // self.rows, index % self.rows


def share_tokens(ordered: OrderedBook, sheet: Sheet, words: Words) -> tuple[TokenRows, ...]:
    """Rows of tokens for each side, for every run of numbers that the book uses.

    At least three sets of each, and as many as fill the last side: a set is cut off in one piece.
    """
    columns = int(sheet.area.width // TOKEN)
    _, top = _token_head(sheet, words)
    rows = max(1, int((sheet.area.bottom - FOOT - top) // TOKEN))
    sides: list[TokenRows] = []
    for numbers in _longest_runs(ordered):
        lying = Block.lying(len(numbers), columns)
        blocks = (lying, Block.lying(len(numbers), rows).on_its_side())
        block = max(blocks, key=lambda block: block.sets(columns, rows))
        sets = block.sets(columns, rows)
        if sets:
            sides += [_rows_of(numbers, block, block.across(columns), sets)] * -(-SETS // sets)
        else:
            whole = _rows_of(numbers, lying, 1, SETS)
            sides += [whole[i : i + rows] for i in range(0, len(whole), rows)]
    return tuple(sides)


def _rows_of(numbers: tuple[Number, ...], block: Block, across: int, sets: int) -> TokenRows:
    """So many sets, ``across`` of them beside each other, square by square."""
    at: dict[tuple[int, int], Number] = {}
    for one in range(sets):
        left, top = one % across * block.columns, one // across * block.rows
        for index, number in enumerate(numbers):
            column, row = block.place(index)
            at[top + row, left + column] = number
    wide, high = across * block.columns, -(-sets // across) * block.rows
    return tuple(tuple(at.get((row, column)) for column in range(wide)) for row in range(high))


def _longest_runs(ordered: OrderedBook) -> list[tuple[Number, ...]]:
    """The runs of numbers that are not the beginning of a longer one."""
    runs = sorted({page.numbers for page in ordered.pages}, key=len, reverse=True)
    kept: list[tuple[Number, ...]] = []
    for run in runs:
        if not any(longer[: len(run)] == run for longer in kept):
            kept.append(run)
    return kept


def lay_out_tokens(side: Side, content: Tokens, setting: Setting) -> LaidOut:
    """Squares with shared edges, so that every cut is straight from end to end."""
    sheet, words = setting.sheet(side), setting.words
    opening, top = _token_head(sheet, words)
    x = sheet.area.x
    columns = max(len(row) for row in content.rows)
    right, bottom = x + columns * TOKEN, top + len(content.rows) * TOKEN
    cuts = [
        *(
            Rule((x, top + i * TOKEN), (right, top + i * TOKEN), "cut")
            for i in range(len(content.rows) + 1)
        ),
        *(Rule((x + i * TOKEN, top), (x + i * TOKEN, bottom), "cut") for i in range(columns + 1)),
    ]
    items: list[Item] = [*opening, *cuts]
    for i, row in enumerate(content.rows):
        for j, number in enumerate(row):
            if number is None:
                continue
            square = Box(x + j * TOKEN, top + i * TOKEN, TOKEN, TOKEN)
            items += _token(words.number(number.text), square)
    return sheet, tuple(items)


def _token(text: str, square: Box) -> list[Item]:
    size, _ = fit_size(text, "strong", TOKEN_SIZES, square.width - 5, 1)
    x = square.x + square.width / 2
    base = square.y + (square.height + ascent("strong", size)) / 2
    items: list[Item] = [Line(x, base, text, size, "strong", "middle", "number")]
    if may_be_turned(text):
        items.append(Rule((x - 5, base + 2.2), (x + 5, base + 2.2), "underline"))
    return items


def may_be_turned(text: str) -> bool:
    """Whether a token reads as a number upside down, as 6 and 9 do."""
    return set(text) <= TURNABLE and bool(set(text) & {"6", "9"})


def _token_head(sheet: Sheet, words: Words) -> tuple[tuple[Item, ...], float]:
    title, y = head(sheet, words("tokens.title"))
    how, y = paragraph(words("tokens.how"), (sheet.area.x, y + 3), sheet.area.width, NOTE_SIZE)
    care, y = paragraph(words("loose.care"), (sheet.area.x, y), sheet.area.width, NOTE_SIZE)
    return (*title, *how, *care), y


def lay_out_print_test(side: Side, content: PrintTest, setting: Setting) -> LaidOut:
    """A rule of 100 mm with its marks, a spot and a tag as on the pages, and the area's corners."""
    sheet, words = setting.sheet(side), setting.words
    area = sheet.area
    title, y = head(sheet, words("test.title"))
    told, y = paragraph(words("test.how"), (area.x, y + 4), area.width, 16.0)
    x, base = area.x, y + 14
    rule = [Rule((x, base), (x + RULE, base), "write")]
    rule += [
        Rule(
            (x + i, base - (5 if i % 50 == 0 else 3 if i % 10 == 0 else 1.5)), (x + i, base), "axis"
        )
        for i in range(0, int(RULE) + 1, 2)
    ]
    label = Line(x + RULE / 2, base + 7, "100 mm", 14.0, "strong", "middle", "body")
    page = setting.bound.ordered.pages[0]
    sizes = page_sizes(page, setting.paper)
    wrote, y = paragraph(words("test.spot"), (area.x, base + 24), area.width, 16.0)
    middle = y + sizes.radius + 2
    spot = PlacedSpot("test", x + sizes.radius + 1, middle, sizes.radius)
    tag_box = Box(
        x + sizes.spot + 14, middle - sizes.tag_height / 2, sizes.tag_width, sizes.tag_height
    )
    below = middle + sizes.radius + 4 + row_height(16.0)
    cut, _ = paragraph(words("test.edge"), (area.x, below), area.width, 16.0)
    items: tuple[Item, ...] = (
        *title,
        *told,
        *rule,
        label,
        *wrote,
        PlacedTag("test", tag_box),
        spot,
        *cut,
    )
    return sheet, (*_corners(area), *moved(items, Move(0.0, UNDER_CORNERS)))


def _corners(area: Box) -> Iterator[Rule]:
    """A right angle in each corner of what is printed on."""
    for x, inward in ((area.x, CORNER), (area.right, -CORNER)):
        for y, down in ((area.y, CORNER), (area.bottom, -CORNER)):
            yield Rule((x, y), (x + inward, y), "frame")
            yield Rule((x, y), (x, y + down), "frame")
