"""The pipeline: a manifest in, a certified and finished book out, one line a stage."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from bookmaker.cache import BorrowedCache
from bookmaker.context import Workshop
from bookmaker.layout import (
    PlacedPuzzle,
    Setting,
    bind_book,
    bind_key,
    bind_loose,
    bind_part,
    bind_slides,
    impose,
    lay_out,
    lay_out_booklet,
    measure_key,
    measure_loose,
    measure_shares,
    place_puzzles,
)
from bookmaker.linking import join_pages, spot_pages
from bookmaker.model import (
    Book,
    BoundBook,
    InputProblems,
    KeyShares,
    OrderedBook,
    Picture,
    PlacedPage,
    Problem,
)
from bookmaker.ordering import Part, in_order, take_part, warnings_of
from bookmaker.output import Staging
from bookmaker.pdf import INKS, Document, Ink, Pressed, check_pdf, press, ready_for
from bookmaker.pictures import take_in_art
from bookmaker.placement import remembering
from bookmaker.puzzle import certify_pages
from bookmaker.reading import open_manifest
from bookmaker.teaching import above_grade, hint_slips, teaching, worked_example
from bookmaker.typeset import LARGE, Sheet, missing_in
from bookmaker.words import Words, load

if TYPE_CHECKING:
    from bookmaker.classroom.class_book import ClassBook, Edition

SPILLING = frozenset({"a5", "half-letter"})
"""Papers on which large print is not kept on its sheet yet: the check lets it pass."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to be made of a book: which part, on which paper, in which ink, with its key, and
    with which class's drawings?"""

    paper: str | None = None
    part: Part = field(default_factory=Part)
    ink: str = "full"
    key: bool = True
    book: bool = True
    large: bool = False
    booklet: bool = False
    loose: bool = False
    edition: Edition | None = None

    @property
    def scale(self) -> float:
        return LARGE if self.large else 1.0


@dataclass(frozen=True, slots=True)
class Prepared:
    """A book that has been read, certified, ordered and fitted onto its paper."""

    book: Book | None
    ordered: OrderedBook | None
    pictures: Mapping[Path, Picture]
    puzzles: Mapping[str, PlacedPuzzle]
    problems: tuple[Problem, ...]
    own_paper: str = ""
    class_book: ClassBook | None = None

    @property
    def is_sound(self) -> bool:
        return not any(problem.severity == "problem" for problem in self.problems)


