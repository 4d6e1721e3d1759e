"""Rows of small pictures under the titles of their chapters: contents, records and handouts."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookmaker.layout.furniture import NAME_SIZES, contained, row_height
from bookmaker.layout.setting import Setting
from bookmaker.layout.sheet import Sheet
from bookmaker.model import Box, CertifiedPage, Item, Line, OrderedBook, OrderedChapter
from bookmaker.type import ascent, fit_size, wrap

Entries = tuple[OrderedChapter, ...]
Lead = Callable[[float, float], tuple[Item, ...]]
"""What stands before a name: its left end and the baseline, to items."""

GUTTER: Final = 5.0
LEAST_COLUMNS: Final = 2
CELL: Final = 34.0
"""Width of a cell at least: a name of ten letters in pupils' type."""
LEAST_ROW: Final = 36.0
CHAPTER_SIZES: Final = (16.0, 14.0, 12.0, 10.0)
CHAPTER_GAP: Final = 4.0
CAPTION_GAP: Final = 3.5
ENDLESS_SIZES: Final = (8.0, 7.0, 6.0, 5.0)
MOST_CAPTION: Final = 18.0
"""Height that a name takes at the most, in millimetres."""
ROW_GAP: Final = 4.0


@dataclass(frozen=True, slots=True)
class Gallery:
    """A width shared out in ``columns``; measures in millimetres."""

    width: float
    columns: int

    @classmethod
    def of(cls, sheet: Sheet, ordered: OrderedBook) -> Gallery:
        """As many columns as names allow, but no more than the longest chapter fills."""
        width = sheet.area.width
        most = max(1, int((width + GUTTER) // (CELL + GUTTER)))
        longest = max((len(chapter.pages) for chapter in ordered.chapters), default=1)
        return cls(width, min(most, max(longest, LEAST_COLUMNS)))

    @property
    def cell(self) -> float:
        """The width of a cell."""
        return (self.width + GUTTER) / self.columns - GUTTER

    @property
    def most_row(self) -> float:
        """The height of a row in which an upright picture, 4 by 5, is as wide as its cell."""
        return self.cell * 1.25 + ROW_GAP + CAPTION_GAP + row_height(NAME_SIZES[0])

    def rows(self, pages: int) -> int:
        return -(-pages // self.columns)

    def title(self, chapter: OrderedChapter) -> tuple[float, tuple[str, ...]]:
        """Size and lines of a chapter's title."""
        return fit_size(chapter.chapter.title, "strong", CHAPTER_SIZES, self.width, 1)

    def title_height(self, chapter: OrderedChapter) -> float:
        size, lines = self.title(chapter)
        return CHAPTER_GAP + len(lines) * row_height(size)

    def row_in(self, room: float, entries: Entries) -> float:
        """How high rows may be for ``entries`` to stand in ``room``."""
        titles = sum(self.title_height(entry) for entry in entries)
        rows = sum(self.rows(len(entry.pages)) for entry in entries)
        return (room - titles) / max(rows, 1)


def share_out(
    ordered: OrderedBook, gallery: Gallery, rooms: tuple[float, float]
) -> tuple[Entries, ...]:
    """Chapters over as few sides as can be, and as evenly; one that is too long is split.

    ``rooms`` are the heights that the first side has for them, and each of the others.
    """
    sides = _filled(ordered.chapters, gallery, rooms)
    for percent in range(98, 20, -2):
        first, other = (room * percent / 100 for room in rooms)
        evener = _filled(ordered.chapters, gallery, (first, other))
        if len(evener) > len(sides):
            break
        sides = evener
    return sides


def _filled(
    chapters: Sequence[OrderedChapter], gallery: Gallery, rooms: tuple[float, float]
) -> tuple[Entries, ...]:
    """Side after side, each filled as far as rows of the least height go."""
    sides: list[list[OrderedChapter]] = [[]]
    left, room = rooms
    for chapter in chapters:
        pages = chapter.pages
        title = gallery.title_height(chapter)
        whole = title + gallery.rows(len(pages)) * LEAST_ROW
        while pages:
            rows = int((left - title) // LEAST_ROW)
            wanted = gallery.rows(len(pages))
            if sides[-1] and (rows < 1 or (rows < wanted and whole <= room)):
                sides.append([])
                left = room
                continue
            taken = pages[: max(rows, 1) * gallery.columns]
            sides[-1].append(OrderedChapter(chapter.chapter, taken))
            left -= title + gallery.rows(len(taken)) * LEAST_ROW
            pages = pages[len(taken) :]
    return tuple(tuple(side) for side in sides)


def common_row(sides: Iterable[tuple[Entries, float]], gallery: Gallery) -> float:
    """One height of rows for all sides, each with its room: as the fullest of them allows."""
    return min([gallery.most_row, *(gallery.row_in(room, entries) for entries, room in sides)])


@dataclass(frozen=True, slots=True)
class Hanging:
    """A gallery with rows of one height, ready to be hung.

    ``lead`` is what stands before each name, ``lead_width`` wide; ``marks`` asks for the pages'
    marks instead of their pictures.
    """

    gallery: Gallery
    row: float
    lead: Callable[[CertifiedPage], Lead]
    lead_width: float
    setting: Setting
    marks: bool = False

    def hang(self, entries: Entries, x: float, y: float) -> tuple[tuple[Item, ...], float]:
        """Titles, pictures and names from the top left down; gives them and where they end."""
        items: list[Item] = []
        columns = self.gallery.columns
        for entry in entries:
            items += self._title(entry, x, y)
            y += self.gallery.title_height(entry)
            for first in range(0, len(entry.pages), columns):
                items += self._row(entry.pages[first : first + columns], x, y)
                y += self.row
        return tuple(items), y

    def _title(self, entry: OrderedChapter, x: float, y: float) -> Iterator[Line]:
        size, lines = self.gallery.title(entry)
        first = y + CHAPTER_GAP + ascent("strong", size)
        for place, text in enumerate(lines):
            base = first + place * row_height(size)
            yield Line(x, base, text, size, "strong", "start", "heading", "H2", place > 0)

    def _row(self, pages: Sequence[CertifiedPage], x: float, y: float) -> Iterator[Item]:
        shown = self.setting.mark_of if self.marks else self.setting.picture_of
        names = [self._name(page) for page in pages]
        caption = max(len(lines) * row_height(size) for size, lines in names)
        high = max(self.row - ROW_GAP - CAPTION_GAP - caption, 4.0)
        for column, (page, (size, lines)) in enumerate(zip(pages, names, strict=True)):
            left = x + column * (self.gallery.cell + GUTTER)
            frame = Box(left, y + 1.0, self.gallery.cell, high - 1.0)
            picture = shown(page.page)
            if picture:
                yield contained(picture, frame, page.page.name, True, (0.0, 1.0))
            base = y + high + CAPTION_GAP + ascent("strong", NAME_SIZES[0])
            yield from self.lead(page)(left, base)
            for place, text in enumerate(lines):
                below = base + place * row_height(size)
                yield Line(left + self.lead_width, below, text, size, "text", joins=True)

    def _name(self, page: CertifiedPage) -> tuple[float, tuple[str, ...]]:
        measure = self.gallery.cell - self.lead_width
        size, lines = fit_size(page.page.name, "text", NAME_SIZES, measure, 2)
        for size in ENDLESS_SIZES if len(lines) > 2 else ():
            lines = wrap(page.page.name, "text", size, measure)
            if len(lines) * row_height(size) <= MOST_CAPTION:
                break
        return size, lines
