"""A part of an ordered book: single pages, chapters, weeks."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass, replace

from bookmaker.model import OrderedBook
from bookmaker.ordering.naming import Names
from bookmaker.ordering.plan import term_plan
from bookmaker.words import Words


@dataclass(frozen=True, slots=True)
class Part:
    """What is wanted of a book; nothing named means the whole of it.

    ``pages`` by id or name, ``chapters`` by id or file name, ``weeks`` by number.
    """

    pages: tuple[str, ...] = ()
    chapters: tuple[str, ...] = ()
    weeks: tuple[int, ...] = ()

    @property
    def is_whole(self) -> bool:
        return not (self.pages or self.chapters or self.weeks)


class NotInBook(LookupError):
    """Something was asked for that the book has not got; the message names the nearest."""


def take_part(ordered: OrderedBook, part: Part) -> tuple[OrderedBook, tuple[str, ...]]:
    """The pages of ``part`` in the book's order, and the words that name it in a file's name.

    Raises NotInBook for a page, a chapter or a week that the book has not got.
    """
    if part.is_whole:
        return ordered, ()
    wanted: set[str] = set()
    words: list[str] = []
    names = Names.of(ordered)
    for asked in part.pages:
        page_id = _page_id(ordered, asked)
        wanted.add(page_id)
        words.append(names.page(page_id))
    for asked in part.chapters:
        chapter_id = _chapter_id(ordered, asked)
        wanted |= _ids_of_chapter(ordered, chapter_id)
        words.append(names.chapter(chapter_id))
    for week in part.weeks:
        wanted |= _ids_of_week(ordered, week)
        words.append(f"week-{week}")
    chapters = (
        replace(chapter, pages=tuple(p for p in chapter.pages if p.id in wanted))
        for chapter in ordered.chapters
    )
    kept = tuple(chapter for chapter in chapters if chapter.pages)
    return replace(ordered, chapters=kept), tuple(dict.fromkeys(words))


def title_of_part(ordered: OrderedBook, part: Part, words: Words) -> str:
    """What a part is headed with: its weeks, its chapters, or the book; "" for the whole book."""
    if part.is_whole:
        return ""
    weeks = [words("part.week", number=week) for week in part.weeks]
    chapters = [chapter.title for chapter in ordered.chapters] if part.chapters else []
    if part.pages or not (weeks or chapters):
        return ordered.title
    return words("list.mark").join((*weeks, *chapters))


def _page_id(ordered: OrderedBook, asked: str) -> str:
    """Ids go before names: in a class's book two children may give their creatures one title."""
    pages = ordered.pages
    ids = {page.id: page.id for page in pages}
    for alike in (str, _folded):
        named = [page.id for page in pages if alike(page.name) == alike(asked)]
        if len(named) > 1 and alike(asked) not in map(alike, ids):
            told = " and ".join(named)
            raise NotInBook(f"{len(named)} pages are called {asked!r}. Name one by its id: {told}.")
        if named:
            break
    return _look_up(asked, {page.name: page.id for page in pages} | ids, "page")


def _chapter_id(ordered: OrderedBook, asked: str) -> str:
    stem = asked.replace("\\", "/").rsplit("/", 1)[-1].removesuffix(".toml")
    ids = {chapter.id: chapter.id for chapter in ordered.chapters}
    return _look_up(stem, ids, "chapter")


def _look_up(asked: str, known: dict[str, str], kind: str) -> str:
    if asked in known:
        return known[asked]
    folded = {_folded(name): found for name, found in known.items()}
    if _folded(asked) in folded:
        return folded[_folded(asked)]
    told = nearest(asked, known) or f" bookmaker check lists its {kind}s."
    raise NotInBook(f"The book has no {kind} {asked!r}.{told}")


def nearest(asked: str, known: Iterable[str]) -> str:
    """A sentence with the nearest of ``known``, or nothing where none is near."""
    near = difflib.get_close_matches(asked, list(known), 1, 0.5)
    return f" The nearest is {near[0]!r}." if near else ""


def _folded(name: str) -> str:
    """A name as somebody may type it: capitals, blanks and hyphens make no difference."""
    return name.casefold().replace("-", " ")


def _ids_of_chapter(ordered: OrderedBook, chapter_id: str) -> set[str]:
    return {
        page.id
        for chapter in ordered.chapters
        if chapter.id == chapter_id
        for page in chapter.pages
    }


def _ids_of_week(ordered: OrderedBook, number: int) -> set[str]:
    weeks = {week.number: week for week in term_plan(ordered)}
    if number not in weeks:
        raise NotInBook(f"The term has no week {number}. Its weeks are 1 to {len(weeks)}.")
    if not weeks[number].every:
        raise NotInBook(f"Week {number} has no pages. Choose a week that has some.")
    return {page.id for page in weeks[number].every}