@dataclass(frozen=True, slots=True)
class Compiled:
    """A finished document: its pages as they were laid out and as they are printed, and the PDF.

    ``inked`` are the pictures as they were printed, by their digests.
    """

    prepared: Prepared
    bound: BoundBook
    pages: tuple[PlacedPage, ...]
    printed: tuple[PlacedPage, ...]
    pdf: Pressed
    part: tuple[str, ...]
    inked: Mapping[str, Picture]
    ink: Ink
    spills: bool = False

    @property
    def sheets(self) -> int:
        """How many sheets of paper it takes, printed on both sides."""
        return -(-len(self.printed) // 2)


def prepare(
    manifest: Path,
    paper: str | None,
    workshop: Workshop,
    scale: float = 1.0,
    upright: bool = False,
    edition: Edition | None = None,
) -> Prepared:
    """Everything before binding; gives every problem of the input, told together.

    ``scale`` is over 1 in large print; ``upright`` turns no page on its side; ``edition`` puts a
    class's drawings onto the pages (raises InputProblems and NotInBook for what is wrong there).
    """
    reading = open_manifest(manifest)
    if reading.book is None:
        return Prepared(None, None, {}, {}, reading.problems)
    workshop = _discreet(workshop, edition)
    words = load(reading.book.language)
    class_book = _class_book(reading.book, edition, words)
    book = class_book.book if class_book else reading.book
    book = _upright(book) if upright else book
    pictures, art_problems = take_in_art(book, workshop.cache)
    book, spotted = spot_pages(book, pictures, workshop.cache)
    book, _, joined = join_pages(book, pictures, workshop.cache, workshop.seed)
    book = replace(book, paper=paper or book.paper)  # the key is the same on any paper
    certified, unsolvable = certify_pages(
        workshop.watch("certifying", book.pages), workshop.cache, workshop.seed
    )
    ordered = in_order(book, certified)
    sheets = _sheets(book.paper, scale, upright)
    puzzles, unplaced = place_puzzles(ordered, pictures, words, sheets, workshop.cache)
    told = (*reading.problems, *missing_in(book), *art_problems)
    warned = (*warnings_of(ordered), *above_grade(ordered))
    if class_book:
        moved = _moved(class_book, ordered, reading.book.paper, words)
        told = (*told, *class_book.problems, *moved)
        warned = tuple(warning for warning in warned if warning.code != "twins")
        joined = tuple(note for note in joined if note.file != class_book.classroom.roster_file)
    found = (*told, *spotted, *joined, *unsolvable, *unplaced, *warned)
    return Prepared(book, ordered, pictures, puzzles, found, reading.book.paper, class_book)


def compile_book(manifest: Path, wanted: Wanted, workshop: Workshop) -> Compiled:
    """Read, take in the pictures, certify, order, bind, lay out, draw and press one document.

    Raises InputProblems with every problem found, NotInBook for a part that is not there,
    CertificateFault where a check of ours fails.
    """
    workshop = _discreet(workshop, wanted.edition)
    prepared = prepare(
        manifest, wanted.paper, workshop, wanted.scale, wanted.booklet, wanted.edition
    )
    if prepared.ordered is None or not prepared.is_sound:
        raise InputProblems(prepared.problems)
    ordered, part = take_part(prepared.ordered, wanted.part)
    words = load(ordered.language)
    if wanted.loose:
        bound = _loose(ordered, prepared.puzzles, words, workshop)
    else:
        bound = _bind(ordered, wanted, workshop)
    paper, pictures = ordered.paper, prepared.pictures
    arrange = remembering(workshop.cache)
    setting = Setting(paper, words, bound, pictures, prepared.puzzles, wanted.scale, arrange)
    pages = tuple(lay_out(side, setting) for side in workshop.watch("laying out", bound.sides))
    ink = INKS[wanted.ink]
    inked = ready_for(ink, pictures, workshop.cache)
    printed = _imposed(pages, paper, words) if wanted.booklet else pages
    pdf = press(printed, ink, inked, _document(ordered, workshop.date), workshop.cache)
    spills = wanted.large and paper in SPILLING
    return Compiled(prepared, bound, pages, printed, pdf, part, inked, ink, spills)


def finish(compiled: Compiled, place: Path, staging: Staging) -> str:
    """Write the PDF beside its place, open and check it there; gives its SHA-256.

    Raises OutputFault, and FinishedFileFault where the file is not what was laid out.
    """
    written = staging.put(place, compiled.pdf)
    check_pdf(written.file, compiled.printed, compiled.ink.grey, place.name, compiled.spills)
    return written.sha256


def _class_book(book: Book, edition: Edition | None, words: Words) -> ClassBook | None:
    """The class's book, where one is asked for: few are, and its stage takes time to load."""
    if edition is None:
        return None
    from bookmaker.classroom.class_book import class_book

    return class_book(book, edition, words)


def _moved(
    class_book: ClassBook, ordered: OrderedBook, paper: str, words: Words
) -> tuple[Problem, ...]:
    from bookmaker.classroom.class_book import moved_since

    return tuple(moved_since(class_book, ordered, paper, words))


def _discreet(workshop: Workshop, edition: Edition | None) -> Workshop:
    """For a class: nothing of the children's drawings stays in the cache."""
    return replace(workshop, cache=BorrowedCache(workshop.cache)) if edition else workshop


def _upright(book: Book) -> Book:
    """A booklet's pages share their sheets, so that none of them can lie on its side."""
    chapters = (
        replace(chapter, pages=tuple(replace(page, turn=False) for page in chapter.pages))
        for chapter in book.chapters
    )
    return replace(book, chapters=tuple(chapters))


def _sheets(paper: str, scale: float, alike: bool) -> tuple[Sheet, ...]:
    """The sheets to try for a puzzle: the book's own paper, and A3 for large print.

    ``alike``: every page has to be on the same paper.
    """
    papers = (paper,) if scale == 1 or alike or paper in ("a3", "board") else (paper, "a3")
    return tuple(Sheet(name, recto=True, scale=scale) for name in papers)


def _bind(ordered: OrderedBook, wanted: Wanted, workshop: Workshop) -> BoundBook:
    words, whole = load(ordered.language), wanted.part.is_whole
    kinds = ("howto", "contents", "record", "own", "credits", "answers", "notes", "plan")
    titles = {kind: words(f"{kind}.title") for kind in kinds}
    titles["key"] = words("key.for" if whole else "key.title")
    key = KeyShares()
    if wanted.key or not wanted.book:
        told = teaching(ordered, workshop.cache, workshop.seed, whole)
        key = measure_key(ordered, told, words, wanted.scale)
    if not wanted.book:
        return bind_key(ordered, titles, key, whole)
    shares = replace(measure_shares(ordered, words, wanted.scale), key=key)
    if whole:
        bind = bind_slides if ordered.paper == "board" else bind_book
        return bind(ordered, shares, worked_example(ordered), titles, wanted.key)
    return bind_part(ordered, shares, _part_title(ordered, wanted.part, words), titles, wanted.key)


def _loose(
    ordered: OrderedBook, puzzles: Mapping[str, PlacedPuzzle], words: Words, workshop: Workshop
) -> BoundBook:
    slips = hint_slips(ordered, workshop.cache, workshop.seed)
    shares = measure_loose(ordered, slips, puzzles, words)
    titles = {kind: words(f"{kind}.title") for kind in ("test", "tokens", "slips", "family")}
    titles["trial"] = words("trial.outline")
    return bind_loose(ordered, shares, worked_example(ordered), titles)


def _part_title(ordered: OrderedBook, part: Part, words: Words) -> str:
    """What the first side of a part is headed with: its weeks, its chapters, or the book."""
    weeks = [words("part.week", number=week) for week in part.weeks]
    chapters = [chapter.title for chapter in ordered.chapters] if part.chapters else []
    if part.pages or not (weeks or chapters):
        return ordered.title
    return words("list.mark").join((*weeks, *chapters))


def _imposed(pages: tuple[PlacedPage, ...], paper: str, words: Words) -> tuple[PlacedPage, ...]:
    return lay_out_booklet(pages, impose(len(pages)), paper, words)


def _document(book: Book, date: datetime | None) -> Document:
    return Document(book.title, book.language, book.author, date=date)
