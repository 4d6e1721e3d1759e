"""A page that is still being made: its name and its art, whatever else it may lack."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from bookmaker.reading.lines import Where
from bookmaker.reading.names import id_of, is_called, nearest
from bookmaker.reading.toml import Parsed, read_toml


@dataclass(frozen=True, slots=True)
class Sketch:
    """A page's name and art, where its manifest says so, and the ids of all pages there."""

    id: str
    name: str
    art: Path
    file: str
    line: int
    pages: frozenset[str]


class NoSketch(LookupError):
    """No page of that name with art was found; the message names the nearest."""


def sketch(manifest: Path, page: str) -> Sketch:
    """Find ``page`` (an id or a name) in a book or a chapter by its name and art alone.

    Raises NoSketch.
    """
    named = list(_named(manifest))
    pages = frozenset(id_of(each.name) for each in named)
    found = [each for each in named if each.art]
    for each in found:
        if each.art and is_called(each.name, page):
            return Sketch(id_of(each.name), each.name, each.art, each.file, each.line, pages)
    likely = nearest(page, [each.name for each in found])
    hint = f" The nearest is {likely!r}." if likely else ""
    raise NoSketch(f"no page {page!r} with a picture is in {manifest}.{hint}")


@dataclass(frozen=True, slots=True)
class _Named:
    """A page that has a name."""

    name: str
    art: Path | None
    file: str
    line: int


def _named(manifest: Path) -> Iterator[_Named]:
    values, _ = _values(manifest)
    chapters = values.get("chapters")
    if isinstance(chapters, list):
        for chapter in chapters:
            if isinstance(chapter, str):
                yield from _named_in(manifest.parent / chapter)
    else:
        yield from _named_in(manifest)


def _named_in(chapter: Path) -> Iterator[_Named]:
    values, lines = _values(chapter)
    pages = values.get("page")
    for place, page in enumerate(pages if isinstance(pages, list) else []):
        name, art = (page.get("name"), page.get("art")) if isinstance(page, dict) else (0, 0)
        if isinstance(name, str):
            file = chapter.parent / art if isinstance(art, str) and "\0" not in art else None
            yield _Named(name, file, str(chapter), lines.get(("page", place, "art"), 0))


def _values(file: Path) -> tuple[Mapping[str, object], Mapping[Where, int]]:
    try:
        parsed = read_toml(file) if file.is_file() else Parsed(None)
    except OSError:
        return {}, {}
    return parsed.values or {}, parsed.lines
