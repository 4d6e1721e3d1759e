"""Rows of small pictures under the titles of their chapters: contents, records and handouts."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import Final

from bookmaker.layout.furniture import NAME_SIZES, contained, row_height
from bookmaker.layout.little import little_tree
from bookmaker.layout.setting import Setting
from bookmaker.model import Box, CertifiedPage, Item, Line, OrderedBook, OrderedChapter, Picture
from bookmaker.typeset import Sheet, ascent, fit_size, wrap

Entries = tuple[OrderedChapter, ...]
Sides = tuple[Entries, ...]
Lead = Callable[[float, float], tuple[Item, ...]]
"""What stands before a name: its left end and the baseline, to items."""
Caption = tuple[float, tuple[str, ...]]
"""Size and lines of a name."""

GUTTER: Final = 5.0
APART: Final = 12.0
"""Between chapters that stand beside each other."""
LEAST_COLUMNS: Final = 2
CELL: Final = 34.0
"""Width of a cell at least: a name of ten letters in pupils' type."""
LEAST_ROW: Final = 36.0
CHAPTER_SIZES: Final = (16.0, 14.0, 12.0, 10.0)
CHAPTER_GAP: Final = 4.0
CAPTION_GAP: Final = 3.5
SMALLER: Final = 14.0
"""Size in points that all names go down to together before a long one takes more lines."""
SMALLEST: Final = 12.0
"""What they go down to together rather than that a single word be torn."""
ENDLESS_SIZES: Final = (8.0, 7.0, 6.0, 5.0)
MOST_CAPTION: Final = 18.0
"""Height that a name takes at the most, in millimetres."""
ROW_GAP: Final = 4.0
TO_COLOUR: Final = 0.75
"""Paper over a picture that is to be coloured in: black comes out as a light grey."""
DRAWING_PALED: Final = 0.4
"""The same over a child's drawing, which has its colours already and white between its strokes."""
TREE_INSET: Final = 0.6
"""Half a stroke, by which the rings of a page without a picture would leave the margin."""


@dataclass(frozen=True, slots=True)
class Rooms:
    """The height for chapters on the first side, and on each other.

    ``tail`` is what the last side, whichever it is, needs of it for something else.
    """

    first: float
    other: float
    tail: float = 0.0

    def of(self, place: int, count: int) -> float:
        """The room of the side at ``place``, from 0, of ``count``."""
        room = self.first if place == 0 else self.other
        return room - self.tail if place == count - 1 else room

    def scaled(self, part: float) -> Rooms:
        return Rooms(self.first * part, self.other * part)


