"""A page that is still being made: its name and its art, whatever else it may lack."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from bookmaker.model import Spot
from bookmaker.reading.lines import Where
from bookmaker.reading.names import id_of, is_called, nearest
from bookmaker.reading.spots import as_pair
from bookmaker.reading.toml import Parsed, read_toml


@dataclass(frozen=True, slots=True)
class Sketch:
    """A page's name and art, where its manifest says so, and the ids of all pages there.

    ``spots`` are those that can be read; a page that is still being made may have none.
    """

    id: str
    name: str
    art: Path
    file: str
    line: int
    pages: frozenset[str]
    spots: tuple[Spot, ...] = ()


class NoSketch(LookupError):
    """No page of that name with art was found; the message names the nearest."""


def sketch(manifest: Path, page: str) -> Sketch:
    """Find ``page`` (an id or a name) in a book or a chapter by its name and art alone.

    Raises NoSketch.
    """
    found = _sketches(manifest)
    for each in found:
        if is_called(each.name, page):
            return each
    likely = nearest(page, [each.name for each in found])
    hint = f" The nearest is {likely!r}." if likely else ""
    raise NoSketch(f"no page {page!r} with a picture is in {manifest}.{hint}")


def sketches(manifest: Path) -> tuple[Sketch, ...]:
    """Every page of a book or a chapter that has a name and art; raises NoSketch for none."""
    found = _sketches(manifest)
    if not found:
        raise NoSketch(f"no page with a picture is in {manifest}.")
    return found


def _sketches(manifest: Path) -> tuple[Sketch, ...]:
    named = list(_named(manifest))
    pages = frozenset(id_of(each.name) for each in named)
    return tuple(
        Sketch(id_of(each.name), each.name, each.art, each.file, each.line, pages, each.spots)
        for each in named
        if each.art
    )


@dataclass(frozen=True, slots=True)
class _Named:
    """A page that has a name."""

    name: str
    art: Path | None
    file: str
    line: int
    spots: tuple[Spot, ...]


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
            line = lines.get(("page", place, "art"), 0)
            yield _Named(name, file, str(chapter), line, tuple(_spots(page)))


def _spots(page: Mapping[str, object]) -> Iterator[Spot]:
    spots = page.get("spots")
    for name, place in spots.items() if isinstance(spots, dict) else ():
        pair = as_pair(place)
        if pair and all(0 <= part <= 100 for part in pair):
            yield Spot(name, *pair)


def _values(file: Path) -> tuple[Mapping[str, object], Mapping[Where, int]]:
    try:
        parsed = read_toml(file) if file.is_file() else Parsed(None)
    except OSError:
        return {}, {}
    return parsed.values or {}, parsed.lines
