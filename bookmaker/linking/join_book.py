"""Links for all pages of a book that leave them to us, and what to say of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from bookmaker.cache import Cache
from bookmaker.linking.choose import Choice, choose
from bookmaker.linking.climb import plan_climb
from bookmaker.linking.shapes import shape_of
from bookmaker.linking.spotting import spot_pages
from bookmaker.model import Book, Page, Picture, Problem
from bookmaker.pictures import take_in_art


@dataclass(frozen=True, slots=True)
class LinkedBook:
    """A book whose pages all have their spots and links, what was chosen, and what to say of it."""

    book: Book
    choices: tuple[Choice, ...]
    problems: tuple[Problem, ...]


def link_book(book: Book, cache: Cache, seed: int) -> LinkedBook:
    """``book`` with places and links for what its pages leave to us, by the book's own pictures.

    Of a picture that can't be taken in nothing is said here.
    """
    pictures, _ = take_in_art(_only_ours(book), cache)
    spotted, proposed = spot_pages(book, pictures, cache)
    joined, choices, chosen = join_pages(spotted, pictures, cache, seed)
    return LinkedBook(joined, choices, (*proposed, *chosen))


def join_pages(
    book: Book, pictures: Mapping[Path, Picture], cache: Cache, seed: int
) -> tuple[Book, tuple[Choice, ...], tuple[Problem, ...]]:
    """``book`` with links for every page that has none, the choices, and what to say of them."""
    if not any(_is_ours(page) for page in book.pages):
        return book, (), ()
    plan = plan_climb if book.climb else _one_by_one
    choices = plan(book, pictures, cache, seed)
    chapters = tuple(
        replace(
            chapter,
            pages=tuple(choices[p.id].page if p.id in choices else p for p in chapter.pages),
        )
        for chapter in book.chapters
    )
    told = tuple(_told(tuple(choices.values())))
    return replace(book, chapters=chapters), tuple(choices.values()), told


def _only_ours(book: Book) -> Book:
    """``book`` with those pages alone that leave their links to us, and without other pictures."""
    chapters = (
        replace(chapter, ornament=None, pages=tuple(filter(_is_ours, chapter.pages)))
        for chapter in book.chapters
    )
    return replace(book, cover=None, chapters=tuple(chapters))


def _is_ours(page: Page) -> bool:
    return page.wish is not None and not page.links


def _one_by_one(
    book: Book, pictures: Mapping[Path, Picture], cache: Cache, seed: int
) -> dict[str, Choice]:
    """Each page for itself, but not the shape of the page before where another does as well."""
    choices: dict[str, Choice] = {}
    before: set[int] = set()
    for page in book.pages:
        now = page
        if _is_ours(page):
            picture = pictures.get(page.art) if page.art else None
            choices[page.id] = choose(page, picture, book.paper, cache, seed, before)
            now = choices[page.id].page
        before = {shape_of(len(now.spots), now.edges)}
    return choices


def _told(choices: Sequence[Choice]) -> Iterator[Problem]:
    """One note for all links that were chosen, one warning for each wish that is not reached."""
    chosen = [choice for choice in choices if choice.reached]
    if chosen:
        first = chosen[0].page
        names = first.name if len(chosen) == 1 else f"{first.name} to {chosen[-1].page.name}"
        count = "1 page" if len(chosen) == 1 else f"{len(chosen)} pages"
        only = f": {_links(chosen[0])}" if len(chosen) == 1 else ""
        message = f"links were chosen for {count} ({names}){only}"
        mend = "bookmaker join writes them down, so that they stay as they are."
        yield _warning(first, "links-chosen", message, mend)
    for choice in choices:
        if not choice.reached:
            message = f"no links on its spots do what it asks for; the nearest are {_links(choice)}"
            mend = "Move, add or take away spots, or ask for another band."
            yield _warning(choice.page, "wish-not-reached", message, mend)


def _links(choice: Choice) -> str:
    links = ", ".join(link.name for link in choice.page.links)
    certificate = choice.certificate
    return f"{links}; work {certificate.work:.0f}, {certificate.band}" if certificate else links


def _warning(page: Page, code: str, message: str, mend: str) -> Problem:
    return Problem(page.file, page.line_of("links"), page.name, code, message, mend, "warning")
