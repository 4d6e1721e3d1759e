"""The answers: each page small and solved, its spots lettered, with all that helps to mark it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bookmaker.layout.furniture import folio
from bookmaker.layout.key.picture import proportion, solved_picture
from bookmaker.layout.key.saying import hints, places, said
from bookmaker.layout.key.setting import (
    ENTRY_GAP,
    FOOT,
    GUTTER,
    HEAD_SIZES,
    SIZE,
    Entry,
    Set,
    entry,
    label_width,
    text,
    title,
)
from bookmaker.layout.setting import LaidOut, PlacedPuzzle, Setting
from bookmaker.layout.tools import CLIMB, STEP, climb
from bookmaker.model import (
    Answers,
    Arranged,
    Box,
    CertifiedPage,
    InternalLink,
    Item,
    Line,
    PageNotes,
    Puzzle,
    Row,
    Side,
)
from bookmaker.typeset import POINT, Sheet, ascent, fit_size, width
from bookmaker.words import Words, spoken

LEAST_PICTURE = 44.0
"""Height of a picture at least; before it gets smaller, the least important text goes."""
BESIDE = 27.6
"""Width that the counts need beside a picture: their longest words in any language, and, in
English, a work of three digits on one line with its band."""
ASIDE = (0.56, 0.52, 0.48, 0.44, 0.4, 0.36, 0.32)
"""Parts of a low cell's width that its picture may take, the text standing beside it."""
PICTURE_GAP = 4.0
CLIMB_HEIGHT = 4 * STEP * 0.7
ROW_GAP = 7.0
MOST_LINES = 4
"""Of a name without end, on small paper in large print."""


def grid(sheet: Sheet) -> tuple[int, int]:
    """Columns and rows of answers on a side."""
    if sheet.is_board:
        return (2, 1)
    return (1, 2) if sheet.is_narrow else (2, 2)


def lay_out_answers(side: Side, content: Answers, setting: Setting) -> LaidOut:
    """Up to four answers in two columns, on small paper two below each other."""
    sheet = setting.sheet(side)
    head, top = title(sheet, setting.words("answers.title"))
    cells = _cells(sheet, top)
    notes = {each.page.id: each for each in content.notes}
    answers = [
        _Answer(page, notes.get(page.id), setting, cell)
        for page, cell in zip(content.pages, cells, strict=False)
    ]
    items = [item for answer in answers for item in answer.items()]
    return sheet, (*head, *items, folio(side, sheet))


def _cells(sheet: Sheet, top: float) -> list[Box]:
    across, down = grid(sheet)
    area = sheet.area
    wide = (area.width - GUTTER * (across - 1)) / across
    high = (area.bottom - FOOT - top - ROW_GAP * (down - 1)) / down
    return [
        Box(area.x + column * (wide + GUTTER), top + row * (high + ROW_GAP), wide, high)
        for row in range(down)
        for column in range(across)
    ]


@dataclass(frozen=True, slots=True)
class _Plan:
    """Where the parts of an answer go: the picture's box, where the counts and the entries
    start and how wide they may be, and which entries there is room for."""

    picture: Box
    counts: Box
    entries: Box
    shown: tuple[Entry, ...]


