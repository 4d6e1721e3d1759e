"""A page on the bench: a draft in, the page laid out and all that is to be said of it out.

Each page is read, certified and laid out alone, by the stages that make the book, so that an answer
takes no longer in a long book than in a short one.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from bookmaker.cache import Cache
from bookmaker.layout import (
    UNKNOWN,
    PlacedPuzzle,
    Setting,
    lay_out,
    place_as_it_stands,
    place_puzzle,
    tight_gaps,
)
from bookmaker.linking import join_pages, spot_pages
from bookmaker.model import (
    Book,
    BoundBook,
    Certificate,
    CertifiedPage,
    OrderedBook,
    Page,
    Picture,
    PlacedPage,
    Problem,
    Puzzle,
    Rule,
    Side,
)
from bookmaker.place.draft import Draft, FileText, PageText
from bookmaker.place.edits import Refused, changed, set_auto
from bookmaker.place.loosely import page_as_it_stands
from bookmaker.place.pictures import Pictures
from bookmaker.placement import NoCleanLayout, page_sizes, remembering
from bookmaker.puzzle import certify_pages
from bookmaker.reading import on_disk, open_manifest, parse
from bookmaker.typeset import Sheet
from bookmaker.words import Words, load

OF_PLACE = ("position",)
"""Keys that mean something among other pages alone."""


@dataclass(frozen=True, slots=True)
class OnBench:
    """One page as it is now. ``placed`` is it laid out; ``refusal`` why it is not laid out cleanly.

    ``sound`` says that reading found nothing wrong with the page itself; ``problems`` are those
    that reading, the picture and the mathematics found, ``certificate`` is None where there is
    none. ``chosen`` says that its links were chosen, and are not in the manifest.
    """

    uid: int
    page: Page
    picture: Picture | None
    placed: PlacedPage
    puzzle: PlacedPuzzle
    paper: str
    language: str
    problems: tuple[Problem, ...] = ()
    certificate: Certificate | None = None
    refusal: NoCleanLayout | None = None
    sound: bool = False
    chosen: bool = False
    lines: Mapping[int, str] = field(default_factory=dict)

    @property
    def is_ready(self) -> bool:
        """Whether it would print."""
        faulty = any(problem.severity == "problem" for problem in self.problems)
        return self.certificate is not None and self.refusal is None and not faulty

    def tight(self) -> list[tuple[float, float, float, float]]:
        """The gaps that just do, each a short line, in millimetres on the sheet."""
        if not self.is_ready:
            return []
        gaps = tight_gaps(self.puzzle, self.page)
        rules = [gap for gap in gaps if isinstance(gap, Rule) and gap.role == "tight"]
        return [(*gap.start, *gap.end) for gap in rules]


class Bench:
    """Puts pages on the bench; remembers pictures and shapes from one to the next."""

    def __init__(self, cache: Cache, seed: int) -> None:
        self.cache, self.seed = cache, seed
        self.pictures = Pictures(cache)
        self._arrange = remembering(cache)

    def put(self, draft: Draft, uid: int) -> OnBench:
        """The page ``uid`` of ``draft``; raises KeyError."""
        file, text = draft.find(uid)
        book, problems = self._read(draft, file, text)
        book = replace(book, paper=draft.paper or book.paper) if book else None
        if book and book.pages:
            return self._sound(uid, book, problems)
        stand = page_as_it_stands(file, text)
        numbers = self._numbers(draft, file, text, len(stand.spots))
        stand = replace(stand, numbers=numbers.numbers) if numbers else stand
        known = book or _settings(draft)
        paper, language = known.paper, known.language
        picture, art = self.pictures.of(stand)
        shown = self._as_it_stands(stand, picture, paper, load(language))
        found = (*problems, *(told for told in art if told.code not in _codes(problems)))
        return OnBench(uid, stand, picture, *shown, paper, language, found)

    def _read(
        self, draft: Draft, file: FileText, text: PageText
    ) -> tuple[Book | None, tuple[Problem, ...]]:
        alone = replace(file, pages=(text,)) if file.raw is None else file
        unsaved = {file.path: alone.data}
        named = draft.files[0]
        if draft.is_book and named.path != file.path:
            unsaved[named.path] = _only_chapter(named, file)
        reading = open_manifest(named.path, unsaved)
        first = 1 + file.head.count("\n")
        mine = (p for p in reading.problems if p.file == str(file.path) and p.line >= first)
        return reading.book, tuple(p for p in mine if not _is_of_place(p))

    def _numbers(self, draft: Draft, file: FileText, text: PageText, spots: int) -> Page | None:
        """The page as it would be read, were it not for its links: what numbers go into it?"""
        try:
            unlinked = replace(text, text=changed(text.text, set_auto()))
        except Refused:
            return None
        book, _ = self._read(draft, file, unlinked)
        pages = book.pages if book else ()
        return pages[0] if pages and len(pages[0].spots) == spots else None

    def _sound(self, uid: int, book: Book, problems: tuple[Problem, ...]) -> OnBench:
        picture, art = self.pictures.of(book.pages[0])
        taken = {book.pages[0].art: picture} if picture and book.pages[0].art else {}
        arts = {path: found for path, found in taken.items() if path}
        spotted, unspotted = spot_pages(book, arts, self.cache)
        joined, choices, told = join_pages(spotted, arts, self.cache, self.seed)
        page, words = joined.pages[0], load(book.language)
        certified, unsolvable = certify_pages([page], self.cache, self.seed)
        found = (*problems, *art, *unspotted, *told, *unsolvable)
        certificate = certified[page.id].certificate if page.id in certified else None
        refusal = None
        if certificate:
            try:
                shown = self._laid_out(
                    CertifiedPage.of(page, certificate), picture, book.paper, words
                )
            except NoCleanLayout as no:
                refusal = no
        if certificate is None or refusal:
            shown = self._as_it_stands(page, picture, book.paper, words)
        return OnBench(
            uid,
            page,
            picture,
            *shown,
            book.paper,
            book.language,
            found,
            certificate,
            refusal,
            sound=True,
            chosen=bool(choices),
        )

    def _laid_out(
        self, certified: CertifiedPage, picture: Picture | None, paper: str, words: Words
    ) -> tuple[PlacedPage, PlacedPuzzle]:
        sheet = Sheet(paper, recto=True)
        puzzle = place_puzzle(certified, picture, sheet, words, self._arrange)
        return as_side(certified, puzzle, paper, words), puzzle

    def _as_it_stands(
        self, page: Page, picture: Picture | None, paper: str, words: Words
    ) -> tuple[PlacedPage, PlacedPuzzle]:
        puzzle = place_as_it_stands(page, picture, Sheet(paper, recto=True), words)
        unknown = CertifiedPage.of(page, UNKNOWN)
        return as_side(unknown, puzzle, paper, words), puzzle


def as_side(certified: CertifiedPage, puzzle: PlacedPuzzle, paper: str, words: Words) -> PlacedPage:
    """The page as a right-hand side of its own."""
    side = Side(certified.id, "", True, Puzzle(certified))
    bound = BoundBook(OrderedBook.of(_NOBODY, ()), (side,))
    setting = Setting(paper, words, bound, {}, {certified.id: puzzle})
    return lay_out(side, setting)


_NOBODY = Book("", "", "", "3", "a4", "as-written", "en", 1, "sheer", ())


def wanted_places(on: OnBench) -> Iterator[tuple[str, float, float]]:
    """Where the manifest wants each spot, in millimetres on the sheet."""
    box = art_box(on)
    for spot in on.page.spots:
        yield spot.name, box[0] + box[2] * spot.x / 100, box[1] + box[3] * spot.y / 100


def art_box(on: OnBench) -> tuple[float, float, float, float]:
    """What per cents refer to on the sheet: the whole picture, or the room for one (mm)."""
    box = on.puzzle.art.box if on.puzzle.art else on.puzzle.frame
    return box.x, box.y, box.width, box.height


def radius_of(on: OnBench) -> float:
    """A spot's radius on the sheet, in millimetres."""
    return page_sizes(on.page, on.paper).radius


