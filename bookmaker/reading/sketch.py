"""A page that is still being made: its name and its art, whatever else it may lack."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from bookmaker.reading.names import id_of, is_called, nearest
from bookmaker.reading.toml import parse


@dataclass(frozen=True, slots=True)
class Sketch:
    """A page's name and art, and where its manifest says so."""

    id: str
    name: str
    art: Path
    file: str
    line: int


class NoSketch(LookupError):
    """No page of that name with art was found; the message names the nearest."""


def sketch(manifest: Path, page: str) -> Sketch:
    """Find ``page`` (an id or a name) in a book or a chapter by its name and art alone.

    Raises NoSketch.
    """
    found = list(_sketches(manifest))
    for each in found:
        if is_called(each.name, page):
            return each
    likely = nearest(page, [each.name for each in found])
    hint = f" The nearest is {likely!r}." if likely else ""
    raise NoSketch(f"no page {page!r} with a picture is in {manifest}.{hint}")


def _sketches(manifest: Path) -> Iterator[Sketch]:
    values, _ = _values(manifest)
    chapters = values.get("chapters")
    if isinstance(chapters, list):
        for chapter in chapters:
            if isinstance(chapter, str):
                yield from _sketches_of_chapter(manifest.parent / chapter)
    else:
        yield from _sketches_of_chapter(manifest)


def _sketches_of_chapter(chapter: Path) -> Iterator[Sketch]:
    values, lines = _values(chapter)
    pages = values.get("page")
    for place, page in enumerate(pages if isinstance(pages, list) else []):
        name, art = (page.get("name"), page.get("art")) if isinstance(page, dict) else (0, 0)
        if isinstance(name, str) and isinstance(art, str) and "\0" not in art:
            line = lines.get(("page", place, "art"), 0)
            yield Sketch(id_of(name), name, chapter.parent / art, str(chapter), line)


def _values(file: Path) -> tuple[Mapping[str, object], Mapping[tuple[str | int, ...], int]]:
    try:
        parsed = parse(file.read_bytes())
    except OSError:
        return {}, {}
    return parsed.values or {}, parsed.lines
