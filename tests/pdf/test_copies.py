"""A copy of a copy: rings stay closed, cords stay joined and apart from the picture.

A school copier is taken to blur by a quarter of a millimetre and to print black or nothing
(common practice, no source).
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from PIL import Image, ImageDraw, ImageFilter

from bookmaker.cache import MemoryCache
from bookmaker.layout import Setting, lay_out, place_puzzle
from bookmaker.model import (
    BoundBook,
    Picture,
    PlacedLink,
    PlacedPage,
    PlacedSpot,
    PlacedTag,
    Puzzle,
    Side,
)
from bookmaker.pdf import INKS, Document, in_grey, press
from bookmaker.pictures import ink_cover, take_in
from bookmaker.typeset import Sheet
from bookmaker.words import load
from tests.layout.books import Shape, ordered_book

DPI = 150
BLUR = 0.25
"""Standard deviation in millimetres."""
TONES = {"white": "#ffffff", "light": "#d8c9a8", "middle": "#8a8055", "dark": "#2e241b"}


def pictured(folder: Path, colour: str) -> Picture:
    file = folder / "art.svg"
    file.write_text(
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1000 1200">'
        f'<rect width="1000" height="1200" fill="{colour}"/></svg>'
    )
    picture = take_in([file], cache=MemoryCache())[file]
    assert isinstance(picture, Picture)
    return picture


def page_on(picture: Picture, paper: str) -> PlacedPage:
    ordered = ordered_book(Shape(1, 1), paper)
    certified = ordered.pages[0]
    placed = place_puzzle(certified, picture, Sheet(paper, recto=True), load("en"))
    side = Side("newt", "1", True, Puzzle(certified))
    bound = BoundBook(ordered, (side,))
    puzzles = {certified.id: placed}
    return lay_out(side, Setting(paper, load("en"), bound, {}, puzzles))


def printed(page: PlacedPage, picture: Picture, ink: str, folder: Path) -> Image.Image:
    shown = in_grey(picture, MemoryCache()) if INKS[ink].grey else picture
    shown = replace(shown, cover=ink_cover(picture, MemoryCache()))
    data = bytes(
        press([page], INKS[ink], {picture.digest: shown}, Document("copy", "en"), MemoryCache())
    )
    document = pypdfium2.PdfDocument(data)
    try:
        return document[0].render(scale=DPI / 72, grayscale=True).to_pil().convert("L")
    finally:
        document.close()


def copied(image: Image.Image) -> Image.Image:
    blurred = image.filter(ImageFilter.GaussianBlur(BLUR / 25.4 * DPI))
    return blurred.point(lambda level: 255 if level > 127 else 0)


@cache
def copy_of_a_copy(folder: Path, tone: str, ink: str, paper: str) -> tuple[PlacedPage, Image.Image]:
    picture = pictured(folder, TONES[tone])
    page = page_on(picture, paper)
    return page, copied(copied(printed(page, picture, ink, folder)))


def at(x: float, y: float) -> tuple[int, int]:
    return round(x / 25.4 * DPI), round(y / 25.4 * DPI)


def flooded(
    image: Image.Image, start: tuple[int, int]
) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
    """What can be reached from ``start`` over pixels of its own kind."""
    copy = image.copy()
    ImageDraw.floodfill(copy, start, 77)
    return np.asarray(copy) == 77


BRIGHT = ("white", "light")
"""Tones that a copier prints as nothing: on darker ones a cord is joined to the picture as well."""
CASES = [(tone, ink) for tone in TONES for ink in ("full", "grey", "light")]


@pytest.mark.parametrize(("tone", "ink"), CASES)
def test_rings_stay_closed(tone: str, ink: str, tmp_path_factory: pytest.TempPathFactory) -> None:
    page, image = copy_of_a_copy(_folder(tmp_path_factory), tone, ink, "a5")
    for spot in spots(page):
        inside = flooded(image, at(spot.x, spot.y))
        reach = np.argwhere(inside) - np.array(at(spot.x, spot.y))[::-1]
        assert inside[at(spot.x, spot.y)[::-1]]
        assert np.hypot(*reach.T).max() / DPI * 25.4 <= spot.radius


@pytest.mark.parametrize(("tone", "ink"), [case for case in CASES if case[0] in BRIGHT])
def test_cords_stay_joined_to_their_tags(
    tone: str, ink: str, tmp_path_factory: pytest.TempPathFactory
) -> None:
    """From the ring of one end along the cord to the tag's outline, and on to the other ring."""
    page, image = copy_of_a_copy(_folder(tmp_path_factory), tone, ink, "a5")
    rings = {spot.name: spot for spot in spots(page)}
    tags = {item.link: item for item in page.items if isinstance(item, PlacedTag)}
    for link in (item for item in page.items if isinstance(item, PlacedLink)):
        ends = [rings[name] for name in link.name.split("-")]
        cord = flooded(image, at(*inside_cord(link, ends[0])))
        box = tags[link.name].box
        for x, y in ((box.x, box.y + box.height / 2), (box.right, box.y + box.height / 2)):
            assert near(cord, at(x, y))
        for end in ends:
            assert near(cord, at(end.x + end.radius, end.y))


@pytest.mark.parametrize("ink", ["full", "grey"])
def test_cords_stay_apart_from_a_dark_picture(
    ink: str, tmp_path_factory: pytest.TempPathFactory
) -> None:
    page, image = copy_of_a_copy(_folder(tmp_path_factory), "dark", ink, "a5")
    levels = np.asarray(image)
    for link in (item for item in page.items if isinstance(item, PlacedLink)):
        x, y = at(*inside_cord(link, None))
        around = levels[y - 11 : y + 12, x - 11 : x + 12]
        assert (around > 127).any(), "the white edge of the cord is gone"


def _folder(factory: pytest.TempPathFactory) -> Path:
    return factory.getbasetemp()


def spots(page: PlacedPage) -> list[PlacedSpot]:
    return [item for item in page.items if isinstance(item, PlacedSpot)]


def inside_cord(link: PlacedLink, end: PlacedSpot | None) -> tuple[float, float]:
    """A place on the cord, a little away from its first end."""
    (x0, y0), (x1, y1) = link.curve[0], link.curve[1]
    length = float(np.hypot(x1 - x0, y1 - y0))
    share = min(2.0 / length, 0.5)
    return x0 + (x1 - x0) * share, y0 + (y1 - y0) * share


def near(reached: np.ndarray[tuple[int, ...], np.dtype[np.bool_]], place: tuple[int, int]) -> bool:
    x, y = place
    return bool(reached[y - 6 : y + 7, x - 6 : x + 7].any())
