"""A manifest's path in, a ``Book`` and every problem of all its files out."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from bookmaker.model import Book, Problem
from bookmaker.reading.book import book_keys, check_book, gather_book, is_book, make_book
from bookmaker.reading.chapters import (
    Draft,
    check_chapter,
    check_lists,
    check_pages,
    draft_of,
    make_chapter,
)
from bookmaker.reading.choices import LANGUAGES, PAPERS
from bookmaker.reading.files import file_fault, on_disk
from bookmaker.reading.kinds import Keys, backslash_fault
from bookmaker.reading.lines import Where
from bookmaker.reading.names import id_of, shorten, show
from bookmaker.reading.numbers import Numbers, numbers_of
from bookmaker.reading.table import Source, Table
from bookmaker.reading.toml import parse, read_toml

_Place = tuple[str, Where]
Unsaved = Mapping[Path, bytes]
"""What is to stand in files and is not written there yet."""


@dataclass(frozen=True, slots=True)
class Reading:
    """``book`` holds every page without a problem of its own; None where nothing could be made."""

    book: Book | None
    problems: tuple[Problem, ...]


def read(
    path: Path,
    *,
    languages: Sequence[str] = LANGUAGES,
    papers: Sequence[str] = PAPERS,
    unsaved: Unsaved | None = None,
) -> Reading:
    """Read a book, or a chapter as a book of its own.

    ``languages`` and ``papers`` are those that a book may ask for; ``unsaved`` holds what is to
    stand in some of the files and is not written there yet. Faults of the files are problems, all
    of them at once, each with its line; raises nothing.
    """
    file = str(path)
    unsaved = unsaved or {}
    source = _open(path, file, unsaved)
    if not isinstance(source, Source):
        return Reading(
            None, (Problem(file, 0, "", "file-missing", f"the file {source[0]}", source[1]),)
        )
    return _read_source(source, book_keys(languages, papers), unsaved)


def file_by_file(problems: Iterable[Problem], files: Sequence[str] = ()) -> tuple[Problem, ...]:
    """Problems file by file in the order of their lines, each once.

    ``files`` is the order of the files; others follow in the order in which they come.
    """
    told = list(dict.fromkeys(problems))
    in_order = dict.fromkeys([*files, *(each.file for each in told)])
    order = {file: place for place, file in enumerate(in_order)}
    told.sort(key=lambda each: (order[each.file], each.line))
    return tuple(told)


def _open(path: Path, file: str, unsaved: Unsaved, lister: str = "") -> Source | tuple[str, str]:
    """The parsed file, or why it can't be had and the mend; ``lister`` is what names it."""
    if path in unsaved:
        return Source(file, path, parse(unsaved[path]))
    fault = file_fault(path, apart_from=lister)
    if fault:
        return fault
    try:
        return Source(file, path, read_toml(path))
    except OSError as error:
        return f"can't be read ({error.strerror})", "Check that you may read it."


def _slips(source: Source, pages: Sequence[Table] = ()) -> Iterator[Problem]:
    """The slips of a file; those in one of ``pages`` are that page's."""
    names = {page.where: page.page for page in pages}
    for slip in source.parsed.slips:
        name = names.get(slip.where[:2], "")
        yield Problem(source.file, slip.line, name, slip.code, slip.message, slip.mend)


def _read_source(source: Source, keys: Keys, unsaved: Unsaved) -> Reading:
    values = source.parsed.values
    if values is None:
        return Reading(None, file_by_file(_slips(source)))
    top = gather_book(Table(source, (), values), keys)
    if not is_book(top):
        return _bind(None, keys, [draft_of(source, Numbers())])
    outer = numbers_of(top) or Numbers()
    listed = list(_listed(top, unsaved))
    drafts = [draft_of(each, outer) for each in listed if isinstance(each, Source)]
    own = [*_slips(source), *check_book(top, keys)]
    return _bind(top, keys, drafts, [*own, *(each for each in listed if isinstance(each, Problem))])


