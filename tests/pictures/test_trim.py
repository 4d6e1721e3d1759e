"""White border is found, and only white border."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageDraw

from bookmaker.model import Box
from bookmaker.pictures.trim import WHOLE, trim_box
from tests.pictures.makers import encoded, picture

PIXEL = 0.012
"""About four pixels of the small copy in which the border is looked for."""


def creature(size: tuple[int, int], box: tuple[int, int, int, int], colour: object) -> Image.Image:
    image = Image.new("RGB", size, "white")
    ImageDraw.Draw(image).ellipse(box, fill=colour)  # type: ignore[arg-type]
    return image


def scanned(image: Image.Image, seed: int) -> Image.Image:
    """Yellowish paper, a scanner's noise, and a JPEG's."""
    random = np.random.default_rng(seed)
    paper = np.asarray(image).astype(float) * (0.97, 0.96, 0.92) + random.normal(0, 3, (1, 1, 3))
    noisy = np.clip(paper + random.normal(0, 2.5, paper.shape), 0, 255).astype(np.uint8)
    specks = Image.fromarray(noisy)
    for x, y in random.integers(0, min(image.size) - 1, (6, 2)):
        specks.putpixel((int(x), int(y)), (90, 90, 90))
    return Image.open(io.BytesIO(encoded(specks, "JPEG", quality=75))).convert("RGB")


def is_about(box: Box, left: float, top: float, right: float, bottom: float) -> bool:
    found = (box.x, box.y, box.right, box.bottom)
    return all(
        abs(one - other) <= PIXEL
        for one, other in zip(found, (left, top, right, bottom), strict=True)
    )


@pytest.mark.parametrize("colour", ["black", (255, 255, 0), (240, 220, 190), (120, 200, 255)])
def test_the_border_ends_where_the_creature_begins(colour: object) -> None:
    image = creature((800, 600), (200, 120, 640, 540), colour)
    assert is_about(trim_box(image), 0.25, 0.2, 0.8, 0.9)


def test_paper_from_a_scanner_counts_as_white() -> None:
    image = creature((1200, 900), (300, 180, 960, 810), (90, 60, 40))
    for seed in range(4):
        assert is_about(trim_box(scanned(image, seed)), 0.25, 0.2, 0.8, 0.9)


def test_thin_feelers_are_not_cut_off() -> None:
    image = creature((3000, 2000), (1000, 700, 2000, 1400), "black")
    ImageDraw.Draw(image).line((2000, 1000, 2800, 200), fill="black", width=3)
    box = trim_box(image)
    assert box.right > 2790 / 3000
    assert box.y < 210 / 2000


def test_a_picture_whose_edge_is_not_white_is_kept_whole() -> None:
    assert trim_box(Image.new("RGB", (300, 200), (120, 160, 90))) == WHOLE
    night = creature((400, 300), (100, 100, 300, 200), "white").point(lambda value: 255 - value)
    assert trim_box(night) == WHOLE


def test_an_empty_sheet_is_kept_whole() -> None:
    assert trim_box(Image.new("L", (300, 200), 255)) == WHOLE


def test_no_more_than_45_per_cent_is_cut_from_a_side() -> None:
    box = trim_box(creature((1000, 1000), (900, 900, 940, 940), "black"))
    assert (box.x, box.y) == (0.45, 0.45)


def test_a_border_of_a_hair_is_left_alone() -> None:
    assert trim_box(creature((1000, 800), (4, 4, 996, 796), "black")) == WHOLE


def test_the_border_of_a_turned_photograph_is_that_of_the_upright_one(tmp_path: Path) -> None:
    upright = creature((900, 600), (90, 60, 450, 300), "black")
    exif = Image.Exif()
    exif[274] = 6
    stored = upright.transpose(Image.Transpose.ROTATE_90)
    found = picture(tmp_path, encoded(stored, "JPEG", exif=exif), "newt.jpg")
    assert is_about(found.trim, 0.1, 0.1, 0.55, 0.55)


def test_what_is_see_through_is_border(tmp_path: Path) -> None:
    layered = Image.new("RGBA", (400, 400), (0, 0, 0, 0))
    ImageDraw.Draw(layered).ellipse((100, 100, 360, 300), fill=(30, 90, 20, 255))
    assert is_about(picture(tmp_path, encoded(layered, "PNG")).trim, 0.25, 0.25, 0.9, 0.75)


@settings(max_examples=60, deadline=None)
@given(
    st.integers(60, 900),
    st.integers(60, 900),
    st.lists(st.floats(0, 1), min_size=4, max_size=4),
)
def test_no_ink_of_any_size_lies_outside_the_box(
    width: int, height: int, ends: list[float]
) -> None:
    left, right = sorted(round(end * (width - 8)) for end in ends[:2])
    top, bottom = sorted(round(end * (height - 8)) for end in ends[2:])
    image = Image.new("L", (width, height), 255)
    ImageDraw.Draw(image).rectangle((left, top, right + 7, bottom + 7), fill=0)
    box = trim_box(image)
    assert box.x <= max(0.45, left / width) + 1e-9 and box.x * width <= left + 1e-9
    assert box.y * height <= top + 1e-9
    assert box.right * width >= right + 7
    assert box.bottom * height >= bottom + 7
