"""The run of sides that makes a book: what stands on each, in the order of printing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal

from bookmaker.model.book import Link
from bookmaker.model.certificate import CertifiedPage, OrderedBook, OrderedChapter
from bookmaker.model.loose import PrintTest, Slip, Slips, Tokens, Trial
from bookmaker.model.numbers import Number
from bookmaker.model.teaching import (
    ChapterNotes,
    MarkingNotes,
    PageNotes,
    PlanRow,
    PracticeNotes,
    Teaching,
)


@dataclass(frozen=True, slots=True)
class Example:
    """A page of its own, worked: an arrangement with two the same, and the swap that mends it.

    ``start`` pairs every spot with its number, ``clash`` names the two links with the same
    difference, and exchanging the numbers of the two spots of ``swap`` makes a solution.
    """

    spots: tuple[str, ...]
    links: tuple[Link, ...]
    start: tuple[tuple[str, Number], ...]
    clash: tuple[str, str]
    swap: tuple[str, str]

    @property
    def solution(self) -> tuple[tuple[str, Number], ...]:
        """Every spot with its number after the swap."""
        at = dict(self.start)
        one, other = self.swap
        at[one], at[other] = at[other], at[one]
        return tuple(at.items())


@dataclass(frozen=True, slots=True)
class Family:
    """A page for those at home: how it works, and how to help without telling."""

    example: Example


@dataclass(frozen=True, slots=True)
class Credit:
    """Pictures of one artist under one licence, by the names of their pages."""

    artist: str
    licence: str
    names: tuple[str, ...]


GuidePart = Literal["marking", "ramp"]

Output = Literal["book", "children", "booklet", "key", "loose"]
"""Which document is made: the book with its key, the children's copy without it, that copy folded,
the key alone, or what is cut out and handed out singly."""


@dataclass(frozen=True, slots=True)
class Matter:
    """What stands in a document beside the puzzles: a worked example, what the key tells, and the
    slips of hints; each only where the document has it."""

    example: Example
    teaching: Teaching | None = None
    slips: tuple[Slip, ...] = ()


@dataclass(frozen=True, slots=True)
class KeyShares:
    """What goes onto each side of the teacher's section, as layout measured it.

    ``answers`` is how many pages are answered on a side; ``notes`` are by page id.
    """

    answers: int = 4
    notes: Mapping[str, PageNotes] = field(default_factory=dict)
    guide: tuple[tuple[GuidePart, ...], ...] = ()
    marking: MarkingNotes | None = None
    chapters: tuple[tuple[ChapterNotes, ...], ...] = ()
    plan: tuple[tuple[PlanRow, ...], ...] = ()
    practice: PracticeNotes | None = None


@dataclass(frozen=True, slots=True)
class Shares:
    """What goes onto each side of those parts of a book that may take several.

    Layout measures it, because it depends on the paper and on the words; binding puts it in
    its place.
    """

    contents: tuple[tuple[OrderedChapter, ...], ...]
    record: tuple[tuple[OrderedChapter, ...], ...]
    credits: tuple[tuple[Credit, ...], ...]
    howto: tuple[tuple[int, ...], ...] = ((1, 2, 3, 4),)
    key: KeyShares = field(default_factory=KeyShares)


@dataclass(frozen=True, slots=True)
class Cover:
    """The front of the book."""


@dataclass(frozen=True, slots=True)
class HowTo:
    """How a page is solved, in the ``steps`` (counted from 1) that stand on this side."""

    example: Example
    steps: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Contents:
    """A side of contents: chapters and those of their pages that stand on this side.

    ``first`` and ``last`` say whether it is the first and the last side of the contents.
    """

    entries: tuple[OrderedChapter, ...]
    first: bool = True
    last: bool = True


@dataclass(frozen=True, slots=True)
class Handout:
    """The first side of a part of a book: its title, and a ring to tick for each page."""

    title: str
    entries: tuple[OrderedChapter, ...]
    first: bool = True


@dataclass(frozen=True, slots=True)
class Record:
    """A side with a small picture and a ring to tick for each page."""

    entries: tuple[OrderedChapter, ...]
    first: bool = True


@dataclass(frozen=True, slots=True)
class Own:
    """An empty frame for a creature of one's own."""


@dataclass(frozen=True, slots=True)
class Credits:
    """Who made the pictures, and under which licence."""

    credits: tuple[Credit, ...]


@dataclass(frozen=True, slots=True)
class Opener:
    """The side before a chapter's first page."""

    chapter: OrderedChapter


@dataclass(frozen=True, slots=True)
class Puzzle:
    """One puzzle for a pupil."""

    page: CertifiedPage


@dataclass(frozen=True, slots=True)
class Answers:
    """A side of the key; ``notes`` go with its ``pages``, or there are none."""

    pages: tuple[CertifiedPage, ...]
    notes: tuple[PageNotes, ...] = ()


@dataclass(frozen=True, slots=True)
class Guide:
    """How to mark, and the ramp of the whole book: those ``parts`` that stand on this side."""

    parts: tuple[GuidePart, ...]
    notes: MarkingNotes


@dataclass(frozen=True, slots=True)
class ClassNotes:
    """Questions to ask and wrong ideas to expect, of the chapters on this side."""

    chapters: tuple[ChapterNotes, ...]
    first: bool = True


@dataclass(frozen=True, slots=True)
class TermPlan:
    """The rows of the term plan that stand on this side, and what is practised, after the last."""

    rows: tuple[PlanRow, ...]
    practice: PracticeNotes | None = None
    first: bool = True


@dataclass(frozen=True, slots=True)
class Blank:
    """A side left empty, so that what follows begins on a right-hand side."""


InKey = Guide | Answers | ClassNotes | TermPlan
InBook = Cover | HowTo | Contents | Handout | Opener | Puzzle | Record | Own | Credits | Blank
Content = InBook | InKey | PrintTest | Tokens | Slips | Trial | Family


@dataclass(frozen=True, slots=True)
class Side:
    """One side of paper: ``name`` unique in the book, ``label`` its number, printed or not."""

    name: str
    label: str
    recto: bool
    content: Content
    bookmark: tuple[int, str] | None = None


@dataclass(frozen=True)
class BoundBook:
    """All sides of one output, and where each puzzle and each answer stands (by page id).

    ``labels`` are the page numbers of the puzzles in the pupils' book, for a key that stands alone.
    """

    ordered: OrderedBook
    sides: tuple[Side, ...]
    labels: Mapping[str, str] = field(default_factory=dict)

    def side_of(self, kind: type[Puzzle] | type[Answers]) -> Mapping[str, Side]:
        """The side on which each page id is a puzzle, or is answered."""
        return self._answered if kind is Answers else self._puzzles

    def label_of(self, page_id: str) -> str:
        """The number that the puzzle bears in the pupils' book, "" where it stands in none."""
        side = self._puzzles.get(page_id)
        return side.label if side else self.labels.get(page_id, "")

    @cached_property
    def _puzzles(self) -> Mapping[str, Side]:
        return {
            side.content.page.id: side for side in self.sides if isinstance(side.content, Puzzle)
        }

    @cached_property
    def _answered(self) -> Mapping[str, Side]:
        return {
            page.id: side
            for side in self.sides
            if isinstance(side.content, Answers)
            for page in side.content.pages
        }
