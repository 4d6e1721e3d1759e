"""A page read as it stands: what can be made of its text, whatever is wrong with it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from bookmaker.model import Link, Page, Spot, progression
from bookmaker.model.numbers import Number
from bookmaker.place.draft import FileText, PageText
from bookmaker.reading import Written, id_of, is_spot_name, on_disk, parse

MOST = 60
"""Spots that are shown of a page that has far too many."""


def page_as_it_stands(file: FileText, page: PageText) -> Page:
    """The page with those of its spots and links that can be understood; links may be anything."""
    values = page_values(page.text)
    spots = tuple(_spots(values.get("spots")))[:MOST]
    known = {spot.name for spot in spots}
    name = _text(values.get("name"))
    return Page(
        id=id_of(name) or f"page-{page.uid}",
        name=name,
        chapter=file.path.stem,
        file=str(file.path),
        line=1,
        art=_file(file, values.get("art")),
        artist=_text(values.get("artist")),
        licence=_text(values.get("licence")),
        spots=spots,
        links=tuple(_links(values.get("links"), known)),
        numbers=progression(Number.parse("1"), Number.parse("2"), max(len(spots), 1)),
        turn=values.get("turn") is True,
        description=_text(values.get("description")),
        fact=_text(values.get("fact")),
    )


def page_values(text: str) -> Mapping[str, object]:
    """The page's table, as far as it can be read; an empty one where it can't."""
    pages = (parse(text.encode()).values or {}).get("page")
    first = pages[0] if isinstance(pages, list) and pages else {}
    return first if isinstance(first, dict) else {}


def arts_named(files: Iterable[FileText]) -> Iterator[Path]:
    """The pictures that the pages of these files name."""
    for file in files:
        for page in file.pages:
            art = page_as_it_stands(file, page).art
            if art:
                yield art


def _file(file: FileText, art: object) -> Path | None:
    if not isinstance(art, str) or not art.strip() or "\0" in art:
        return None
    return on_disk(file.path.parent / art)


def _text(value: object) -> str:
    return value.strip() if isinstance(value, str) else ""


def _spots(table: object) -> list[Spot]:
    found = []
    for name, place in table.items() if isinstance(table, dict) else ():
        if isinstance(place, list) and len(place) == 2 and is_spot_name(name):
            x, y = (_number(value) for value in place)
            if x is not None and y is not None:
                found.append(Spot(name, x, y))
    return found


def _number(value: object) -> float | None:
    if isinstance(value, Written):
        value = float(value.text)
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    return min(max(float(value), 0.0), 100.0)


def _links(value: object, known: set[str]) -> list[Link]:
    found = []
    for entry in value if isinstance(value, list) else ():
        a, _, b = str(entry).partition("-")
        if a in known and b in known and a != b:
            found.append(Link(a.strip(), b.strip()))
    return list({frozenset(link.ends): link for link in found}.values())