@dataclass(frozen=True, slots=True)
class Gallery:
    """A width shared out in ``columns`` for each of ``across`` chapters beside each other.

    Measures in millimetres. Chapters stand beside each other only where each is a single row.
    """

    width: float
    columns: int
    across: int = 1

    @classmethod
    def of(cls, sheet: Sheet, ordered: OrderedBook, rooms: Rooms) -> Gallery:
        """The one that takes the fewest sides and, among those, has the largest pictures."""

        def costs(gallery: Gallery) -> tuple[int, float]:
            sides = share_out(ordered, gallery, rooms)
            return len(sides), -gallery.extent(common_row(sides, gallery, rooms))

        return min(_galleries(sheet.area.width, ordered), key=costs)

    @classmethod
    def hung(cls, sheet: Sheet, ordered: OrderedBook, sides: Sides, rooms: Rooms) -> Gallery:
        """The one with the largest pictures for chapters that have been shared out."""

        def extent(gallery: Gallery) -> float:
            return gallery.extent(common_row(sides, gallery, rooms))

        return max(_galleries(sheet.area.width, ordered), key=extent)

    @property
    def block(self) -> float:
        """The width of a chapter."""
        return (self.width + APART) / self.across - APART

    @property
    def cell(self) -> float:
        """The width of a cell."""
        return (self.block + GUTTER) / self.columns - GUTTER

    @property
    def most_row(self) -> float:
        """The height of a row in which an upright picture, 4 by 5, is as wide as its cell."""
        return self.cell * 1.25 + ROW_GAP + CAPTION_GAP + row_height(NAME_SIZES[0])

    def extent(self, row: float) -> float:
        """The side of a square picture in a row of that height."""
        return min(self.cell, row - ROW_GAP - CAPTION_GAP - row_height(NAME_SIZES[0]))

    def rows(self, pages: int) -> int:
        return -(-pages // self.columns)

    def bands(self, entries: Sequence[OrderedChapter]) -> tuple[Entries, ...]:
        """Chapters that stand beside each other."""
        starts = range(0, len(entries), self.across)
        return tuple(tuple(entries[start : start + self.across]) for start in starts)

    def title(self, chapter: OrderedChapter) -> Caption:
        """Size and lines of a chapter's title."""
        return _titled(chapter.title, self.block)

    def title_height(self, band: Entries) -> float:
        titles = [self.title(chapter) for chapter in band]
        return CHAPTER_GAP + max(len(lines) * row_height(size) for size, lines in titles)

    def band_rows(self, band: Entries) -> int:
        return max(self.rows(len(entry.pages)) for entry in band)

    def row_in(self, room: float, entries: Entries) -> float:
        """How high rows may be for ``entries`` to stand in ``room``."""
        bands = self.bands(entries)
        titles = sum(self.title_height(band) for band in bands)
        return (room - titles) / max(sum(self.band_rows(band) for band in bands), 1)


@cache
def _titled(title: str, measure: float) -> Caption:
    return fit_size(title, "strong", CHAPTER_SIZES, measure, 1)


def _galleries(width: float, ordered: OrderedBook) -> Iterator[Gallery]:
    """As many columns as names allow, but no more than the longest chapter fills, and fewer."""
    most = max(1, int((width + GUTTER) // (CELL + GUTTER)))
    longest = max((len(chapter.pages) for chapter in ordered.chapters), default=1)
    columns = min(most, max(longest, LEAST_COLUMNS))
    for count in range(columns, min(columns, LEAST_COLUMNS) - 1, -1):
        yield Gallery(width, count)
    least = columns * (CELL + GUTTER) - GUTTER
    across = int((width + APART) // (least + APART))
    if across > 1 and longest <= columns and len(ordered.chapters) > 1:
        yield Gallery(width, columns, across)


def share_out(ordered: OrderedBook, gallery: Gallery, rooms: Rooms) -> Sides:
    """Chapters over as few sides as can be, with rows as high as can be.

    A chapter that is too long for a side is split.
    """
    tried = (
        _filled(ordered.chapters, gallery, rooms.scaled(percent / 100))
        for percent in range(100, 20, -2)
    )
    # Told apart by their lengths: telling whole chapters apart takes ten times as long.
    found = {tuple(tuple(len(e.pages) for e in side) for side in sides): sides for sides in tried}
    safe = _filled(ordered.chapters, gallery, Rooms(rooms.first - rooms.tail, rooms.other))
    fitting = [sides for sides in found.values() if _row(sides, gallery, rooms) >= LEAST_ROW]

    def costs(sides: Sides) -> tuple[int, float, list[int]]:
        lengths = [-len(entries) for entries in sides]
        return len(sides), -round(_row(sides, gallery, rooms), 3), lengths

    return min(fitting, key=costs, default=safe)


def _filled(chapters: Sequence[OrderedChapter], gallery: Gallery, rooms: Rooms) -> Sides:
    """Side after side, each filled as far as rows of the least height go."""
    sides: list[list[OrderedChapter]] = [[]]
    left, room = rooms.first, rooms.other
    for band in gallery.bands(chapters):
        title, pending = gallery.title_height(band), band
        whole = title + gallery.band_rows(band) * LEAST_ROW
        while pending:
            rows = int((left - title) // LEAST_ROW)
            wanted = gallery.band_rows(pending)
            if sides[-1] and (rows < 1 or (rows < wanted and whole <= room)):
                sides.append([])
                left = room
                continue
            taken, pending = _split(pending, max(rows, 1) * gallery.columns)
            sides[-1] += taken
            left -= title + gallery.band_rows(taken) * LEAST_ROW
    return tuple(tuple(side) for side in sides)


def _split(band: Entries, most: int) -> tuple[Entries, Entries]:
    """The first ``most`` pages of a band's only chapter, and the rest of it."""
    (first, *_), longest = band, max(len(entry.pages) for entry in band)
    if longest <= most:
        return band, ()
    head = OrderedChapter.of(first, first.pages[:most])
    return (head,), (OrderedChapter.of(first, first.pages[most:]),)


def common_row(sides: Sides, gallery: Gallery, rooms: Rooms) -> float:
    """One height of rows for all ``sides``: as the fullest of them allows."""
    return min(gallery.most_row, _row(sides, gallery, rooms))


def _row(sides: Sides, gallery: Gallery, rooms: Rooms) -> float:
    count = len(sides)
    return min(
        gallery.row_in(rooms.of(place, count), entries) for place, entries in enumerate(sides)
    )


@dataclass(frozen=True, slots=True)
class Hanging:
    """A gallery with rows of one height, ready to be hung.

    ``lead`` is what stands before each name, ``lead_width`` wide; ``marks`` asks for the pages'
    marks to colour in instead of their pictures; ``tag`` is what names are for a screen reader.
    ``above`` is the side's own title: a chapter of the same name does not say it again.
    """

    gallery: Gallery
    row: float
    lead: Callable[[CertifiedPage], Lead]
    lead_width: float
    setting: Setting
    marks: bool = False
    tag: str = "P"
    above: str = ""

    def hang(self, entries: Entries, x: float, y: float) -> tuple[tuple[Item, ...], float]:
        """Titles, pictures and names from the top left down; gives them and where they end."""
        items: list[Item] = []
        columns, row = self.gallery.columns, min(self.row, self._needed())
        for band in self.gallery.bands(entries):
            for place, entry in enumerate(band):
                left = x + place * (self.gallery.block + APART)
                items += self._title(entry, left, y)
                top = y + self.gallery.title_height(band)
                for first in range(0, len(entry.pages), columns):
                    items += self._row(entry.pages[first : first + columns], (left, top), row)
                    top += row
            y += self.gallery.title_height(band) + self.gallery.band_rows(band) * row
        return tuple(items), y

    def _title(self, entry: OrderedChapter, x: float, y: float) -> Iterator[Line]:
        if entry.title == self.above:
            return
        size, lines = self.gallery.title(entry)
        first = y + CHAPTER_GAP + ascent("strong", size)
        for place, text in enumerate(lines):
            base = first + place * row_height(size)
            yield Line(x, base, text, size, "strong", "start", "heading", "H2", place > 0)

    def _needed(self) -> float:
        """The height of a row in which no picture leaves room above it.

        Marks are broader than pages' pictures, and few of them would stand far below their title.
        """
        pages = self.setting.bound.ordered.pages
        captions = self._captions().values()
        shown = [picture for page in pages if (picture := self._shown(page))]
        tallest = max((_slender(picture) for picture in shown), default=1.25) * self.gallery.cell
        return tallest + 1.0 + ROW_GAP + CAPTION_GAP + max(map(_high, captions))

    def _row(
        self, pages: Sequence[CertifiedPage], at: tuple[float, float], row: float
    ) -> Iterator[Item]:
        x, y = at
        captions = self._captions()
        names = [captions[page.name] for page in pages]
        usual = max(min(_high(caption), 2 * row_height(SMALLER)) for caption in captions.values())
        caption = max(usual, *(_high(name) for name in names))
        high = max(row - ROW_GAP - CAPTION_GAP - caption, 4.0)
        for column, (page, (size, lines)) in enumerate(zip(pages, names, strict=True)):
            left = x + column * (self.gallery.cell + GUTTER)
            frame = Box(left, y + 1.0, self.gallery.cell, high - 1.0)
            yield from self._picture(page, frame)
            base = y + high + CAPTION_GAP + ascent("strong", NAME_SIZES[0])
            yield from self.lead(page)(left, base)
            for place, text in enumerate(lines):
                below = base + place * row_height(size)
                at = (left + self.lead_width, below)
                yield Line(*at, text, size, "text", tag=self.tag, joins=True)

    def _picture(self, page: CertifiedPage, frame: Box) -> Iterator[Item]:
        """The page's picture or mark, or its tree where it has neither."""
        picture, placed = self._shown(page), self.setting.puzzles.get(page.id)
        if picture:
            art = contained(picture, frame, page.name, True, (0.0, 1.0))
            is_whole = self.marks and not self.setting.own_mark_of(page)
            paled = DRAWING_PALED if page.drawn else TO_COLOUR
            yield replace(art, paled=paled if is_whole else 0.0)
        elif placed:
            room = replace(frame, x=frame.x + TREE_INSET, width=min(frame.width, frame.height))
            links, spots = little_tree(placed.tree, room, (0.0, 1.0))
            yield from links
            yield from spots

    def _shown(self, page: CertifiedPage) -> Picture | None:
        mark = self.setting.own_mark_of(page) if self.marks else None
        return mark or self.setting.picture_of(page)

    def _captions(self) -> dict[str, Caption]:
        names = tuple(page.name for page in self.setting.bound.ordered.pages)
        return _set(names, self.gallery.cell - self.lead_width)


@cache
def _set(names: tuple[str, ...], measure: float) -> dict[str, Caption]:
    """Every name in one size, as large as two lines allow; a long one in more lines."""
    sizes = [fit_size(name, "text", NAME_SIZES, measure, 2)[0] for name in names]
    common = min((size for size in sizes if size >= SMALLER), default=SMALLER)
    single = {word for name in names for word in name.split()}
    whole = [fit_size(word, "text", NAME_SIZES, measure, 1)[0] for word in single]
    common = min((size for size in (common, *whole) if size >= SMALLEST), default=common)
    return {name: _caption(name, common, measure) for name in names}


def _caption(name: str, largest: float, measure: float) -> Caption:
    sizes = [size for size in (*NAME_SIZES, *ENDLESS_SIZES) if size <= largest]
    usual = tuple(size for size in sizes if size >= min(SMALLER, largest))
    for lines in (2, 3):
        caption = fit_size(name, "text", usual, measure, lines)
        if len(caption[1]) <= lines and _is_whole(name, caption):
            return caption
    tried = [(size, wrap(name, "text", size, measure)) for size in sizes]
    fitting = [caption for caption in tried if _high(caption) <= MOST_CAPTION]
    whole = (caption for caption in fitting if _is_whole(name, caption))
    return next(whole, fitting[0] if fitting else tried[-1])


def _is_whole(name: str, caption: Caption) -> bool:
    """Whether no word of ``name`` is torn."""
    return " ".join(caption[1]).split() == name.split()


def _slender(picture: Picture) -> float:
    """How many times as high as wide a picture is without its empty edges."""
    trim = picture.trim
    return (picture.height * trim.height) / (picture.width * trim.width)


def _high(caption: Caption) -> float:
    size, lines = caption
    return len(lines) * row_height(size)
