"""A book's table in, its own problems and the ``Book`` around its chapters out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from bookmaker.curricula import BY_LANGUAGE, CURRICULA
from bookmaker.model import Book, Chapter, Problem
from bookmaker.reading.choices import (
    BAND,
    BINDING,
    CURRICULUM,
    LANGUAGE_NAMES,
    LANGUAGES,
    ORDERS,
    PAPERS,
    grade_of,
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
        "grade": Key(anything),
        "curriculum": Key(CURRICULUM),
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
    of_books |= {"climb", "binding", "curriculum"}
    return any(key in of_books or is_near(key, "chapters") for key in table)


def check_book(table: Table, keys: Keys) -> Iterator[Problem]:
    """Every fault of the book's own file, but for what its ``chapters`` are."""
    yield from check_strays(table)
    yield from check_keys(table, keys, _ELSEWHERE)
    if isinstance(table.get("term"), dict):
        yield from check_keys(table.table("term"), _TERM_KEYS)
    yield from _check_grade(table, keys)
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
        grade=_grade(table, keys),
        curriculum=_curriculum(table, keys),
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


def _curriculum(table: Table, keys: Keys) -> str:
    """The one that the book names, else that of its language."""
    language = str(sound(table, keys, "language", "en"))
    return str(sound(table, keys, "curriculum", BY_LANGUAGE.get(language, "us")))


def _grade(table: Table, keys: Keys) -> str:
    kind = grade_of(_curriculum(table, keys))
    faulty = "grade" not in table.values or kind("grade", table.get("grade"))
    return "3" if faulty else str(kind.taken(table.get("grade")))


def _check_grade(table: Table, keys: Keys) -> Iterator[Problem]:
    """A grade must be one of the book's curriculum; where another one has it, that is told."""
    value = table.get("grade")
    fault = grade_of(_curriculum(table, keys))("grade", value) if "grade" in table.values else None
    if not fault:
        return
    others = [name for name in CURRICULA if not grade_of(name)("grade", value)]
    likely = (
        f'Write curriculum = "{others[0]}" as well, or a grade from "K" to "8".' if others else ""
    )
    yield table.problem("bad-value", fault[0], likely or fault[1], "grade")


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
