"""Pictures in a PDF: once in full and once small, as fine as their prints need, in one ink."""

from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

import pikepdf
import pytest
from PIL import Image

from bookmaker.cache import Cache, MemoryCache
from bookmaker.model import Box, Picture, PlacedArt, PlacedPage
from bookmaker.pdf import INKS, Document, in_grey, press
from bookmaker.pictures import take_in
from tests.pictures.makers import photograph

WIDE = 1500


@pytest.fixture
def picture(tmp_path: Path) -> Picture:
    """A photograph twice as wide as high."""
    path = tmp_path / "newt.jpg"
    photograph(WIDE, WIDE // 2).save(path, quality=90)
    found = take_in([path], cache=MemoryCache())[path]
    assert isinstance(found, Picture)
    return found


class Printed(NamedTuple):
    width: int
    height: int
    space: str
    data: bytes


def page(digest: str, *widths: tuple[float, bool]) -> PlacedPage:
    """A page with prints of the picture, so many millimetres wide, in full or small."""
    items = []
    for place, (wide, small) in enumerate(widths):
        box = Box(10, 10 + 60 * place, wide, wide / 2)
        items.append(PlacedArt(digest, box, box, small=small))
    return PlacedPage("page", 210, 297, tuple(items))


def images(
    pages: list[PlacedPage], shown: dict[str, Picture], ink: str, cache: Cache, folder: Path
) -> list[Printed]:
    """The images of the printed file, most pixels first."""
    pdf = press(pages, INKS[ink], shown, Document("art", "en"), cache)
    found: dict[object, Printed] = {}
    with pikepdf.open(io.BytesIO(bytes(pdf))) as opened:
        for each in opened.pages:
            for _, image in each.obj.Resources.XObject.items():
                size, space = (int(image.Width), int(image.Height)), str(image.ColorSpace)
                found[image.objgen] = Printed(*size, space, image.read_raw_bytes())
    return sorted(found.values(), reverse=True)


def test_a_small_copy_is_as_fine_as_its_largest_print_needs(
    picture: Picture, tmp_path: Path
) -> None:
    pages = [page(picture.digest, (150, False), (25, True)), page(picture.digest, (76.2, True))]
    full, small = images(pages, {picture.digest: picture}, "full", MemoryCache(), tmp_path)
    assert full.width == WIDE
    assert (small.width, small.height) == (660, 330)  # three inches at 220 dots


def test_art_that_is_coarse_already_is_its_own_small_copy(picture: Picture, tmp_path: Path) -> None:
    pages = [page(picture.digest, (190, False), (180, True))]
    assert len(images(pages, {picture.digest: picture}, "full", MemoryCache(), tmp_path)) == 1


def test_a_grey_book_is_grey_though_the_same_book_was_made_in_colour(
    picture: Picture, tmp_path: Path
) -> None:
    cache = MemoryCache()
    pages = [page(picture.digest, (150, False), (25, True))]
    images(pages, {picture.digest: picture}, "full", cache, tmp_path)
    grey = replace(in_grey(picture, cache), cover=0.4)
    for image in images(pages, {picture.digest: grey}, "grey", cache, tmp_path):
        assert image.space == "/DeviceGray"
        assert Image.open(io.BytesIO(image.data)).mode == "L"