class _Answer:
    """One page's answer in its cell."""

    def __init__(
        self, page: CertifiedPage, notes: PageNotes | None, setting: Setting, cell: Box
    ) -> None:
        self._page, self._setting, self._cell = page, setting, cell
        self._placed: PlacedPuzzle = setting.puzzles[page.id]
        self._counts = [said(each, setting.words) for each in notes.counts] if notes else []
        self._variants = _variants(notes, setting.words) if notes else ((),)

    def items(self) -> Iterator[Item]:
        head, top = self._head()
        yield from head
        plan = self._plan(top)
        words = self._setting.words
        alt = _in_words(self._page, words)
        yield from solved_picture(self._page, self._placed, plan.picture, words, alt)
        box = plan.counts
        told, _ = self._told(box)
        yield from told
        y, indent = plan.entries.y, label_width(plan.shown)
        for each in plan.shown:
            placed, y = entry(each, plan.entries.x, y, plan.entries.width, indent)
            yield from placed

    def _head(self) -> Set:
        """The page's name, the climb of its band, and its number in the pupils' book."""
        cell, words, page_id = self._cell, self._setting.words, self._page.id
        number = self._setting.bound.label_of(page_id)
        told = words("key.page", number=number) if number else ""
        taken = width(told, "text", SIZE) + 3 if told else 0.0
        measure = cell.width - taken
        size, lines = fit_size(self._page.name, "strong", HEAD_SIZES, measure, 2)
        if len(lines) > MOST_LINES:  # it stands in full on the puzzle's own page
            lines = (*lines[: MOST_LINES - 1], lines[MOST_LINES - 1][:-1] + "…")
        base = cell.y + ascent("strong", HEAD_SIZES[0])
        step = size * POINT * 1.2
        items: list[Item] = [
            Line(cell.x, base + i * step, line, size, "strong", "start", "heading", "H2", i > 0)
            for i, line in enumerate(lines)
        ]
        below = base + (len(lines) - 1) * step + 3.0
        if told:
            items.append(Line(cell.right, base, told, SIZE, "text", "end", "quiet"))
        where = self._setting.bound.side_of(Puzzle).get(page_id)
        if where:
            items.append(InternalLink(Box(cell.x, cell.y, cell.width, below - cell.y), where.name))
        return tuple(items), below

    def _told(self, box: Box) -> Set:
        """The counts, a line each; the climb under them, or beside them where they stand alone.

        The height of ``box`` is the room for the climb under them, 0 for none.
        """
        items: list[Item] = []
        y = box.y
        for line in self._counts:
            placed, y = text(line, box.x, y, box.width)
            items += placed
        band, foot = self._page.certificate.band, y + 2.0 + CLIMB_HEIGHT
        if foot <= box.y + box.height:
            items += climb(band, box.x, foot)
        elif not box.height:
            items += climb(band, box.right - CLIMB, y - 1.0)
        return tuple(items), y + ENTRY_GAP

    def _plan(self, top: float) -> _Plan:
        """The plan with the largest picture; entries are given up only if it gets too small."""
        best: _Plan | None = None
        shape, cell = proportion(self._placed), self._cell
        least = min(LEAST_PICTURE, (cell.bottom - top) * 0.6, cell.width / shape * 0.5)
        for shown in self._variants:
            found = [plan for plan in self._plans(top, shown) if plan.picture.height > 0]
            best = max(found, key=lambda plan: plan.picture.height, default=None)
            if best and best.picture.height >= least:
                return best
        assert best is not None
        return best

    def _plans(self, top: float, shown: tuple[Entry, ...]) -> Iterator[_Plan]:
        cell, shape = self._cell, proportion(self._placed)
        room = cell.bottom - top
        below = self._height(shown, cell.width)
        _, end = self._told(Box(cell.x, 0.0, cell.width, 0.0))
        high = min((cell.width - PICTURE_GAP - BESIDE) / shape, room - below - PICTURE_GAP)
        if high > 0:
            x = cell.x + high * shape + PICTURE_GAP
            beside = Box(x, top, cell.right - x, high)
            if self._told(beside)[1] - ENTRY_GAP <= top + high + 1:
                y = top + high + PICTURE_GAP
                entries = Box(cell.x, y, cell.width, 0.0)
                yield _Plan(Box(cell.x, top, high * shape, high), beside, entries, shown)
        high = min(cell.width / shape, room - below - end - PICTURE_GAP)
        if high > 0:
            y = top + high + PICTURE_GAP
            under = Box(cell.x, y, cell.width, 0.0)
            entries = Box(cell.x, y + end, cell.width, 0.0)
            yield _Plan(Box(cell.x, top, high * shape, high), under, entries, shown)
        for part in ASIDE if cell.width > cell.height else ():
            wide = min(cell.width * part, room * shape)
            x = cell.x + wide + PICTURE_GAP
            beside = Box(x, top, cell.right - x, 1.0)
            _, y = self._told(beside)
            if y + self._height(shown, beside.width) <= cell.bottom:
                entries = Box(x, y, beside.width, 0.0)
                yield _Plan(Box(cell.x, top, wide, wide / shape), beside, entries, shown)

    def _height(self, shown: Sequence[Entry], measure: float) -> float:
        indent, y = label_width(shown), 0.0
        for each in shown:
            _, y = entry(each, 0.0, y, measure, indent)
        return y


def _variants(notes: PageNotes, words: Words) -> tuple[tuple[Entry, ...], ...]:
    """What is said of a page under its counts: all of it, and then ever less.

    The hints are given up last, after the mirror; the other solutions first.
    """
    rows = _rows(notes, words)
    swaps, stands = tuple(said(each, words) for each in notes.swaps), places(notes, words)
    hinted = hints(notes, words)
    hint = (Entry(words("key.label.hints"), (hinted,)),) if hinted else ()
    swap = (Entry(words("key.label.swaps"), swaps),) if swaps else ()
    place = (Entry(words("key.label.places"), (stands,)),) if stands else ()
    whole = (Entry("", table=rows),) if len(rows) > 1 else ()
    mirror = (Entry("", table=rows[:2]),) if len(rows) > 1 and _is_mirror(notes.rows[0]) else ()
    return (
        (*whole, *swap, *place, *hint),
        (*mirror, *swap, *place, *hint),
        (*mirror, *swap, *hint),
        (*mirror, *hint),
        hint,
        (),
    )


def _rows(notes: PageNotes, words: Words) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Letters, and under them the mirror and the other solutions; a label that the row above has
    is not said again."""
    rows = [("", tuple(notes.page.letters.values()))]
    last = ""
    for row in notes.rows:
        label = said(row.label, words)
        rows.append(("" if label == last else label, _numbers(row.numbers, words)))
        last = label
    return tuple(rows)


def _is_mirror(row: Row) -> bool:
    return row.label.key != "key.label.others"


def _numbers(arranged: Arranged, words: Words) -> tuple[str, ...]:
    return tuple(words.number(number.text) for number in arranged)


def _in_words(page: CertifiedPage, words: Words) -> str:
    """The solution for those who can't see the picture."""
    letters = page.letters
    told = (
        words(
            "key.alt.spot",
            letter=letters[name],
            spot=spoken(name),
            number=words.number(number.text),
        )
        for name, number in page.solution.items()
    )
    return words("key.alt", page=page.name, solution=words("list.mark").join(told))
