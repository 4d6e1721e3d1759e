"""The whole run: every page in the order in which it will print, how hard it is, what is wrong."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from bookmaker.layout import Binding, bind
from bookmaker.model import (
    Book,
    CertifiedPage,
    Matter,
    OrderedBook,
    Page,
    Picture,
    Problem,
    Puzzle,
)
from bookmaker.ordering import in_order, warnings_of
from bookmaker.place.bench import Bench
from bookmaker.place.draft import Draft, FileText, PageText
from bookmaker.place.loosely import page_as_it_stands
from bookmaker.place.saying import fault
from bookmaker.puzzle import certify_pages
from bookmaker.reading import open_manifest
from bookmaker.teaching import above_grade, worked_example
from bookmaker.words import Words, load

Record = dict[str, Any]
_NO_PAGE = page_as_it_stands(FileText(Path(), ""), PageText(0, ""))


def overview(draft: Draft, bench: Bench) -> Record:
    """The book as the row of pages shows it. A page that can't be read stands last in its chapter.

    ``notes`` of a page are what can be said of it only among the others; ``faults`` are those of
    no page.
    """
    reading = open_manifest(draft.files[0].path, draft.unsaved)
    book = reading.book
    language = book.language if book else "en"
    words = load(language)
    rows: dict[int, Record] = {}
    told: list[Problem] = list(reading.problems)
    if book and book.pages:
        linked = bench.linked(draft)
        book = linked.book if linked else book
        ordered, pictures = _ordered(replace(book, paper=draft.paper or book.paper), bench)
        bench.sides |= _sides(ordered, draft, words)
        told += [*warnings_of(ordered), *above_grade(ordered)]
        rows = dict(_rows(ordered, pictures, draft))
    notes = _by_page(told, draft)
    pages = [
        {
            **(rows.get(uid) or _stranger(file, uid, bench)),
            "notes": _notes(notes[uid], words),
            "side": bench.sides.get(uid),
        }
        for file in draft.files
        for uid in _in_file(file, rows)
    ]
    loose = [fault(problem, _NO_PAGE, words) for problem in notes[None]]
    return {
        "title": book.title if book else draft.files[0].path.stem,
        "language": language,
        "paper": draft.paper or (book.paper if book else "a4"),
        "order": book.order if book else "ramp",
        "book": draft.is_book,
        "chapters": _chapters(book, draft),
        "pages": pages,
        "faults": loose,
    }


def _ordered(book: Book, bench: Bench) -> tuple[OrderedBook, Mapping[str, Picture]]:
    """The pages that can be solved in their order, and each one's picture by its id."""
    bench.pictures.take_all(book.pages)
    taken = {page.id: bench.pictures.of(page)[0] for page in book.pages}
    pictures = {key: found for key, found in taken.items() if found}
    certified, _ = certify_pages(book.pages, bench.cache, bench.seed)
    return in_order(book, certified), pictures


def _sides(ordered: OrderedBook, draft: Draft, words: Words) -> dict[int, tuple[str, bool]]:
    """The number of each page's side and whether it is a right-hand one, in the children's copy."""
    if not ordered.pages:
        return {}
    matter = Matter(example=worked_example(ordered))
    bound = bind(ordered, matter, Binding("children", words), {})
    contents = ((side, side.content) for side in bound.sides)
    return {
        uid: (side.label, side.recto)
        for side, content in contents
        if isinstance(content, Puzzle)
        for uid in _uid_of(content.page, draft)
    }


def _uid_of(page: Page, draft: Draft) -> Iterator[int]:
    for file in draft.files:
        uid = file.at_line(page.line) if str(file.path) == page.file else None
        if uid is not None:
            yield uid


def _rows(
    ordered: OrderedBook, pictures: Mapping[str, Picture], draft: Draft
) -> Iterable[tuple[int, Record]]:
    for page in ordered.pages:
        for uid in _uid_of(page, draft):
            yield uid, _row(uid, page, pictures.get(page.id))


def _row(uid: int, page: CertifiedPage, picture: Picture | None) -> Record:
    return {
        "page": uid,
        "name": page.name,
        "chapter": page.chapter,
        "picture": picture.digest if picture else None,
        "spots": len(page.spots),
        "band": page.certificate.band,
        "work": page.certificate.work,
    }


def _stranger(file: FileText, uid: int, bench: Bench) -> Record:
    """The row of a page with a fault of its own."""
    text = next(page for page in file.pages if page.uid == uid)
    page = page_as_it_stands(file, text)
    picture, _ = bench.pictures.of(page)
    return {
        "page": uid,
        "name": page.name,
        "chapter": file.path.stem,
        "picture": picture.digest if picture else None,
        "spots": len(page.spots),
        "band": "",
        "work": None,
    }


def _in_file(file: FileText, rows: Mapping[int, Record]) -> list[int]:
    """The file's pages: those with a row in its order, then the others."""
    here = {page.uid for page in file.pages}
    placed = [uid for uid in rows if uid in here]
    return [*placed, *(page.uid for page in file.pages if page.uid not in rows)]


def _by_page(told: Iterable[Problem], draft: Draft) -> dict[int | None, list[Problem]]:
    files = {str(file.path): file for file in draft.files}
    found: dict[int | None, list[Problem]] = defaultdict(list)
    for problem in told:
        file = files.get(problem.file)
        uid = file.at_line(problem.line) if file and problem.line else None
        found[uid].append(problem)
    return found


AMONG_OTHERS = ("repeated-name", "leap", "twins", "above-climb", "above-grade")
"""What can be said of a page only among the others."""


def _notes(problems: Iterable[Problem], words: Words) -> list[Record]:
    mine = (p for p in problems if p.code in AMONG_OTHERS or p.message.startswith("position"))
    return [fault(problem, _NO_PAGE, words) for problem in mine]


def _chapters(book: Book | None, draft: Draft) -> list[Record]:
    titles = {chapter.file: chapter.title for chapter in book.chapters} if book else {}
    return [
        {"chapter": file.path.stem, "title": titles.get(str(file.path), file.path.stem)}
        for file in draft.files
        if file.pages
    ]
