"""What the teacher is told: of each page, of each chapter, of the term. Data, not yet words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from bookmaker.model.certificate import CertifiedPage
from bookmaker.model.numbers import Number

Arranged = tuple[Number, ...]
"""The number at each spot, in the order of the page's spots."""


@dataclass(frozen=True, slots=True)
class SpotOf:
    """A spot of a page, to be spoken of by its name and by the letter that the key gives it."""

    page: CertifiedPage
    name: str


@dataclass(frozen=True, slots=True)
class LettersOf:
    """A spot of a page, or a branch of spots, to be spoken of by letters alone."""

    page: CertifiedPage
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OneOf:
    """Numbers of which one stands somewhere: told with "or"."""

    numbers: Arranged


Value = Number | CertifiedPage | SpotOf | LettersOf | OneOf | str | int
"""What fills a place of a sentence; a text stands in the tables of words, or is a grade."""


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence as data: its key in the tables of words, and what fills its places.

    ``pages`` are those that it is true of. ``count`` picks the plural form. Layout puts values
    into words; the truth test has a predicate for each key.
    """

    key: str
    pages: tuple[CertifiedPage, ...]
    values: Values = field(default_factory=dict)
    count: int | None = None


Values = Mapping[str, Value | Said | tuple[Value | Said, ...]]
"""What fills the places of a sentence, by the places' names."""


@dataclass(frozen=True, slots=True)
class Row:
    """An arrangement under its page's letters, and what it is: the mirror, another solution."""

    label: Said
    numbers: Arranged


@dataclass(frozen=True, slots=True)
class PageNotes:
    """What the key says of a page beside its solution.

    ``mirror`` is None where it keeps not all given numbers where they are. ``rows`` are the image
    under the mirror and, where there are few, the other essentially different solutions.
    ``standing`` pairs spots with the numbers that stand there in some solution (all spots, or
    none where solutions are beyond counting). ``alike`` holds groups of branches that may be
    exchanged, each branch the names of its spots. What is said of all this stands in ``counts``,
    ``swaps``, ``places`` and ``hints``.
    """

    page: CertifiedPage
    mirror: Arranged | None
    rows: tuple[Row, ...]
    standing: tuple[tuple[str, Arranged], ...]
    alike: tuple[tuple[tuple[str, ...], ...], ...]
    counts: tuple[Said, ...] = ()
    swaps: tuple[Said, ...] = ()
    places: tuple[Said, ...] = ()
    hints: tuple[Said, ...] = ()


@dataclass(frozen=True, slots=True)
class Question:
    """A question to ask the class, and what to listen for."""

    asks: Said
    answer: Said


@dataclass(frozen=True, slots=True)
class ChapterNotes:
    """A chapter's questions, and wrong ideas with what speaks against them."""

    title: str
    first: CertifiedPage
    questions: tuple[Question, ...]
    wrong: tuple[Question, ...]


@dataclass(frozen=True, slots=True)
class MarkingNotes:
    """How to mark, as far as it is true of the book: heads with what stands under each."""

    paragraphs: tuple[tuple[Said, Said], ...]


@dataclass(frozen=True, slots=True)
class PlanRow:
    """A page in the term plan, and its largest number; ``optional`` where it stands beside its
    week, for those who want more.

    ``chance`` says how many arrangements solve it; None where they are beyond counting.
    ``practises`` stands with the last page of a week's main run: what that run practises.
    """

    week: int
    page: CertifiedPage
    chapter: str
    optional: bool
    chance: Said | None
    largest: Number
    practises: Said | None = None


@dataclass(frozen=True, slots=True)
class PracticeNotes:
    """What the book practises when each page is solved once: sentences that stand together in
    paragraphs."""

    paragraphs: tuple[tuple[Said, ...], ...]


@dataclass(frozen=True, slots=True)
class Teaching:
    """All that the teacher's section tells of a book, or of a part of one.

    ``pages`` by page id, in the order of the book. For a part the rest is left out, because a
    plan or a ramp of a few pages says nothing.
    """

    pages: Mapping[str, PageNotes]
    chapters: tuple[ChapterNotes, ...] = ()
    marking: MarkingNotes | None = None
    plan: tuple[PlanRow, ...] = ()
    practice: PracticeNotes | None = None
