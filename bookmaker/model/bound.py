"""The run of sides that makes a book: what stands on each, in the order of printing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from bookmaker.model.book import Book, Chapter
from bookmaker.model.certificate import CertifiedPage


@dataclass(frozen=True, slots=True)
class OrderedChapter:
    """A chapter with its pages in the order of the book."""

    chapter: Chapter
    pages: tuple[CertifiedPage, ...]


@dataclass(frozen=True, slots=True)
class OrderedBook:
    """A certified book in its order."""

    book: Book
    chapters: tuple[OrderedChapter, ...]

    @property
    def pages(self) -> tuple[CertifiedPage, ...]:
        return tuple(page for chapter in self.chapters for page in chapter.pages)


@dataclass(frozen=True, slots=True)
class Cover:
    """The front of the book."""


@dataclass(frozen=True, slots=True)
class Contents:
    """A side of contents: chapters and those of their pages that stand on this side."""

    entries: tuple[OrderedChapter, ...]


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
    """A side of the key."""

    pages: tuple[CertifiedPage, ...]


@dataclass(frozen=True, slots=True)
class Blank:
    """A side left empty, so that what follows begins on a right-hand side."""


Content = Cover | Contents | Opener | Puzzle | Answers | Blank


@dataclass(frozen=True, slots=True)
class Side:
    """One side of paper: ``name`` unique in the book, ``label`` its printed number or ""."""

    name: str
    label: str
    recto: bool
    content: Content
    bookmark: tuple[int, str] | None = None


@dataclass(frozen=True, slots=True)
class BoundBook:
    """All sides of one output, and where each puzzle and each answer stands (by page id)."""

    ordered: OrderedBook
    sides: tuple[Side, ...]

    def side_of(self, kind: type[Puzzle] | type[Answers]) -> Mapping[str, Side]:
        """The side on which each page id is a puzzle, or is answered."""
        return {
            page.page.id: side
            for side in self.sides
            if isinstance(side.content, kind)
            for page in (
                side.content.pages if isinstance(side.content, Answers) else (side.content.page,)
            )
        }