def _settings(draft: Draft) -> Book:
    """The book around a page that can't be read, for its paper and its language."""
    book = open_manifest(draft.files[0].path, draft.unsaved).book or _NOBODY
    return replace(book, paper=draft.paper or book.paper)


def _only_chapter(book: FileText, chapter: FileText) -> bytes:
    """The book's own file with one of its chapters alone; as it is where it can't be read."""
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    try:
        document = tomlkit.parse(book.head)
    except TOMLKitError:
        return book.data
    document["chapters"] = [chapter.entry]
    return tomlkit.dumps(document).encode()


def _is_of_place(problem: Problem) -> bool:
    """Whether it is said of a page's place among others, of which none were read with it."""
    return any(problem.message.startswith(key) for key in OF_PLACE)


def _codes(problems: tuple[Problem, ...]) -> set[str]:
    return {problem.code for problem in problems}


def files_named(manifest: Path, data: bytes) -> Iterator[tuple[Path, str]]:
    """The chapters that a book lists and that are there, each with how it is written there."""
    chapters = (parse(data).values or {}).get("chapters")
    for entry in chapters if isinstance(chapters, list) else ():
        if isinstance(entry, str) and entry.strip() and "\0" not in entry:
            path = on_disk(manifest.parent / entry)
            if path.is_file():
                yield path, entry
