"""Places for the spots of pages that leave them to us."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from bookmaker.cache import Cache
from bookmaker.linking.proposing import Proposal, propose_spots
from bookmaker.linking.spot_shapes import place_tree
from bookmaker.model import Book, Page, Picture, Point, Problem, Spot


def spot_pages(
    book: Book, pictures: Mapping[Path, Picture], cache: Cache
) -> tuple[Book, tuple[Problem, ...]]:
    """``book`` with a place for every spot, and what to say of those that were proposed.

    Where links are to be chosen, places are proposed from the picture; else the tree is laid out in
    a pleasing way, whatever the picture shows.
    """
    told: list[Problem] = []

    def spotted(page: Page) -> Page:
        if not page.unplaced:
            return page
        picture = pictures.get(page.art) if page.art else None
        if page.wish is None:
            return with_spots(page, place_tree(len(page.spots), page.edges))
        if picture is None:
            return page  # its art is a problem that is told already
        proposal = propose_spots(page, picture, book.paper, cache)
        if page.given and len(proposal.spots) < len(page.spots):
            return page  # its given numbers name spots that would not be there
        told.append(_told(page, proposal))
        return with_spots(page, proposal.spots)

    chapters = tuple(
        replace(chapter, pages=tuple(spotted(page) for page in chapter.pages))
        for chapter in book.chapters
    )
    return replace(book, chapters=chapters), tuple(told)


def with_spots(page: Page, places: tuple[Point, ...]) -> Page:
    """``page`` with its spots at ``places`` (per cent); of fewer places the first spots' are meant.

    A page of fewer spots has fewer numbers, the first of them.
    """
    spots = tuple(
        Spot(spot.name, round(x, 2), round(y, 2))
        for spot, (x, y) in zip(page.spots, places, strict=False)
    )
    return replace(page, spots=spots, numbers=page.numbers[: len(spots)])


def _told(page: Page, proposal: Proposal) -> Problem:
    found, asked = len(proposal.spots), len(page.spots)
    message = f"its {found} spots were proposed from the picture"
    mend = "Look at bookmaker proof, and move what you like better."
    if found < asked:
        message = f"only {found} spots could be placed cleanly on the picture, not {asked}"
        mend = "Take a picture whose creature is larger or less thin, or place the spots yourself."
    line = page.line_of("spots")
    return Problem(page.file, line, page.name, "spots-proposed", message, mend, "warning")
