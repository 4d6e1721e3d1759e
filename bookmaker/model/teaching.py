"""What the teacher is told: of each page, of each chapter, of the term. Data, not yet words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from bookmaker.model.certificate import CertifiedPage
from bookmaker.model.loose import FactKind
from bookmaker.model.numbers import Number

Arranged = tuple[Number, ...]
"""The number at each spot, in the order of the page's spots."""


@dataclass(frozen=True, slots=True)
class Given:
    """A rung of the hint ladder: ``number`` at ``spot`` leaves ``left`` solutions alive.

    ``mirror``: see ``Slip``.
    """

    spot: str
    number: Number
    left: int | None
    mirror: tuple[Number, Number] | None = None


@dataclass(frozen=True, slots=True)
class PageNotes:
    """What the key says of a page beside its solution.

    ``mirror`` is None where its numbers have none. ``others`` are the other essentially different
    solutions where there are few, else none. ``standing`` pairs spots with the numbers that stand
    there in some solution (all spots, or none where solutions are beyond counting). ``alike``
    holds groups of branches that may be exchanged, each branch the names of its spots.
    """

    page: CertifiedPage
    mirror: Arranged | None
    others: tuple[Arranged, ...]
    standing: tuple[tuple[str, Arranged], ...]
    alike: tuple[tuple[tuple[str, ...], ...], ...]
    fact: FactKind
    fact_numbers: Arranged
    fact_spot: str | None
    ladder: tuple[Given, ...]


@dataclass(frozen=True, slots=True)
class SpotOf:
    """A spot of a page, to be spoken of by its name and by the letter that the key gives it."""

    page: CertifiedPage
    name: str


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence by its key in the tables of words, and what fills its places.

    A value that is a ``Number``, a page, a spot or a sequence of them is put into words by layout;
    ``count`` picks the plural form.
    """

    key: str
    values: Mapping[str, object]
    count: int | None = None


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
    """The pages whose numbers make the examples of "how to mark".

    ``example`` is a page with a mirror, ``many`` the one with the most solutions; None where the
    book has no such page. ``total`` is what the differences of ``example`` add up to.
    """

    example: PageNotes | None
    many: CertifiedPage | None
    step: Number | None
    total: Number | None


@dataclass(frozen=True, slots=True)
class PlanRow:
    """A page in the term plan: its week, its largest number, and how many subtractions cross a
    ten when it is solved once, of how many; ``optional`` where its chapter is."""

    week: int
    page: CertifiedPage
    chapter: str
    optional: bool
    largest: Number
    crossing: float
    subtractions: int


@dataclass(frozen=True, slots=True)
class PracticeNotes:
    """What the book practises when each page is solved once.

    ``common`` pairs the commonest differences with how often they occur; ``standards`` are
    (system, code, key of its words); ``suggestions`` pairs of start and step that suit the grade.
    """

    grade: str
    subtractions: int
    crossing: int
    largest: Number
    common: tuple[tuple[Number, int], ...]
    standards: tuple[tuple[Literal["common core", "england"], str, str], ...]
    level: Literal["below", "at", "above"]
    suggestions: tuple[tuple[str, str], ...]


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
