"""The pipeline: a manifest in, a certified and finished book out, one line a stage."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from bookmaker.classroom.class_book import (
    ClassBook,
    class_book_of,
    copies_of,
    opening_with,
    problems_with_class,
    with_cover_of,
)
from bookmaker.context import BuildContext, BuildOptions
from bookmaker.layout import (
    Binding,
    PlacedPuzzle,
    Setting,
    bind,
    fit_book,
    impose_booklet,
    lay_out,
    upright,
)
from bookmaker.linking import hidden_creatures, join_pages, link_book
from bookmaker.model import (
    Book,
    BoundBook,
    InputProblems,
    OrderedBook,
    Picture,
    PlacedPage,
    Problem,
)
from bookmaker.ordering import (
    in_order,
    numbers_by_week,
    take_part,
    title_of_part,
    warnings_of,
    with_numbers,
)
from bookmaker.output import Staging
from bookmaker.pdf import INKS, Document, Ink, Pressed, check_pdf, press, ready_for
from bookmaker.pictures import take_in_art
from bookmaker.placement import remembering
from bookmaker.puzzle import certify_pages
from bookmaker.reading import open_manifest
from bookmaker.teaching import above_grade, matter_for
from bookmaker.typeset import missing_in, sheets_to_try
from bookmaker.words import load


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

    @property
    def sheets(self) -> int:
        """How many sheets of paper it takes, printed on both sides."""
        return -(-len(self.printed) // 2)


def prepare(manifest: Path, options: BuildOptions, context: BuildContext) -> Prepared:
    """Everything before binding; gives every problem of the input, told together.

    Raises InputProblems and NotInBook for what is wrong with a class that is asked for.
    """
    context = context.for_edition(options.edition)
    reading = open_manifest(manifest)
    if reading.book is None:
        return Prepared(None, None, {}, {}, reading.problems)
    words = load(reading.book.language)
    linked = link_book(reading.book, context.cache, context.seed)  # whatever picture is swapped in
    class_book = class_book_of(linked.book, options.edition, words)
    book = class_book.book if class_book else linked.book
    book = upright(book) if options.output == "booklet" else book
    pictures, art_problems = take_in_art(book, context.cache)
    book, _, free = join_pages(book, pictures, context.cache, context.seed)
    book = replace(book, paper=options.paper or book.paper)
    book, ordered, unsolvable = _certified(book, context)
    sheets = sheets_to_try(book, options.scale)
    fitted = fit_book(ordered, pictures, words, sheets, context.cache)
    placed = {
        id: (each.art.box, each.tree.spots) for id, each in fitted.puzzles.items() if each.art
    }
    hidden = hidden_creatures(ordered.pages, pictures, placed, context.cache)
    ordered = replace(ordered, paper=fitted.paper)
    found = (*reading.problems, *missing_in(book), *art_problems, *linked.problems)
    found += (
        *free,
        *unsolvable,
        *fitted.problems,
        *hidden,
        *warnings_of(ordered),
        *above_grade(ordered),
    )
    if class_book:
        found = problems_with_class(found, class_book, ordered, reading.book.paper, words)
        ordered = opening_with(ordered, class_book.own)
    own = reading.book.paper
    return Prepared(book, ordered, pictures, fitted.puzzles, found, own, class_book)


def _certified(book: Book, context: BuildContext) -> tuple[Book, OrderedBook, tuple[Problem, ...]]:
    """The book in its order, and what can't be solved. Numbers that are left to us follow from the
    order, which they keep; what is printed is certified."""
    pages = context.watch("certifying", book.pages)
    certified, unsolvable = certify_pages(pages, context.cache, context.seed)
    ordered = in_order(book, certified)
    if any(page.graded for page in book.pages):
        book = with_numbers(book, numbers_by_week(ordered))
        certified, unsolvable = certify_pages(book.pages, context.cache, context.seed)
        ordered = in_order(book, certified)
    return book, ordered, unsolvable


def own_copies(
    manifest: Path, options: BuildOptions, context: BuildContext
) -> Iterator[tuple[Prepared, BuildOptions]]:
    """What each pupil's own copy of a class's book is made of, and the options that go with it;
    the book is prepared once for all whose drawings may stand in everybody's."""
    assert options.edition is not None
    shared = prepare(manifest, options, context)
    class_book = shared.class_book
    if shared.ordered is None or class_book is None or not shared.is_sound:
        raise InputProblems(shared.problems)
    for sheet, pupil in copies_of(options.edition):
        mine = replace(options, edition=replace(options.edition, pupil=pupil.name))
        if pupil.drawing == "own":
            yield prepare(manifest, mine, context), mine
        else:
            ordered = opening_with(with_cover_of(shared.ordered, sheet), sheet)
            told = replace(class_book, own=sheet)
            yield replace(shared, ordered=ordered, class_book=told), mine


def compile_book(manifest: Path, options: BuildOptions, context: BuildContext) -> Compiled:
    """Read, take in the pictures, certify, order, bind, lay out, draw and press one document.

    Raises InputProblems with every problem found, NotInBook for a part that is not there,
    CertificateFault where a check of ours fails.
    """
    context = context.for_edition(options.edition)
    return compile_prepared(prepare(manifest, options, context), options, context)


def compile_prepared(prepared: Prepared, options: BuildOptions, context: BuildContext) -> Compiled:
    """The second half of ``compile_book``: a prepared book bound, laid out, drawn and pressed."""
    if prepared.ordered is None or not prepared.is_sound:
        raise InputProblems(prepared.problems)
    ordered, part = take_part(prepared.ordered, options.part)
    words, pictures, puzzles = load(ordered.language), prepared.pictures, prepared.puzzles
    title = title_of_part(ordered, options.part, words)
    matter = matter_for(ordered, options.output, title, context.cache, context.seed)
    binding = Binding(
        options.output,
        words,
        options.scale,
        title,
        whole=prepared.ordered,
        is_week=bool(options.part.weeks),
    )
    bound = bind(ordered, matter, binding, puzzles)
    arrange = remembering(context.cache)
    setting = Setting(ordered.paper, words, bound, pictures, puzzles, options.scale, arrange)
    pages = tuple(lay_out(side, setting) for side in context.watch("laying out", bound.sides))
    booklet = options.output == "booklet"
    printed = impose_booklet(pages, ordered.paper, words) if booklet else pages
    ink = INKS[options.ink]
    inked = ready_for(ink, pictures, context.cache)
    ink = ink.over([picture.cover for picture in inked.values()])
    document = Document(ordered.title, ordered.language, ordered.author, date=context.date)
    pdf = press(printed, ink, inked, document, context.cache)
    return Compiled(prepared, bound, pages, printed, pdf, part, inked, ink)


def finish(compiled: Compiled, place: Path, staging: Staging) -> str:
    """Write the PDF beside its place, open and check it there; gives its SHA-256.

    Raises OutputFault, and FinishedFileFault where the file is not what was laid out.
    """
    written = staging.put(place, compiled.pdf)
    check_pdf(written.file, compiled.printed, compiled.ink.grey, place.name)
    return written.sha256
