"""The creature among a picture's pixels."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image, ImageDraw

from bookmaker.linking.creature import LEAST, MOST, creature

SIZE = (96, 72)
WHITE, SEA, FUR = (255, 255, 255), (90, 150, 200), (120, 70, 30)


def drawn(ground: tuple[int, int, int]) -> tuple[Image.Image, ImageDraw.ImageDraw]:
    image = Image.new("RGB", SIZE, ground)
    return image, ImageDraw.Draw(image)


def found(image: Image.Image) -> np.ndarray:
    return creature(np.asarray(image))


def overlap(one: np.ndarray, box: tuple[int, int, int, int]) -> float:
    """Shared pixels over all pixels (Jaccard) of a mask and an ellipse."""
    other, pencil = drawn((0, 0, 0))
    pencil.ellipse(box, fill=(255, 255, 255))
    mask = np.asarray(other)[:, :, 0] > 0
    return float((one & mask).sum() / (one | mask).sum())


def test_a_creature_on_one_colour_is_found() -> None:
    image, pencil = drawn(SEA)
    pencil.ellipse((20, 15, 70, 55), fill=FUR)
    assert overlap(found(image), (20, 15, 70, 55)) > 0.98


def test_a_white_creature_on_white_paper_is_what_its_outline_holds() -> None:
    image, pencil = drawn(WHITE)
    pencil.ellipse((20, 15, 70, 55), outline=(0, 0, 0), width=2)
    assert overlap(found(image), (20, 15, 70, 55)) > 0.98


@pytest.mark.parametrize("frame", ["card", "line"])
def test_a_creature_in_a_frame_is_found_inside_it(frame: str) -> None:
    image, pencil = drawn(WHITE)
    pencil.rectangle((5, 5, 90, 66), fill=SEA if frame == "card" else WHITE, outline=(0, 0, 0))
    pencil.ellipse((25, 18, 65, 52), fill=FUR)
    assert overlap(found(image), (25, 18, 65, 52)) > 0.95


def test_a_cloud_beside_the_creature_is_left_out() -> None:
    image, pencil = drawn(SEA)
    pencil.ellipse((20, 25, 80, 65), fill=FUR)
    pencil.ellipse((5, 5, 20, 12), fill=WHITE)
    assert not found(image)[:14, :22].any()


def test_two_creatures_are_both_found() -> None:
    image, pencil = drawn(SEA)
    pencil.ellipse((8, 15, 42, 55), fill=FUR)
    pencil.ellipse((60, 30, 85, 55), fill=FUR)
    mask = found(image)
    assert mask[35, 25]
    assert mask[42, 72]


def test_a_picture_of_one_colour_tells_nothing() -> None:
    assert found(Image.new("RGB", SIZE, SEA)).mean() < LEAST


def test_noise_tells_nothing_or_fills_the_picture() -> None:
    noise = np.random.default_rng(1).integers(0, 256, (72, 96, 3), dtype=np.uint8)
    share = creature(noise).mean()
    assert share < LEAST or share > MOST


def test_a_pencils_faint_line_with_gaps_holds_its_creature() -> None:
    image, pencil = drawn((240, 240, 238))
    for start in range(0, 360, 30):
        pencil.arc((20, 15, 70, 55), start, start + 24, fill=(218, 218, 218), width=1)
    assert overlap(found(image), (20, 15, 70, 55)) > 0.9
