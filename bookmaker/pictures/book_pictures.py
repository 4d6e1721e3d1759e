"""The art of a book taken in: pictures by path, and what is wrong with those that can't be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from bookmaker.cache import Cache
from bookmaker.model import Book, Picture, Problem
from bookmaker.pictures.limits import PictureFault
from bookmaker.pictures.taking import take_in


@dataclass(frozen=True, slots=True)
class _Use:
    """A place in a manifest that names a picture."""

    art: Path
    file: str
    line: int
    page: str


def take_in_art(book: Book, cache: Cache) -> tuple[dict[Path, Picture], tuple[Problem, ...]]:
    """Take in every picture of ``book``; gives pictures by path, and problems and warnings."""
    uses = list(_uses(book))
    taken = take_in(dict.fromkeys(use.art for use in uses), cache=cache)
    pictures = {art: found for art, found in taken.items() if isinstance(found, Picture)}
    return pictures, tuple(problem for use in uses for problem in _problems(use, taken))


def _uses(book: Book) -> Iterator[_Use]:
    if book.cover:
        yield _Use(book.cover, book.file, dict(book.lines).get("cover", 0), "")
    for chapter in book.chapters:
        if chapter.ornament:
            yield _Use(chapter.ornament, chapter.file, dict(chapter.lines).get("ornament", 0), "")
        for page in chapter.pages:
            if page.art:
                yield _Use(page.art, page.file, page.line_of("art"), page.name)
            if page.mark:
                yield _Use(page.mark, page.file, page.line_of("mark"), page.name)


def _problems(use: _Use, taken: Mapping[Path, Picture | PictureFault]) -> Iterator[Problem]:
    found = taken[use.art]
    if isinstance(found, PictureFault):
        yield Problem(use.file, use.line, use.page, found.code, found.message, found.mend)
        return
    for note in found.notes:
        yield Problem(
            use.file,
            use.line,
            use.page,
            "art-changed",
            f"the art {use.art.name} {note}",
            "Look at the printed page and change the picture if it matters.",
            "warning",
        )
