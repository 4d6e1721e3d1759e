"""A book's table in, its own problems and the ``Book`` around its chapters out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from bookmaker.model import Book, Chapter, Problem
from bookmaker.reading.choices import (
    BAND,
    BINDING,
    GRADE,
    LANGUAGE_NAMES,
    LANGUAGES,
    ORDERS,
    PAPERS,
)
from bookmaker.reading.files import check_art, sound_path
from bookmaker.reading.kinds import (
    Choice,
    Fault,
    Key,
    Keys,
    anything,
    check_keys,
    filename,
    sound,
    text,
    truth,
    whole,
)
from bookmaker.reading.names import is_near, show
from bookmaker.reading.numbers import check_numbers, is_numbers_key
from bookmaker.reading.strays import check_strays, gather
from bookmaker.reading.table import Table


def book_keys(languages: Sequence[str] = LANGUAGES, papers: Sequence[str] = PAPERS) -> Keys:
    """What a book's manifest may say, in these ``languages`` and on these ``papers``."""
    return {
        "title": Key(text(200), needed='a line like title = "A river book"'),
        "grade": Key(GRADE),
        "numbers": Key(anything),
        "paper": Key(Choice(papers)),
        "order": Key(Choice(ORDERS)),
        "language": Key(Choice(languages, also=LANGUAGE_NAMES)),
        "chapters": Key(_list_of_chapters, needed='a line like chapters = ["01-spring.toml"]'),
        "term": Key(_table_of_weeks),
        "school": Key(text(200, empty=True)),
        "author": Key(text(120, empty=True)),
        "artist": Key(text(200, empty=True)),
        "licence": Key(text(200, empty=True)),
        "cover": Key(filename(1000)),
        "climb_to": Key(BAND),
        "climb": Key(truth),
        "binding": Key(BINDING),
    }


def gather_book(table: Table, keys: Keys) -> Table:
    """The book's table with keys brought back that were written below [term] or [numbers]."""
    homes = {
        "term": lambda key, value: key in _TERM_KEYS,
        "numbers": lambda key, value: is_numbers_key(key),
    }
    return gather(table, keys, homes)


def is_book(table: Table) -> bool:
    """A file with ``chapters`` is a book, one with ``page`` a chapter; else what it looks like."""
    if "chapters" in table or "page" in table:
        return "chapters" in table
    of_books = {"grade", "paper", "order", "language", "term", "school", "cover", "climb_to"}
    of_books |= {"climb", "binding"}
    return any(key in of_books or is_near(key, "chapters") for key in table)


def check_book(table: Table, keys: Keys) -> Iterator[Problem]:
    """Every fault of the book's own file, but for what its ``chapters`` are."""
    yield from check_strays(table)
    yield from check_keys(table, keys, _ELSEWHERE)
    if isinstance(table.get("term"), dict):
        yield from check_keys(table.table("term"), _TERM_KEYS)
    yield from check_art(table, "cover")
    yield from check_numbers(table)


def make_book(table: Table, keys: Keys, name: str, chapters: Sequence[Chapter]) -> Book:
    """The book of these chapters; a key that is absent or faulty has its default."""

    def said(key: str, default: Any) -> Any:
        return sound(table, keys, key, default)

    title = str(said("title", "")).strip()
    weeks = sound(table.table("term"), _TERM_KEYS, "weeks", 12)
    return Book(
        name=name,
        title=title or (chapters[0].title if chapters else name),
        file=table.source.file,
        grade=said("grade", "3"),
        paper=said("paper", "a4"),
        order=said("order", "ramp"),
        language=said("language", "en"),
        weeks=weeks if isinstance(weeks, int) else 12,
        climb_to=said("climb_to", "steep"),
        climb=said("climb", False),
        binding=said("binding", "staple"),
        chapters=tuple(chapters),
        school=said("school", "").strip(),
        author=said("author", "").strip(),
        artist=said("artist", "").strip(),
        licence=said("licence", "").strip(),
        cover=sound_path(table, "cover"),
        lines=table.key_lines(),
    )


def _list_of_chapters(key: str, value: object) -> Fault:
    example = 'chapters = ["01-spring.toml", "02-brook.toml"]'
    if not isinstance(value, list):
        return f"chapters must be a list, not {show(value)}", f"Write it like {example}."
    return None if value else ("the book has no chapter", f"Name its files, like {example}.")


def _table_of_weeks(key: str, value: object) -> Fault:
    if isinstance(value, dict):
        return None
    return f"term must be a table, not {show(value)}", "Write [term] and below it weeks = 12."


_TERM_KEYS = {"weeks": Key(whole(1, 53))}
_ELSEWHERE = {
    "weeks": "below the heading [term]",
    "page": "in a chapter's file",
    "introduction": "in a chapter's file",
    "optional": "in the file of the chapter that is optional",
}
