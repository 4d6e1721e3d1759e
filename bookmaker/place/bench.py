"""A page on the bench: a draft in, the page laid out and all that is to be said of it out.

Each page is read, certified and laid out alone, by the stages that make the book, so that an answer
takes no longer in a long book than in a short one.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
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
from bookmaker.linking import LinkedBook, join_pages, link_book, spot_pages
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
from bookmaker.placement import NoCleanLayout, page_sizes, remembering, scaled
from bookmaker.puzzle import certify_pages
from bookmaker.reading import on_disk, open_manifest, parse
from bookmaker.typeset import Move, Sheet, moved, sheet_of
from bookmaker.words import Words, load

MEASURED = 12
"""Up to so many spots the gaps that just do are looked for: it takes the square of their number,
and a second at 35, while a page of that many is dragged about."""

OF_PLACE = ("position",)
"""Keys that mean something among other pages alone."""


Gap = tuple[float, float, float, float]
"""A gap that just does: a short line across it, in millimetres on the sheet."""


@dataclass(frozen=True, slots=True)
class OnBench:
    """One page as it is now. ``placed`` is it laid out; ``refusal`` why it is not laid out cleanly.

    ``sound`` says that reading found nothing wrong with the page itself; ``problems`` are those
    that reading, the picture and the mathematics found, ``certificate`` is None where there is
    none. ``chosen`` says that its links were chosen, and are not in the manifest; ``tight`` are the
    gaps that just do, None where nobody has looked.
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
    tight: tuple[Gap, ...] | None = None

    @property
    def is_ready(self) -> bool:
        """Whether it would print."""
        faulty = any(problem.severity == "problem" for problem in self.problems)
        return self.certificate is not None and self.refusal is None and not faulty


class Bench:
    """Puts pages on the bench; remembers pictures and shapes from one to the next."""

    def __init__(self, cache: Cache, seed: int) -> None:
        self.cache, self.seed = cache, seed
        self.pictures = Pictures(cache)
        self._arrange = remembering(cache)
        self._linked: tuple[Draft, LinkedBook | None] | None = None
        self.sides: dict[int, tuple[str, bool]] = {}
        """The number of each page's side and whether it is a right-hand one, as last bound."""

    def linked(self, draft: Draft) -> LinkedBook | None:
        """The whole book with spots and links for what its pages leave to us; None for none.

        Those depend on the other pages, where a book climbs.
        """
        if self._linked is None or self._linked[0] != draft:
            book = open_manifest(draft.files[0].path, draft.unsaved).book
            found = link_book(book, self.cache, self.seed) if book else None
            self._linked = (draft, found)
        return self._linked[1]

    def put(self, draft: Draft, uid: int) -> OnBench:
        """The page ``uid`` of ``draft``; raises KeyError."""
        file, text = draft.find(uid)
        book, problems = self._read(draft, file, text)
        book = replace(book, paper=draft.paper or book.paper) if book else None
        if book and book.pages:
            return self._sound(draft, uid, book, problems)
        stand = page_as_it_stands(file, text)
        numbers = self._numbers(draft, file, text, len(stand.spots))
        stand = replace(stand, numbers=numbers.numbers) if numbers else stand
        known = book or _settings(draft)
        paper, language = known.paper, known.language
        picture, art = self.pictures.of(stand)
        words = load(language)
        shown = self._side(uid, *_as_it_stands(stand, picture, sheet_of(known), words), words)
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

    def _sound(self, draft: Draft, uid: int, book: Book, problems: tuple[Problem, ...]) -> OnBench:
        picture, art = self.pictures.of(book.pages[0])
        taken = {book.pages[0].art: picture} if picture and book.pages[0].art else {}
        arts = {path: found for path, found in taken.items() if path}
        spotted, unspotted = spot_pages(book, arts, self.cache)
        page, words = spotted.pages[0], load(book.language)
        chosen = page.wish is not None and not page.links
        told: tuple[Problem, ...] = ()
        if chosen:
            page, told = self._joined(draft, uid, spotted, arts)
        certified, unsolvable = certify_pages([page], self.cache, self.seed)
        found = (*problems, *art, *unspotted, *told, *unsolvable)
        certificate = certified[page.id].certificate if page.id in certified else None
        refusal = None
        if certificate:
            try:
                sound = CertifiedPage.of(page, certificate)
                laid = sound, self._laid_out(sound, picture, sheet_of(book), words)
            except NoCleanLayout as no:
                refusal = no
        if certificate is None or refusal:
            laid = _as_it_stands(page, picture, sheet_of(book), words)
        placed, puzzle = self._side(uid, *laid, words)
        clean = certificate is not None and refusal is None
        return OnBench(
            uid,
            page,
            picture,
            placed,
            puzzle,
            book.paper,
            book.language,
            found,
            certificate,
            refusal,
            sound=True,
            chosen=chosen,
            tight=_tight(puzzle, page) if clean else None,
        )

    def _joined(
        self, draft: Draft, uid: int, alone: Book, arts: Mapping[Path, Picture]
    ) -> tuple[Page, tuple[Problem, ...]]:
        """A page that leaves its links to us, with those that the whole book would give it."""
        page, (file, _) = alone.pages[0], draft.find(uid)
        linked = self.linked(draft)
        for other in linked.book.pages if linked else ():
            if other.file == page.file and file.at_line(other.line) == uid and other.links:
                told = linked.problems if linked else ()
                mine = tuple(p for p in told if p.page == page.name and p.file == page.file)
                return replace(page, spots=other.spots, links=other.links), mine
        joined, _, told = join_pages(alone, arts, self.cache, self.seed)
        return joined.pages[0], told

    def _laid_out(
        self, certified: CertifiedPage, picture: Picture | None, sheet: Sheet, words: Words
    ) -> PlacedPuzzle:
        return place_puzzle(certified, picture, sheet, words, self._arrange)

    def _side(
        self, uid: int, page: CertifiedPage, puzzle: PlacedPuzzle, words: Words
    ) -> tuple[PlacedPage, PlacedPuzzle]:
        """The page on the side of the paper where it stands in its book."""
        label, recto = self.sides.get(uid, ("", True))
        puzzle = puzzle if recto else turned_over(puzzle)
        return as_side(page, puzzle, words, label), puzzle


