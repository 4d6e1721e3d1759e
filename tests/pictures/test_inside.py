"""Pictures inside an SVG."""

from __future__ import annotations

import base64

import pytest
from PIL import Image

from bookmaker.pictures.inside import decode_uri, keep_inside
from bookmaker.pictures.limits import Unfit
from tests.pictures.makers import encoded, quarters


def uri(data: bytes, kind: str = "image/png") -> str:
    return f"data:{kind};base64,{base64.b64encode(data).decode()}"


@pytest.mark.parametrize(
    ("text", "data"),
    [
        ("data:,A%20brief%20note", b"A brief note"),
        ("data:text/plain;base64,QQ==", b"A"),
        ("data:;base64,Q\nQ", b"A"),
        ("data:image/png;charset=x;base64,QUI%3D", b"AB"),
        ("data:nothing", None),
        ("http://example.org", None),
        ("data:;base64,Q", None),
    ],
)
def test_data_uris_are_read_as_rfc_2397_says(text: str, data: bytes | None) -> None:
    assert decode_uri(text) == data


def test_a_small_picture_is_kept_without_its_metadata() -> None:
    exif = Image.Exif()
    exif[315] = "a pupil's name"
    for form in ("PNG", "JPEG"):
        kept, pixels = keep_inside(uri(encoded(quarters(), form, exif=exif)), 10_000)
        assert pixels == 96 * 64
        data = decode_uri(kept or "")
        assert data is not None
        assert b"pupil" not in data


def test_see_through_parts_stay_so() -> None:
    layered = Image.new("RGBA", (20, 20), (255, 0, 0, 128))
    kept, _ = keep_inside(uri(encoded(layered, "PNG")), 10_000)
    data = decode_uri(kept or "")
    assert data is not None
    assert data[25] == 6  # ISO/IEC 15948, 11.2.2: colour type 6 is RGBA


def test_too_many_pixels_are_refused_by_the_header() -> None:
    with pytest.raises(Unfit, match="million pixels inside"):
        keep_inside(uri(encoded(quarters(), "PNG")), 6000)


@pytest.mark.parametrize("data", [b"", b"no picture", encoded(quarters(), "PNG")[:200]])
def test_what_is_no_picture_is_left_out(data: bytes) -> None:
    assert keep_inside(uri(data), 10_000) == (None, 0)


def test_an_svg_inside_an_svg_is_left_out() -> None:
    assert keep_inside(uri(b"<svg/>", "image/svg+xml"), 10_000) == (None, 0)
