"""A drawing sheet as it is printed: a row of the register in, a ``PlacedPage`` out.

No name is on it, nor anything else of a child: the number alone says whose it is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from bookmaker.layout import label_width, row_height, to_write
from bookmaker.model import Box, Disc, Frame, Item, Line, Outline, PlacedPage, Point, SheetEntry
from bookmaker.scanning.pale import PaleMarks, read_pale
from bookmaker.scanning.sheet_plan import Payload, SheetPlan, code_modules, sheet_plan
from bookmaker.typeset import Move, ascent, fit_size, moved, paragraph, width, wrap
from bookmaker.words import Words

NUMBER_SIZES = (44.0, 36.0, 28.0, 22.0)
LABEL_SIZE = 11.0
TEXT_SIZES = (16.0, 15.0, 14.0, 13.0, 12.0, 11.0, 10.0)
NOTICE_SIZES = (11.0, 10.0, 9.0, 8.0)
BULLET = 1.1
"""Radius in millimetres."""
INDENT = 5.0
FREE = "free"
"""What the register has for a free sheet's page: "free:6" for six rings. No page has such an id."""
RING = 10.0
"""Radius of the ring that a free sheet shows."""


def sheet_page(entry: SheetEntry, words: Words) -> PlacedPage:
    """The sheet of ``entry``, with its codes, pale marks, and words for the child.

    Raises ValueError where the entry's marks can't be read.
    """
    plan = sheet_plan(entry.paper)
    marks = read_pale(entry.marks)
    items = (
        *_pale(marks, plan.frame),
        Frame(plan.frame, "sheet-frame"),
        *plan.beads,
        *_codes(entry, plan),
        *_name(plan, words),
        *_number(entry, plan, words),
        *_instructions(entry, plan, words),
        *_notice(plan, words),
    )
    bookmark = (0, f"{words('sheet.number')} {entry.sheet}")
    name = f"sheet-{entry.sheet}"
    return PlacedPage(name, plan.width, plan.height, items, str(entry.sheet), bookmark)


def rings_of(page: str) -> int:
    """How many rings a child draws on a sheet for ``page``; 0 for a page of the book."""
    kind, _, count = page.partition(":")
    return int(count) if kind == FREE and count.isdigit() else 0


def _pale(marks: PaleMarks, frame: Box) -> tuple[Item, ...]:
    pale: list[Item] = [
        *(replace(link, pale=True) for link in marks.links),
        *(replace(tag, pale=True) for tag in marks.tags),
        *(replace(spot, pale=True) for spot in marks.spots),
    ]
    return moved(pale, Move(frame.x, frame.y))


def _codes(entry: SheetEntry, plan: SheetPlan) -> Iterator[Item]:
    for mark, box in enumerate(plan.codes):
        modules = code_modules(Payload(entry.class_code, entry.sheet, mark, entry.format))
        yield Outline(tuple(_runs(modules, box)), "code")


def _runs(modules: tuple[tuple[bool, ...], ...], box: Box) -> Iterator[tuple[Point, ...]]:
    """Dark modules that touch in a row, as one rectangle each; all are one form, without seams."""
    side = box.width / len(modules)
    for row, cells in enumerate(modules):
        top, bottom = box.y + row * side, box.y + (row + 1) * side
        column = 0
        while column < len(cells):
            start = column
            while column < len(cells) and cells[column]:
                column += 1
            if column > start:
                left, right = box.x + start * side, box.x + column * side
                yield ((left, top), (right, top), (right, bottom), (left, bottom))
            column += 1


def _name(plan: SheetPlan, words: Words) -> tuple[Item, ...]:
    strip, label = plan.name_strip, words("puzzle.name")
    return to_write(label, (strip.x, strip.bottom - 3), strip.width - label_width(label))


def _number(entry: SheetEntry, plan: SheetPlan, words: Words) -> Iterator[Item]:
    box = plan.number
    size, _ = fit_size(str(entry.sheet), "title", NUMBER_SIZES, box.width, 1)
    base = box.bottom - 3
    text = str(entry.sheet)
    yield Line(box.right, base, text, size, "title", "end", "title", "H1")
    x = box.right - width(text, "title", size) - 2.5
    yield Line(x, base, words("sheet.number"), LABEL_SIZE, "text", "end", "quiet")


def _instructions(entry: SheetEntry, plan: SheetPlan, words: Words) -> Iterator[Item]:
    box = plan.instructions
    free = rings_of(entry.page)
    if free:
        ring = Disc(box.right - RING, box.y + box.height / 2, RING, "ring")
        yield ring
        box = replace(box, width=box.width - 2 * RING - 4)
        told = [words("sheet.free"), words("sheet.rings", free)]
    else:
        told = [words("sheet.draw"), words("sheet.colour")]
    told += [words("sheet.name"), words("sheet.corners")]
    size = _fitting(told, box)
    y = box.y + ascent("text", size) + 1
    for text in told:
        yield Disc(box.x + BULLET, y - ascent("text", size) / 2, BULLET, "disc")
        lines, y = paragraph(text, (box.x + INDENT, y), box.width - INDENT, size)
        yield from lines


def _fitting(texts: list[str], box: Box) -> float:
    """The largest size at which all of ``texts`` fit into ``box``, each on a line of its own, or
    else on more than one."""
    lines = {s: [len(wrap(t, "text", s, box.width - INDENT)) for t in texts] for s in TEXT_SIZES}
    fitting = [s for s in lines if sum(lines[s]) * row_height(s) * 1.125 <= box.height]
    single = [size for size in fitting if max(lines[size]) == 1]
    return next(iter([*single, *fitting]), TEXT_SIZES[-1])


def _notice(plan: SheetPlan, words: Words) -> Iterator[Item]:
    box = plan.notice
    size, (line, *_) = fit_size(words("sheet.only"), "strong", NOTICE_SIZES, box.width, 1)
    middle = box.x + box.width / 2
    yield Line(middle, box.bottom - 1.5, line, size, "strong", "middle", "quiet")
