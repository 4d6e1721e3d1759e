"""The term plan as a table, week by week, and what is practised."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from bookmaker.layout.furniture import folio
from bookmaker.layout.key.saying import said
from bookmaker.layout.key.setting import FOOT, RISE, SIZE, STEP, Set, heading, spaced, text, title
from bookmaker.layout.setting import LaidOut, Setting
from bookmaker.model import (
    Answers,
    BoundBook,
    Box,
    Estimate,
    Face,
    InternalLink,
    Item,
    Line,
    PlanRow,
    PracticeNotes,
    Rule,
    Said,
    Side,
    TermPlan,
)
from bookmaker.typeset import Sheet, width, wrap
from bookmaker.words import Words

COLUMNS = ("week", "page", "name", "spots", "chance", "work", "band", "largest")
DISPENSABLE = ("largest", "chance", "spots", "band")
"""Columns that go, the first of them first, where names have too little room."""
HEAD_LINES = (1, 2, 9)
"""Lines that heads may take, the fewest first at which names have their room."""
LEAST_NAME = 34.0
CELL_GAP = 3.6
MOST_GAP = 9.0
ROW_GAP = 1.9
TO_LEFT = ("name", "band")
PRACTICE_GAP = 5.0
NOTHING = "–"


def lay_out_plan(side: Side, content: TermPlan, setting: Setting) -> LaidOut:
    """The rows of this side under their heads, and what is practised after the last of them."""
    sheet, words = setting.sheet(side), setting.words
    area = sheet.area
    head, y = title(sheet, words("plan.title"))
    items: list[Item] = [*head]
    if content.rows:
        every = [s.content for s in setting.bound.sides if isinstance(s.content, TermPlan)]
        rows = [row for each in every for row in each.rows]
        table = Table.of(rows, area.width, words)
        placed, y = table.heads(area.x, y)
        items += placed
        week = 0
        for row in content.rows:
            begins = "week" if row.week != week else ""
            begins = "side" if row is content.rows[0] else begins
            placed, y = table.row(row, (area.x, y), setting.bound, begins)
            items += placed
            week = row.week
        y += PRACTICE_GAP
    if content.practice:
        placed, _ = practice(content.practice, (area.x, y), area.width, words)
        items += placed
    return sheet, (*items, folio(side, sheet))


def share_plan(
    rows: Sequence[PlanRow], notes: PracticeNotes, sheet: Sheet, words: Words
) -> tuple[tuple[PlanRow, ...], ...]:
    """The rows that stand on each side; the last has room for what is practised."""
    area = sheet.area
    _, top = title(sheet, words("plan.title"))
    table = Table.of(rows, area.width, words)
    _, first = table.heads(area.x, top)
    _, end = practice(notes, (area.x, 0.0), area.width, words)
    room, tail = area.bottom - FOOT - first, PRACTICE_GAP + end
    found = [_filled(rows, table, room * percent / 100) for percent in range(100, 20, -2)]
    fitting = [s for s in found if sum(map(table.height, s[-1])) + tail <= room]
    whole = (*found[0], ())
    fewest = min(map(len, fitting), default=len(whole))
    if fewest >= len(whole):
        # Evenly all the same: what is practised goes with the last rows if that costs no side.
        return next((s for s in reversed(fitting) if len(s) == len(whole)), whole)
    return [s for s in fitting if len(s) == fewest][-1]


def _filled(rows: Sequence[PlanRow], table: Table, room: float) -> tuple[tuple[PlanRow, ...], ...]:
    """Rows on side after side, a week kept whole where it goes onto one."""
    sides: list[list[PlanRow]] = [[]]
    left = room
    for _, group in groupby(rows, key=lambda row: row.week):
        week = list(group)
        if sides[-1] and left < sum(map(table.height, week)) <= room:
            sides.append([])
            left = room
        for row in week:
            if sides[-1] and left < table.height(row):
                sides.append([])
                left = room
            sides[-1].append(row)
            left -= table.height(row)
    return tuple(tuple(side) for side in sides)


@dataclass(frozen=True, slots=True)
class Table:
    """Columns with their widths, and the gap between them, in millimetres.

    Names take what room is left, as far as they need it; more than that widens the gaps. Heads are
    broken only where whole ones leave names too little.
    """

    widths: tuple[tuple[str, float], ...]
    gap: float
    measure: float
    words: Words

    @classmethod
    def of(cls, rows: Sequence[PlanRow], measure: float, words: Words) -> Table:
        kept = [name for name in COLUMNS if name != "name"]
        need = max(LEAST_NAME, *(width(_named(row, words), "text", SIZE) + 0.5 for row in rows))
        wide = _heads(kept, rows, words, measure - need)
        for name in ("", *DISPENSABLE):
            kept = [each for each in kept if each != name]
            left = measure - sum(wide[each] + CELL_GAP for each in kept)
            if left >= LEAST_NAME:
                break
        wide = _heads(kept, rows, words, measure - min(left, need))
        left = measure - sum(wide[each] + CELL_GAP for each in kept)
        spare = max(left - need, 0.0) / len(kept)
        gap = min(CELL_GAP + spare, MOST_GAP)
        left -= (gap - CELL_GAP) * len(kept)
        widths = {**{name: wide[name] for name in kept}, "name": left}
        shown = tuple((name, widths[name]) for name in COLUMNS if name in widths)
        return cls(shown, gap, measure, words)

    def heads(self, x: float, top: float) -> Set:
        items: list[Item] = []
        deepest = 1
        for name, left, wide in self._places(x):
            lines = wrap(self.words(f"plan.{name}"), "strong", SIZE, wide)
            deepest = max(deepest, len(lines))
            for place, told in enumerate(lines):
                base = top + RISE + place * STEP
                cell = _cell(name, told, (left, base), wide, "strong")
                tag = "TH" if items else "THead"
                items.append(_tagged(cell, tag, bool(items), place > 0))
        below = top + deepest * STEP + 0.6
        items.append(Rule((x, below), (x + self.measure, below), "axis"))
        return tuple(items), below + 2.0

    def height(self, row: PlanRow) -> float:
        return (len(self._name(row)) + len(self._practised(row))) * STEP + ROW_GAP

    def row(self, row: PlanRow, at: tuple[float, float], bound: BoundBook, begins: str) -> Set:
        """A page's row; where it ``begins`` a "week" or a "side", with the week's number, and in
        the first case with a rule above it."""
        x, top = at
        items: list[Item] = []
        if begins == "week":
            line = top - 1.7
            items.append(Rule((x, line), (x + self.measure, line), "rule"))
        told = _told(row, self.words)
        told["page"] = bound.label_of(row.page.id)
        told["week"] = told["week"] if begins else ""
        cells = 0
        for name, left, wide in self._places(x):
            lines = self._name(row) if name == "name" else (told[name],)
            for place, each in enumerate(lines):
                base = top + RISE + place * STEP
                cell = _cell(name, each, (left, base), wide, "text")
                items.append(_tagged(cell, "TD" if cells else "TR", bool(cells), place > 0))
                cells += 1
        below = top + len(self._name(row)) * STEP
        items += self._practised_row(row, (x, below))
        where = bound.side_of(Answers).get(row.page.id)
        if where:
            items.append(
                InternalLink(Box(x, top, self.measure, below - top + ROW_GAP / 2), where.name)
            )
        return tuple(items), top + self.height(row)

    def _name(self, row: PlanRow) -> tuple[str, ...]:
        return wrap(_named(row, self.words), "text", SIZE, dict(self.widths)["name"])

    def _practised(self, row: PlanRow) -> tuple[str, ...]:
        """What the row's week practises, in lines from the column of names on."""
        if row.practises is None:
            return ()
        wide = self.measure - self._name_at
        return wrap(said(row.practises, self.words), "italic", SIZE, wide)

    def _practised_row(self, row: PlanRow, at: tuple[float, float]) -> Iterator[Item]:
        """A row of the table with the sentence in the column of names, and no more."""
        x, top = at
        told = self._practised(row)
        for name, _, _ in self._places(x) if told else ():
            tag = "TR" if name == COLUMNS[0] else "TD"
            for place, each in enumerate(told if name == "name" else ("",)):
                base = top + RISE + place * STEP
                cell = Line(x + self._name_at, base, each, SIZE, "italic", "start", "quiet")
                yield _tagged(cell, tag, tag == "TD", place > 0)

    @property
    def _name_at(self) -> float:
        return next(left for name, left, _ in self._places(0.0) if name == "name")

    def _places(self, x: float) -> Iterator[tuple[str, float, float]]:
        for name, wide in self.widths:
            yield name, x, wide
            x += wide + self.gap


