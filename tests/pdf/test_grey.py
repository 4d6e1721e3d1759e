"""Pictures without colour: as light as they were, whatever they are made of."""

from __future__ import annotations

import hashlib
import io
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from bookmaker.cache import MemoryCache
from bookmaker.model import Picture
from bookmaker.pdf import in_grey
from bookmaker.pdf.grey_art import grey_svg
from bookmaker.pictures import ink_cover, take_in

COLOURFUL = """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 80">
<defs><linearGradient id="a"><stop offset="0" stop-color="tomato"/>
<stop offset="1" stop-color="#00a0ff"/></linearGradient>
<radialGradient id="b"><stop offset="0" stop-color="#fa0"/><stop offset="1" stop-color="green"/>
</radialGradient><pattern id="p" width="10" height="10" patternUnits="userSpaceOnUse">
<circle cx="5" cy="5" r="3" fill="rgb(200,30,120)"/></pattern></defs>
<rect width="50" height="40" fill="url(#a)"/><circle cx="75" cy="20" r="18" fill="url(#b)"/>
<rect y="45" width="40" height="30" fill="url(#p)" opacity=".7"/>
<path d="M50 45h45v30h-45z" style="fill:#7a2e90;stroke:teal"/></svg>"""


def taken(path: Path) -> Picture:
    picture = take_in([path], cache=MemoryCache())[path]
    assert isinstance(picture, Picture), picture
    return picture


def svg(folder: Path, text: str = COLOURFUL) -> Picture:
    file = folder / "art.svg"
    file.write_text(text)
    return taken(file)


def raster(folder: Path, name: str) -> Picture:
    gradient = np.zeros((60, 80, 3), np.uint8)
    gradient[..., 0] = np.linspace(0, 255, 80)
    gradient[..., 1] = np.linspace(255, 0, 60)[:, None]
    gradient[..., 2] = 90
    Image.fromarray(gradient).save(folder / name)
    return taken(folder / name)


def pixels(picture: Picture) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    if picture.format == "svg":
        document = pypdfium2.PdfDocument(picture.pdf)
        image = document[0].render(scale=0.3).to_pil().convert("RGB")
        document.close()
    else:
        image = Image.open(io.BytesIO(picture.data)).convert("RGB")
    return np.asarray(image, float) / 255


def luminance(
    rgb: np.ndarray[tuple[int, ...], np.dtype[np.float64]],
) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """WCAG 2.2, relative luminance."""
    linear = np.where(rgb <= 0.04045, rgb / 12.92, ((rgb + 0.055) / 1.055) ** 2.4)
    return linear @ np.array([0.2126, 0.7152, 0.0722])


def test_vector_art_is_grey_and_as_light_as_before(tmp_path: Path) -> None:
    picture = svg(tmp_path)
    before, after = pixels(picture), pixels(in_grey(picture, MemoryCache()))
    assert np.abs(after - after.mean(axis=2, keepdims=True)).max() < 0.005
    off = np.abs(luminance(before) - luminance(after)).mean()
    assert off < 0.03  # the middle of a gradient between two hues is a little darker than its grey


def test_vector_art_printed_in_grey_holds_no_colour_operator(tmp_path: Path) -> None:
    from pypdf import PdfReader

    reader = PdfReader(io.BytesIO(in_grey(svg(tmp_path), MemoryCache()).pdf))
    for number in range(1, len(reader.xref.get(0, {})) + 40):
        try:
            found = reader.get_object(number)
        except Exception:
            break
        if hasattr(found, "get_data") and found.get("/Subtype") != "/Image":
            words = found.get_data().split()
            assert b"rg" not in words
            assert b"RG" not in words
        assert getattr(found, "get", lambda key: None)("/ColorSpace") != "/DeviceRGB"


@pytest.mark.parametrize("name", ["art.png", "art.jpg"])
def test_rasters_have_one_channel(tmp_path: Path, name: str) -> None:
    picture = raster(tmp_path, name)
    found = in_grey(picture, MemoryCache())
    assert found.colours == 1
    assert (found.width, found.height) == (picture.width, picture.height)
    assert Image.open(io.BytesIO(found.data)).mode == "L"


def test_a_grey_picture_is_another_picture_and_always_the_same(tmp_path: Path) -> None:
    cache = MemoryCache()
    picture = svg(tmp_path)
    grey = in_grey(picture, cache)
    assert grey.digest == hashlib.sha256(grey.data).hexdigest() != picture.digest
    assert in_grey(picture, cache) == grey


@pytest.mark.parametrize(
    ("source", "expected"),
    [
        ('fill="#ffffff"', 'fill="#ffffff"'),
        ('fill="#f00"', 'fill="#7f7f7f"'),
        ("stroke:red", "stroke:#7f7f7f"),
        ("rgba(255,0,0,0.5)", "rgba(127,127,127,0.5)"),
        ('id="red"', 'id="red"'),
    ],
)
def test_colours_are_rewritten_in_every_form(source: str, expected: str) -> None:
    """Red's luminance is 0.2126 (WCAG 2.2): the grey 0.4985 of 1, or #7f7f7f."""
    assert grey_svg(source) == expected


@pytest.mark.parametrize(
    ("drawing", "cover"),
    [
        ('<rect width="100" height="80"/>', 1.0),
        ('<rect width="49" height="80"/><rect x="99" width="1" height="80"/>', 0.5),
        ('<rect width="100" height="80" fill="#808080"/>', 0.5),
    ],
)
def test_ink_cover_is_measured(tmp_path: Path, drawing: str, cover: float) -> None:
    frame = '<rect width="100" height="80" fill="#fefefe"/>'
    text = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 80">{frame}{drawing}</svg>'
    assert ink_cover(svg(tmp_path, text), MemoryCache()) == pytest.approx(cover, abs=0.02)


def test_ink_cover_of_a_raster_is_measured(tmp_path: Path) -> None:
    half = Image.new("RGB", (400, 300), "black")
    half.paste("white", (0, 0, 399, 150))
    half.save(tmp_path / "half.png")
    assert ink_cover(taken(tmp_path / "half.png"), MemoryCache()) == pytest.approx(0.5, abs=0.02)
