"""Pictures at their printed size."""

from __future__ import annotations

import io
import math
from pathlib import Path

import pytest
from PIL import Image, ImageDraw

from bookmaker.cache import MemoryCache
from bookmaker.pictures import at_size, dpi, small, standing_alone
from tests.pictures.makers import (
    BOX,
    CORNERS,
    decoded,
    encoded,
    near,
    photograph,
    picture,
    quarters,
    shows_quarters,
)
from tests.pictures.test_raster import swapped_primaries

INCH = 25.4
"""Millimetres (international yard and pound agreement, 1959)."""


def test_dots_are_counted_by_the_inch(tmp_path: Path) -> None:
    found = picture(tmp_path, encoded(quarters(600, 400), "PNG"))
    assert dpi(found, 2 * INCH) == pytest.approx(300)


def test_vector_art_has_dots_without_end_and_is_given_back(tmp_path: Path) -> None:
    found = picture(tmp_path, f'{BOX}<rect width="9" height="9"/></svg>'.encode(), "newt.svg")
    assert dpi(found, 100) == math.inf
    assert at_size(found, 1) is found
    assert small(found, 10) is found


def test_up_to_450_dots_an_inch_a_picture_is_given_back(tmp_path: Path) -> None:
    found = picture(tmp_path, encoded(quarters(900, 600), "JPEG"), "newt.jpg")
    assert at_size(found, 2 * INCH) is found
    assert at_size(found, 1.999 * INCH) is not found


@pytest.mark.parametrize("form", ["JPEG", "PNG"])
def test_a_finer_picture_is_brought_down_to_300(tmp_path: Path, form: str) -> None:
    found = picture(tmp_path, encoded(quarters(1500, 1000), form))
    sized = at_size(found, 2 * INCH)
    assert (sized.width, sized.height) == (600, 400)
    assert sized.format == found.format
    assert sized.trim == found.trim
    assert shows_quarters(decoded(sized))


@pytest.mark.parametrize("value", range(1, 9))
def test_what_is_brought_down_is_upright(tmp_path: Path, value: int) -> None:
    exif = Image.Exif()
    exif[274] = value
    stored = quarters(1600, 1200)
    back = {2: 0, 3: 3, 4: 1, 5: 5, 6: 2, 7: 6, 8: 4}
    if value > 1:
        stored = stored.transpose(Image.Transpose(back[value]))
    found = picture(tmp_path, encoded(stored, "JPEG", exif=exif), "newt.jpg")
    sized = small(found, 200)
    assert (sized.width, sized.height, sized.orientation) == (200, 150, 1)
    assert decoded(sized).size == (200, 150)
    assert shows_quarters(decoded(sized))


def test_a_fine_photograph_in_a_png_becomes_a_jpeg_and_a_drawing_does_not(tmp_path: Path) -> None:
    photo = picture(tmp_path, encoded(photograph(1200, 900), "PNG"))
    drawing = picture(tmp_path, encoded(quarters(1200, 900), "PNG"), "drawing.png")
    assert small(photo, 600).format == "jpeg"
    assert small(drawing, 600).format == "png"


def test_cmyk_is_brought_down_to_rgb(tmp_path: Path) -> None:
    data = encoded(quarters(1200, 800).convert("CMYK"), "JPEG", quality=95)
    sized = small(picture(tmp_path, data, "newt.jpg"), 300)
    assert (sized.colours, sized.inverted) == (3, False)
    assert shows_quarters(decoded(sized))


def test_a_profile_is_used_up_when_a_picture_is_brought_down(tmp_path: Path) -> None:
    profile = swapped_primaries()
    data = encoded(quarters(1200, 800), "JPEG", quality=95, icc_profile=profile)
    found = picture(tmp_path, data, "newt.jpg")
    sized = small(found, 300)
    assert found.icc == profile
    assert sized.icc == b""
    assert not near(decoded(sized), 0.25, 0.25, CORNERS[0], 60)


def test_two_levels_are_averaged_to_grey(tmp_path: Path) -> None:
    lines = Image.new("1", (1200, 600), 1)
    for x in range(0, 1200, 4):
        ImageDraw.Draw(lines).line((x, 0, x, 599), fill=0)
    sized = decoded(small(picture(tmp_path, encoded(lines, "PNG")), 300))
    assert sized.mode == "L"
    assert near(sized, 0.5, 0.5, (191, 191, 191), 12)


def test_a_small_copy_of_a_small_picture_is_itself(tmp_path: Path) -> None:
    found = picture(tmp_path, encoded(quarters(200, 100), "PNG"))
    assert small(found, 200) is found


def test_a_cache_saves_the_work(tmp_path: Path) -> None:
    found = picture(tmp_path, encoded(photograph(1200, 900), "JPEG"), "newt.jpg")
    cache = MemoryCache()
    first = small(found, 320, cache=cache)
    assert small(found, 320, cache=cache) == first
    assert small(found, 320) == first
    assert len(cache._kept) == 1


def test_an_upright_picture_stands_alone_as_it_is(tmp_path: Path) -> None:
    found = picture(tmp_path, encoded(quarters(), "JPEG"), "newt.jpg")
    assert standing_alone(found) == ("jpeg", found.data)


def test_a_turned_or_cmyk_picture_is_redrawn_to_stand_alone(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[274] = 3
    turned = encoded(quarters().rotate(180), "JPEG", exif=exif, quality=95)
    cmyk = encoded(quarters().convert("CMYK"), "JPEG", quality=95)
    for data in (turned, cmyk):
        form, alone = standing_alone(picture(tmp_path, data, "newt.jpg"))
        shown = Image.open(io.BytesIO(alone))
        assert (form, shown.mode, shown.size) == ("jpeg", "RGB", (96, 64))
        assert shows_quarters(shown)
