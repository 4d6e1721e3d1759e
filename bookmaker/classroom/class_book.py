"""The class's book: a book and its class in, the book with the pupils' drawings on its pages out.

A drawing enters where the roster permits it and the review says yes, and nowhere else.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from bookmaker.classroom.choosing import Chosen, choose
from bookmaker.classroom.drawn_page import drawn_page, free_page, has_other_tree, sheet_holds
from bookmaker.classroom.forgotten import read_forgotten
from bookmaker.classroom.redaction import redacted
from bookmaker.classroom.register import NAME as REGISTER
from bookmaker.classroom.register import read_register
from bookmaker.classroom.sheet_page import FREE, rings_of
from bookmaker.layout import has_moved
from bookmaker.model import (
    Book,
    CertifiedPage,
    Chapter,
    Classroom,
    InputProblems,
    OrderedBook,
    Page,
    Problem,
    Pupil,
)
from bookmaker.ordering import NotInBook, nearest
from bookmaker.reading import read_class
from bookmaker.typeset import missing_in_titles, sheet_of
from bookmaker.words import Words


@dataclass(frozen=True, slots=True)
class Edition:
    """Which class's book is wanted: its manifest, whether drawings that nobody said no to count
    as looked at, and the pupil whose own copy it is to be ("": the class's book)."""

    manifest: Path
    use_all: bool = False
    pupil: str = ""


@dataclass(frozen=True, slots=True)
class ClassBook:
    """The book with its drawings. ``before`` are the book's pages by the ids of what was drawn
    around their trees; ``own`` is the sheet of the pupil whose copy it is."""

    book: Book
    classroom: Classroom
    before: Mapping[str, Page]
    own: int | None
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class _Version:
    """A page with a drawing, and the page as the book has it."""

    page: Page
    before: Page


def class_book_of(book: Book, edition: Edition | None, words: Words) -> ClassBook | None:
    """The class's book of ``book``, where an edition is asked for."""
    return class_book(book, edition, words) if edition else None


def class_book(book: Book, edition: Edition, words: Words) -> ClassBook:
    """Put the drawings of a class onto the pages of ``book``.

    Raises InputProblems where a file of the class can't be read or its pupil's copy can't be
    made, NotInBook for a pupil that the roster has not got.
    """
    reading = read_class(edition.manifest)
    if reading.classroom is None:
        raise InputProblems(reading.problems)
    mine = _pupil(reading.classroom, edition.pupil)
    forgotten = read_forgotten(reading.classroom.folder)
    classroom, kept_back = redacted(reading.classroom, forgotten, mine)
    mine = classroom.pupil(mine.name) if mine else None
    register = read_register(classroom.folder / REGISTER)
    chosen, told = choose(classroom, register, mine, edition.use_all)
    known = {page.id: page for page in book.pages}
    gone = _pages_gone(classroom, chosen, known)
    swapped, unswapped = _swapped(classroom, known)
    versions, faults = _versions(classroom, known, chosen, words)
    hidden = _swaps_left_out(classroom, swapped, {version.before.id for version in versions})
    own = _own(classroom, chosen, mine)
    full = _filled(book, versions, swapped)
    free, unfree = _free_pages(book, classroom, chosen, words)
    full = _with_chapter(full, classroom, free, words)
    cover, uncovered = _cover(book, classroom, full, own)
    title = classroom.title or book.title
    full = replace(full, title=title, school=book.title, cover=cover)
    before = {version.page.id: version.before for version in versions}
    problems = (*reading.problems, *kept_back, *missing_in_titles(classroom), *told, *gone)
    problems += (*unswapped, *faults, *hidden, *unfree, *uncovered)
    return ClassBook(full, classroom, before, own, problems)


def copies_of(edition: Edition) -> tuple[tuple[int, Pupil], ...]:
    """The pupils who may have a copy of their own, each with the sheet of the drawing that opens
    it. Raises InputProblems."""
    reading = read_class(edition.manifest)
    if reading.classroom is None:
        raise InputProblems(reading.problems)
    classroom = reading.classroom
    register = read_register(classroom.folder / REGISTER)
    alone = [pupil for pupil in classroom.pupils if pupil.drawing == "own"]
    found: dict[str, tuple[int, Pupil]] = {}
    for own in (None, *alone):
        for one in choose(classroom, register, own, edition.use_all)[0]:
            if own is None or one.pupil == own:
                found.setdefault(one.pupil.name, (one.entry.sheet, one.pupil))
    return tuple(sorted(found.values(), key=lambda each: each[0]))


def opening_with(ordered: OrderedBook, own: int | None) -> OrderedBook:
    """The copy of the pupil of the sheet ``own``: it opens with the pupil's own page."""
    mine = next((page for page in ordered.pages if own and page.sheet == own), None)
    if mine is None:
        return ordered
    left = [replace(c, pages=tuple(p for p in c.pages if p != mine)) for c in ordered.chapters]
    first, *others = [chapter for chapter in left if chapter.pages] or left[:1]
    first = replace(first, pages=(mine, *first.pages))
    return replace(ordered, chapters=(first, *others))


def with_cover_of(ordered: OrderedBook, sheet: int) -> OrderedBook:
    """The book with the drawing of ``sheet`` on its cover."""
    cover = next((page.art for page in ordered.pages if page.sheet == sheet), ordered.cover)
    return replace(ordered, cover=cover, has_own_cover=False)


def problems_with_class(
    found: Sequence[Problem], drawn: ClassBook, ordered: OrderedBook, paper: str, words: Words
) -> tuple[Problem, ...]:
    """What was ``found`` in the whole book and what there is to say of its drawings.

    ``paper`` is the book's own. Two drawings of one page are no twins, and links that were chosen
    for a child's rings nobody can write into a manifest.
    """
    roster = drawn.classroom.roster_file
    told = (
        problem
        for problem in found
        if problem.code != "twins"
        and not (problem.file == roster and problem.code in ("links-chosen", "wish-not-reached"))
    )
    return (*told, *drawn.problems, *moved_since(drawn, ordered, paper, words))


def moved_since(
    drawn: ClassBook, ordered: OrderedBook, paper: str, words: Words
) -> Iterator[Problem]:
    """Says where the book has moved a page's spots since its sheet was printed.

    ``paper`` is the book's own.
    """
    for page in ordered.pages:
        before, sheet = drawn.before.get(page.id), page.sheet
        if before is None or before.unplaced or page.drawn is None or sheet is None:
            continue
        if has_other_tree(before, page):
            continue  # told already
        as_before = CertifiedPage.of(before, page.certificate)
        sheet_then = replace(sheet_of(ordered), paper=paper)
        if has_moved(as_before, page.drawn, sheet_then, words):
            yield sheet_holds(before, sheet)


def _pupil(classroom: Classroom, name: str) -> Pupil | None:
    """The pupil whose own copy it is to be; raises where there is none or it may not be made."""
    if not name:
        return None
    pupil = classroom.pupil(name)
    if pupil is None:
        names = [each.name for each in classroom.pupils]
        raise NotInBook(f"The class has no pupil {name!r}.{nearest(name, names)}")
    if pupil.drawing == "no":
        message = "the roster says no to the drawing"
        mend = "Ask the family; then write own or class in the column drawing."
        told = (classroom.roster_file, pupil.line, pupil.name, "not-permitted", message, mend)
        raise InputProblems([Problem(*told)])
    return pupil


def _own(classroom: Classroom, chosen: Sequence[Chosen], pupil: Pupil | None) -> int | None:
    if pupil is None:
        return None
    mine = [one.entry.sheet for one in chosen if one.pupil == pupil]
    if mine:
        return mine[0]
    message = "there is no drawing with a yes in review.csv"
    mend = "Take the drawing in with bookmaker intake, and say yes to it."
    told = (classroom.roster_file, pupil.line, pupil.name, "no-drawing", message, mend)
    raise InputProblems([Problem(*told)])


def _versions(
    classroom: Classroom, known: Mapping[str, Page], chosen: Sequence[Chosen], words: Words
) -> tuple[list[_Version], list[Problem]]:
    """A page for each drawing of a page that the book has, and what is to be said of them."""
    versions: list[_Version] = []
    problems: list[Problem] = []
    for one in chosen:
        page, sheet = known.get(one.entry.page), one.entry.sheet
        if page is None:
            continue
        made = drawn_page(page, one.entry, one.pupil, one.drawing, words)
        if isinstance(made, Problem):
            problems.append(made)
            continue
        if has_other_tree(page, made):
            problems.append(sheet_holds(page, sheet))
        taken = {version.page.id for version in versions}
        if any(version.before.id == page.id for version in versions):
            taken |= set(known)
        made = replace(made, id=_free_id(made.id, sheet, taken), file=classroom.roster_file)
        versions.append(_Version(made, page))
    return versions, problems


def _filled(book: Book, versions: Sequence[_Version], swapped: Mapping[str, Page]) -> Book:
    """The book with its drawings; pages without one keep their picture."""
    drawn: dict[str, list[Page]] = {}
    for version in versions:
        drawn.setdefault(version.before.id, []).append(version.page)
    chapters = tuple(
        replace(
            chapter,
            pages=_in_their_places(
                [drawn.get(page.id, [swapped.get(page.id, page)]) for page in chapter.pages]
            ),
        )
        for chapter in book.chapters
    )
    return replace(book, chapters=chapters)


def _in_their_places(versions: Sequence[Sequence[Page]]) -> tuple[Page, ...]:
    """A chapter's pages: versions of one with a fixed place follow each other from there on, and
    pages with a later one move on by as many."""
    more = {page.position: len(others) for page, *others in versions if page.position}

    def place(page: Page, nth: int) -> int | None:
        at = page.position
        return at and at + nth + sum(count for other, count in more.items() if other < at)

    return tuple(
        replace(page, position=place(page, nth))
        for pages in versions
        for nth, page in enumerate(pages)
    )


def _cover(
    book: Book, classroom: Classroom, full: Book, own: int | None
) -> tuple[Path | None, tuple[Problem, ...]]:
    """The drawing of the pupil whose copy it is; else what the class chose, a sheet's drawing or a
    picture; else the ``book``'s own cover: never a drawing by chance."""
    drawings = {page.sheet: page.art for page in full.pages if page.sheet}
    usual = book.cover or next((page.art for page in book.pages if page.art), None)
    if own in drawings:
        return drawings[own], ()
    if classroom.cover is None or isinstance(classroom.cover, Path):
        return classroom.cover or usual, ()
    if classroom.cover in drawings:
        return drawings[classroom.cover], ()
    message = f"the drawing of sheet {classroom.cover} does not stand in the book, so it is not on "
    message += "the cover"
    mend = "Name a sheet whose drawing has a yes and may stand in the class's book, or a picture."
    line = dict(classroom.lines).get("cover", 0)
    told = Problem(classroom.file, line, "", "left-out", message, mend, "warning")
    return usual, (told,)


def _free_pages(
    book: Book, classroom: Classroom, chosen: Sequence[Chosen], words: Words
) -> tuple[list[Page], list[Problem]]:
    """Pages for free sheets."""
    template = max(book.pages, key=lambda page: len(page.spots))
    pages: list[Page] = []
    problems: list[Problem] = []
    for one in chosen:
        if not rings_of(one.entry.page):
            continue
        made = free_page(template, one.entry, one.pupil, (one.drawing, one.rings), words)
        if isinstance(made, Problem):
            problems.append(made)
        else:
            pages.append(replace(made, file=classroom.roster_file))
    return pages, problems


def _with_chapter(book: Book, classroom: Classroom, pages: Sequence[Page], words: Words) -> Book:
    """The book with a last chapter of the creatures that were drawn before they had spots."""
    if not pages:
        return book
    title = words("class.free")
    name = f"{FREE}-sheets"
    made = tuple(replace(page, chapter=name) for page in pages)
    chapter = Chapter(name, title, "", classroom.roster_file, True, made)
    return replace(book, chapters=(*book.chapters, chapter))


def _free_id(page_id: str, sheet: int, taken: set[str]) -> str:
    """The page's own id, or for a second version one with the sheet's number."""
    if page_id not in taken:
        return page_id
    made = f"{page_id}-{sheet}"
    while made in taken:
        made += "-"
    return made


def _swapped(
    classroom: Classroom, known: Mapping[str, Page]
) -> tuple[dict[str, Page], list[Problem]]:
    """Pages with a picture that the teacher put in by hand."""
    lines = dict(classroom.lines)
    pages: dict[str, Page] = {}
    problems: list[Problem] = []
    for swap in classroom.swaps:
        line = lines.get(f"swap.{swap.key}", 0)
        if swap.page not in known:
            message = f"the book has no page {swap.page!r} to swap the picture of"
            hint = nearest(swap.page, known) or f" Its pages are {', '.join(known)}."
            mend = f"Write the id of a page.{hint}"
            problems.append(Problem(classroom.file, line, "", "unknown-page", message, mend))
            continue
        page = known[swap.page]
        pages[swap.page] = replace(
            page,
            name=swap.name or page.name,
            art=swap.picture,
            artist=swap.artist,
            licence=swap.licence,
            mark=None,
            description="",
            fact="",
            file=classroom.file,
            line=line,
            lines=(),
        )
    return pages, problems


def _swaps_left_out(
    classroom: Classroom, swapped: Mapping[str, Page], drawn: Collection[str]
) -> Iterator[Problem]:
    for page_id, page in swapped.items():
        if page_id in drawn:
            message = f"the picture {page.art.name if page.art else ''} is left out: a drawing "
            message += f"stands on the page {page_id!r}"
            mend = "Say no to the drawing in review.csv, or take the line out of [swap]."
            yield Problem(classroom.file, page.line, "", "left-out", message, mend, "warning")


def _pages_gone(
    classroom: Classroom, chosen: Sequence[Chosen], known: Mapping[str, Page]
) -> Iterator[Problem]:
    chosen = [one for one in chosen if not rings_of(one.entry.page)]
    gone = [one for one in chosen if one.entry.page not in known]
    file = str(classroom.folder / REGISTER)
    if gone and len(gone) == len(chosen):
        message = "the register is of another book: none of its pages is in this one"
        mend = "Build the book that the sheets were printed for."
        yield Problem(file, 0, "", "bad-register", message, mend)
        return
    for one in gone:
        message = f"the book has no page {one.entry.page!r}; the drawing of sheet "
        message += f"{one.entry.sheet} is left out"
        mend = f"Build the book that the sheet is for.{nearest(one.entry.page, known)}"
        yield Problem(file, 0, "", "left-out", message, mend, "warning")