def _named(row: PlanRow, words: Words) -> str:
    name = row.page.name
    return f"{name} ({words('plan.optional')})" if row.optional else name


def _cell(name: str, told: str, at: tuple[float, float], wide: float, face: Face) -> Line:
    role = "heading" if face == "strong" else "body"
    x, base = at
    if name in TO_LEFT:
        return Line(x, base, told, SIZE, face, "start", role)
    return Line(x + wide, base, told, SIZE, face, "end", role)


def _tagged(cell: Line, tag: str, parted: bool, goes_on: bool) -> Line:
    """A cell for a screen reader, ``parted`` by a space from the one before it in its row."""
    told = spaced(cell) if parted and cell.text else cell
    return replace(told, tag=tag, joins=goes_on)


def _heads(
    names: Sequence[str], rows: Sequence[PlanRow], words: Words, room: float
) -> dict[str, float]:
    """The widths of columns whose heads take as few lines as can be in ``room``."""
    for lines in HEAD_LINES:
        wide = {name: _widest(name, rows, words, lines) for name in names}
        if sum(each + CELL_GAP for each in wide.values()) <= room:
            break
    return wide


def _widest(name: str, rows: Sequence[PlanRow], words: Words, lines: int) -> float:
    """The width of a column: of its longest text, and of its head in so many ``lines``."""
    head = _in_lines(words(f"plan.{name}"), lines)
    cells = {"page": ["000"]}.get(name) or [_told(row, words)[name] for row in rows]
    return max([head, *(width(each, "text", SIZE) for each in set(cells))])


