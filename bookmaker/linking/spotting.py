"""Places for the spots of pages that leave them to us."""

from __future__ import annotations

from dataclasses import replace

from bookmaker.linking.spot_shapes import place_tree
from bookmaker.model import Book, Page, Spot


def spot_pages(book: Book) -> Book:
    """``book`` with a place for every spot: a pleasing one where the page names none."""
    chapters = tuple(
        replace(chapter, pages=tuple(_spotted(page) for page in chapter.pages))
        for chapter in book.chapters
    )
    return replace(book, chapters=chapters)


def _spotted(page: Page) -> Page:
    if not page.unplaced:
        return page
    places = place_tree(len(page.spots), page.edges)
    spots = (
        Spot(spot.name, round(x, 2), round(y, 2))
        for spot, (x, y) in zip(page.spots, places, strict=True)
    )
    return replace(page, spots=tuple(spots))
