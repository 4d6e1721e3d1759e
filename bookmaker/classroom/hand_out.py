"""The teacher's list of who has which sheet, and what is kept where: a register in, pages out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from bookmaker.classroom.sheet_page import rings_of
from bookmaker.layout import head
from bookmaker.model import Box, Face, Item, Line, PlacedPage, Rule, SheetEntry
from bookmaker.scanning.pale import read_pale
from bookmaker.typeset import POINT, Sheet, fit_size, is_printable, paragraph
from bookmaker.words import Words

TEXT = 12.0
HEAD = 14.0
ROW = 7.0
CELLS = (12.0, 11.0, 10.0, 9.0, 8.0)
COLUMNS = (0.0, 0.14, 0.52, 0.88)
"""Where columns begin, as parts of the width."""
PRIVACY = ("privacy.kept", "privacy.scans", "privacy.names", "privacy.ask")


def list_pages(
    register: Sequence[SheetEntry], titles: Mapping[str, str], paper: str, words: Words
) -> tuple[PlacedPage, ...]:
    """Sheets in the order of their numbers; ``titles`` are the pages' names by their ids.

    The list holds names and is for the teacher alone.
    """
    sheet = Sheet(paper, recto=True)
    area = sheet.area
    opening, top = _opening(sheet, words)
    rows = [_row(entry, titles, words) for entry in register]
    pages: list[PlacedPage] = []
    while rows or not pages:
        y = top if not pages else area.y + ROW
        room = max(1, int((area.bottom - y) // ROW) - 1)
        items = (*(opening if not pages else ()), *_table(rows[:room], y, area, words))
        rows = rows[room:]
        bookmark = None if pages else (0, words("sheets.title"))
        number = str(len(pages) + 1)
        pages.append(PlacedPage(f"list-{number}", *sheet.real_size, items, number, bookmark))
    return tuple(pages)


def privacy(
    at: tuple[float, float], measure: float, words: Words
) -> tuple[tuple[Item, ...], float]:
    """What is kept where, in plain words, from the baseline ``at`` down."""
    x, y = at
    items: list[Item] = [
        Line(x, y, words("privacy.title"), HEAD, "strong", role="heading", tag="H2")
    ]
    y += HEAD * POINT * 1.3
    for key in PRIVACY:
        lines, y = paragraph(words(key), (x, y), measure, TEXT)
        items += lines
        y += 1
    return tuple(items), y


def _opening(sheet: Sheet, words: Words) -> tuple[tuple[Item, ...], float]:
    area = sheet.area
    title, y = head(sheet, words("sheets.title"))
    lines, y = paragraph(words("sheets.list"), (area.x, y + 3), area.width, TEXT, "strong")
    kept, y = privacy((area.x, y + 3), area.width, words)
    return (*title, *lines, *kept), y + 5


def _row(entry: SheetEntry, titles: Mapping[str, str], words: Words) -> tuple[str, ...]:
    rings = rings_of(entry.page)
    page = words("sheets.free") if rings else titles.get(entry.page, entry.page)
    spots = rings or len(read_pale(entry.marks).spots)
    pupil = in_letters(entry.pupil, entry.sheet, words) if entry.pupil else words("sheets.spare")
    return (str(entry.sheet), pupil, page, str(spots))


def in_letters(name: str, sheet: int, words: Words) -> str:
    """``name``, or the sheet's number where the faces lack its letters."""
    return name if is_printable(name) else f"{words('sheet.number')} {sheet}"


def _table(rows: Sequence[tuple[str, ...]], y: float, area: Box, words: Words) -> Iterator[Item]:
    heads = tuple(words(f"sheets.head.{column}") for column in ("sheet", "pupil", "page", "spots"))
    starts = [area.x + part * area.width for part in COLUMNS]
    ends = [*starts[1:], area.right]
    for place, row in enumerate((heads, *rows)):
        base = y + place * ROW
        for start, end, cell in zip(starts, ends, row, strict=True):
            size, lines = fit_size(cell, "text", CELLS, end - start - 3, 1)
            face: Face = "text" if place else "strong"
            yield Line(start, base, lines[0] if lines else "", size, face)
        yield Rule((area.x, base + 2), (area.right, base + 2))