def _in_lines(head: str, lines: int) -> float:
    """The least width at which a head takes no more than ``lines`` and no word is torn."""
    parts = head.split()
    runs = [" ".join(parts[i:j]) for i in range(len(parts)) for j in range(i + 1, len(parts) + 1)]
    longest = max(width(part, "strong", SIZE) for part in parts)
    wide = sorted(width(run, "strong", SIZE) + 0.1 for run in runs)
    return next(w for w in wide if w > longest and len(wrap(head, "strong", SIZE, w)) <= lines)


def _told(row: PlanRow, words: Words) -> dict[str, str]:
    certificate = row.page.certificate
    error = certificate.work_error
    work = str(Estimate(certificate.work, error).printed)
    return {
        "week": str(row.week),
        "page": "",
        "spots": str(len(row.page.spots)),
        "chance": _chance(row.chance, words),
        "work": words("plan.about", number=work) if error else work,
        "band": words(f"band.{certificate.band}"),
        "largest": words.number(row.largest.text),
    }


def _chance(chance: Said | None, words: Words) -> str:
    if chance is None:
        return NOTHING
    told = words("key.chance", **chance.values)
    return told if chance.key == "key.chance" else words("plan.about", number=told)


def practice(notes: PracticeNotes, at: tuple[float, float], measure: float, words: Words) -> Set:
    """What is practised, in sentences, against what the grade expects."""
    items, y = heading(words("practice.title"), *at, measure)
    placed: list[Item] = [*items]
    for paragraph in notes.paragraphs:
        told = " ".join(said(each, words) for each in paragraph)
        lines, y = text(told, at[0], y, measure)
        placed += lines
        y += 1.2
    return tuple(placed), y
