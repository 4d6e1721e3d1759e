"""A chapter's table in, a ``Chapter`` and its problems out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from bookmaker.model import Chapter, Problem
from bookmaker.reading.files import check_art, sound_path
from bookmaker.reading.kinds import Fault, Key, anything, check_keys, filename, sound, text, truth
from bookmaker.reading.lines import Where
from bookmaker.reading.names import many, show
from bookmaker.reading.numbers import Numbers, check_numbers, is_numbers_key, numbers_of
from bookmaker.reading.pages import BOOK_PLACE, check_page, make_page, numbers_for, pages_of
from bookmaker.reading.pages import KEYS as PAGE_KEYS
from bookmaker.reading.strays import check_strays, gather
from bookmaker.reading.table import Source, Table


def _list_of_pages(key: str, value: object) -> Fault:
    if isinstance(value, dict):
        return "[page] begins a single page", "Write [[page]], with two brackets on each side."
    if not isinstance(value, list) or not all(isinstance(entry, dict) for entry in value):
        return f"page can't be {show(value)}", "Begin each page with a line [[page]]."
    return None if value else ("the chapter has no page", "Begin each page with a line [[page]].")


KEYS = {
    "title": Key(text(200), needed='a line like title = "The spring"'),
    "introduction": Key(text(5000, empty=True, lines=True)),
    "numbers": Key(anything),
    "optional": Key(truth),
    "ornament": Key(filename(1000)),
    "page": Key(_list_of_pages, needed="a line [[page]] and below it the lines of a page"),
}

_PAGE_PLACE = "to a page, below its line [[page]]"
_ELSEWHERE = {
    **{key: _PAGE_PLACE for key in PAGE_KEYS if key not in KEYS},
    "spots": "to a page, below the heading [page.spots]",
    **dict.fromkeys(
        ("chapters", "grade", "curriculum", "paper", "order", "language", "term"), BOOK_PLACE
    ),
}


@dataclass(frozen=True, slots=True)
class Draft:
    """A chapter that was opened: its table, its pages' tables, the numbers it asks for."""

    table: Table
    pages: tuple[Table, ...]
    numbers: Numbers

    @property
    def is_readable(self) -> bool:
        """Whether anything could be made of the file."""
        return self.table.source.parsed.values is not None

    @property
    def id(self) -> str:
        """The stem of its file's name."""
        return Path(self.table.source.file).stem

    @property
    def title(self) -> str:
        return str(sound(self.table, KEYS, "title", "")).strip()


def draft_of(source: Source, outer: Numbers) -> Draft:
    """Find the pages of a parsed chapter; ``outer`` are the numbers of its book."""
    homes = {"numbers": lambda key, value: is_numbers_key(key)}
    table = gather(Table(source, (), source.parsed.values or {}), KEYS, homes)
    return Draft(table, pages_of(table), numbers_of(table) or outer)


def check_chapter(draft: Draft) -> Iterator[Problem]:
    """Every fault of the chapter that is no single page's."""
    table = draft.table
    if not draft.is_readable:
        return
    if not table.values and not table.source.parsed.slips:
        mend = "A chapter needs a title and a [[page]]; a book a title and a list of chapters."
        yield table.problem("missing-key", "the file says nothing", mend)
        return
    yield from check_strays(table)
    in_pages = {key for page in draft.pages for key in page}
    yield from check_keys(table, KEYS, _ELSEWHERE, excused=in_pages)
    yield from check_art(table, "ornament")
    yield from check_numbers(table)


def check_pages(draft: Draft) -> dict[Where, list[Problem]]:
    """The problems and warnings of each page that has any, by its place in the chapter."""
    found = {page.where: list(check_page(page, draft.numbers, draft.pages)) for page in draft.pages}
    return {where: problems for where, problems in found.items() if problems}


def check_lists(drafts: Sequence[Draft]) -> Iterator[tuple[Table, Problem]]:
    """Pages that have more spots than their list has numbers, each with the list's problem.

    A list that is too short for several pages is one fault: its problem is the same for all.
    """
    short: dict[tuple[str, Where], tuple[Table, list[Table]]] = {}
    for draft in drafts:
        for page in draft.pages:
            numbers, spots = numbers_for(page, draft.numbers), _spots(page)
            if numbers and numbers.owner and len(numbers.first(spots)) < spots:
                place = (numbers.owner.source.file, numbers.owner.where)
                short.setdefault(place, (numbers.owner, []))[1].append(page)
    for owner, pages in short.values():
        problem = _too_short(owner, max(pages, key=_spots))
        yield from ((page, problem) for page in pages)


def make_chapter(draft: Draft, good: Sequence[Table]) -> Chapter:
    """The ``Chapter`` with those of its pages that have no fault."""
    table = draft.table
    return Chapter(
        id=draft.id,
        title=draft.title or draft.id,
        introduction=str(sound(table, KEYS, "introduction", "")).strip(),
        file=table.source.file,
        optional=sound(table, KEYS, "optional", False) is True,
        pages=tuple(make_page(page, draft.id, draft.numbers) for page in good),
        ornament=sound_path(table, "ornament"),
        lines=table.key_lines(),
    )


def _too_short(owner: Table, page: Table) -> Problem:
    numbers = owner.table("numbers").get("list")
    count, spots = len(numbers) if isinstance(numbers, list) else 0, _spots(page)
    message = f"the list has {many(count, 'number')}, but {page.page} has {many(spots, 'spot')}"
    mend = f"Add {spots - count} to the list, or give the page numbers of its own."
    return owner.problem("bad-value", message, mend, "numbers", "list")


def _spots(page: Table) -> int:
    return len(page.table("spots").values)
