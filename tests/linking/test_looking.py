"""Detail and what stands out: what is told of a picture beside its figure."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image, ImageDraw

from bookmaker.linking.looking import detail_of, standing_out

FUR = (150, 110, 70)


def face(eye: int) -> Image.Image:
    image = Image.new("RGB", (288, 216), FUR)
    pencil = ImageDraw.Draw(image)
    pencil.ellipse((100 - eye, 80 - eye, 100 + eye, 80 + eye), fill=(20, 20, 20))
    return image


@pytest.mark.parametrize("eye", [3, 6, 10, 16])
def test_an_eye_stands_out_and_an_edge_does_not(eye: int) -> None:
    image = face(eye)
    ImageDraw.Draw(image).rectangle((200, 0, 287, 215), fill=(60, 120, 60))
    detail = detail_of(image)
    row, column = np.unravel_index(detail.argmax(), detail.shape)
    assert abs(row - 80) <= eye
    assert abs(column - 100) <= eye
    assert detail[20:200, 195:215].max() < detail.max() / 3


def test_an_eye_stands_out_more_than_a_patterns_dots() -> None:
    image = face(6)
    pencil = ImageDraw.Draw(image)
    for x in range(170, 280, 18):
        for y in range(10, 210, 18):
            pencil.ellipse((x - 4, y - 4, x + 4, y + 4), fill=(20, 20, 20))
    detail = detail_of(image)
    assert detail[74:87, 94:107].max() > 2 * np.median(detail[:, 170:].max(axis=0))


def test_where_nothing_is_told_the_middle_is_taken() -> None:
    found = standing_out(np.full((72, 96, 3), 120, np.uint8))
    assert found[36, 48]
    assert not found[0].any()
    assert found.mean() == pytest.approx(0.4, abs=0.03)