def _as_it_stands(
    page: Page, picture: Picture | None, sheet: Sheet, words: Words
) -> tuple[CertifiedPage, PlacedPuzzle]:
    puzzle = place_as_it_stands(page, picture, sheet, words)
    return CertifiedPage.of(page, UNKNOWN), puzzle


def _tight(puzzle: PlacedPuzzle, page: Page) -> tuple[Gap, ...] | None:
    if len(page.spots) > MEASURED:
        return None
    gaps = tight_gaps(puzzle, page)
    rules = (gap for gap in gaps if isinstance(gap, Rule) and gap.role == "tight")
    return tuple((*gap.start, *gap.end) for gap in rules)


def turned_over(puzzle: PlacedPuzzle) -> PlacedPuzzle:
    """A puzzle laid out for a right-hand side on a left-hand one: bound on its other edge."""
    sheet = replace(puzzle.sheet, recto=False)
    along = sheet.area.x - puzzle.sheet.area.x
    move = Move(along, 0.0)
    return replace(
        puzzle,
        sheet=sheet,
        head=moved(puzzle.head, move),
        art=moved((puzzle.art,), move)[0] if puzzle.art else None,
        tree=scaled(puzzle.tree, 1.0, along, 0.0),
        foot=moved(puzzle.foot, move),
        frame=move.box(puzzle.frame),
    )


def as_side(
    certified: CertifiedPage, puzzle: PlacedPuzzle, words: Words, label: str = ""
) -> PlacedPage:
    """The page as a side of paper."""
    sheet = puzzle.sheet
    side = Side(certified.id, label, sheet.recto, Puzzle(certified))
    bound = BoundBook(OrderedBook.of(_NOBODY, ()), (side,))
    setting = Setting(sheet.paper, words, bound, {}, {certified.id: puzzle})
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