def _listed(top: Table, unsaved: Unsaved) -> Iterator[Source | Problem]:
    """Each chapter that the book lists, opened, or what is wrong with its entry."""
    entries = top.get("chapters")
    files: dict[str, int] = {}
    stems: dict[str, str] = {}
    for place, entry in enumerate(entries if isinstance(entries, list) else []):
        escaped = backslash_fault(entry)
        if escaped:
            yield top.problem("bad-value", *escaped, "chapters", place)
            continue
        if not isinstance(entry, str) or not entry.strip() or "\0" in entry:
            message = f"a chapter must be the name of a file in quotation marks, not {show(entry)}"
            mend = 'Write it like "01-spring.toml".'
            yield top.problem("bad-value", message, mend, "chapters", place)
            continue
        path = on_disk(top.source.folder / entry)
        first = files.setdefault(_same_file(path), place)
        other = stems.setdefault(path.stem.casefold(), entry)
        if first != place:
            message = f"the chapter {show(entry)} is listed twice"
            mend = "Take one of the two out."
            yield top.problem("repeated-name", message, mend, "chapters", place)
        elif other != entry:
            message = f"the chapters {show(other)} and {show(entry)} have the same file name"
            mend = "Give one of the two files another name."
            yield top.problem("repeated-name", message, mend, "chapters", place)
        else:
            opened = _open(path, str(path), unsaved, top.source.path.name)
            yield _as_chapter(top, opened, entry, place)


def _as_chapter(
    top: Table, opened: Source | tuple[str, str], entry: str, place: int
) -> Source | Problem:
    if not isinstance(opened, Source):
        message = f"the chapter {show(entry)} {opened[0]}"
        return top.problem("chapter-missing", message, opened[1], "chapters", place)
    if "chapters" in (opened.parsed.values or {}):
        message = f"{show(entry)} is a book, not a chapter"
        mend = "List the book's chapters here instead."
        return top.problem("bad-value", message, mend, "chapters", place)
    return opened


def _same_file(path: Path) -> str:
    return os.path.realpath(path)


def _bind(
    top: Table | None, keys: Keys, drafts: Sequence[Draft], told: Iterable[Problem] = ()
) -> Reading:
    """Check the chapters, one by one and against each other, and make the book of what is good.

    ``top`` is the book's table, None for a chapter alone; ``told`` are the book's own problems.
    """
    faulty: dict[_Place, list[Problem]] = {}
    for draft in drafts:
        for where, found in check_pages(draft).items():
            faulty[draft.table.source.file, where] = found
    for page, problem in (*_repeated(drafts), *check_lists(drafts)):
        faulty.setdefault((page.source.file, page.where), []).append(problem)
    problems = [*told, *(problem for found in faulty.values() for problem in found)]
    for draft in drafts:
        problems += [*_slips(draft.table.source, draft.pages), *check_chapter(draft)]
    chapters = [make_chapter(draft, _good(draft, faulty)) for draft in drafts if draft.is_readable]
    files = [draft.table.source.file for draft in drafts]
    if top:
        files = [top.source.file, *files]
    book = None
    if chapters:
        table = top or Table(drafts[0].table.source, (), {})
        book = make_book(table, keys, _name(table, top is None), chapters)
    return Reading(book, file_by_file(problems, files))


def _good(draft: Draft, faulty: Mapping[_Place, Sequence[Problem]]) -> list[Table]:
    return [
        page
        for page in draft.pages
        if not any(
            problem.severity == "problem"
            for problem in faulty.get((page.source.file, page.where), ())
        )
        and not page.is_unreadable()
    ]


def _repeated(drafts: Sequence[Draft]) -> Iterator[tuple[Table, Problem]]:
    """Pages whose name, or the id made of it, another page before them has.

    Ids name files, and ß is ss to some file systems.
    """
    first: dict[str, Table] = {}
    for page in (page for draft in drafts for page in draft.pages):
        name = page.get("name")
        key = id_of(name).casefold() if isinstance(name, str) else ""
        other = first.setdefault(key, page)
        if not key or other is page:
            continue
        place = f"{other.source.file}:{other.line('name')}"
        message = f"another page has the name {shorten(other.page)} already, in {place}"
        if other.page != page.page:
            message = f'the name is too like {show(other.page)} in {place}: both give "{key}"'
        mend = "Give one of the two pages another name."
        yield page, page.problem("repeated-name", message, mend, "name")


def _name(table: Table, is_chapter: bool) -> str:
    """The stem of the output files: the chapter's own, or the name of the book's folder."""
    path = table.source.path
    folder = Path(os.path.normpath(path.absolute())).parent
    return path.stem if is_chapter else folder.name or path.stem
