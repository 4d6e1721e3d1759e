"""Pictures made ready for an ink: measured, and without colour where it prints in greys."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from bookmaker.cache import Cache
from bookmaker.model import Picture, PlacedArt, PlacedPage
from bookmaker.pdf.grey_art import in_grey
from bookmaker.pdf.inks import Ink
from bookmaker.pictures import ink_cover


def ready_for(ink: Ink, pictures: Mapping[Path, Picture], cache: Cache) -> dict[str, Picture]:
    """The pictures by their digests, as ``ink`` prints them."""
    ready: dict[str, Picture] = {}
    for picture in pictures.values():
        if picture.digest not in ready:
            found = in_grey(picture, cache) if ink.grey else picture
            ready[picture.digest] = replace(found, cover=ink_cover(picture, cache))
    return ready


def page_cover(page: PlacedPage, ink: Ink, pictures: Mapping[str, Picture]) -> float:
    """The part of ``page`` that its pictures cover with ink, 0 to 1."""
    inked = 0.0
    for item in page.items:
        if isinstance(item, PlacedArt) and item.picture in pictures:
            cover = pictures[item.picture].cover
            left = cover * (1 - ink.fade(item.paled, item.ornament))
            inked += left * item.window.width * item.window.height
    return inked / (page.width * page.height)


def average_cover(pages: Sequence[PlacedPage], ink: Ink, pictures: Mapping[str, Picture]) -> float:
    """What ``page_cover`` comes to on average; 0 for no pages."""
    covers = [page_cover(page, ink, pictures) for page in pages]
    return sum(covers) / len(covers) if covers else 0.0
