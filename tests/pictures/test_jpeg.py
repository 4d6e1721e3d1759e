"""JPEG is kept as it is, but for its metadata."""

from __future__ import annotations

import io
import re
import struct
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import ExifTags, Image, ImageCms, ImageOps

from bookmaker.pictures import jpeg
from bookmaker.pictures.limits import Unfit
from bookmaker.pictures.raster import upright
from tests.pictures.makers import (
    encoded,
    fault,
    jpeg_segment,
    photograph,
    picture,
    quarters,
    shows_quarters,
)

ORIENTATIONS = [
    (1, "top", "left"),
    (2, "top", "right"),
    (3, "bottom", "right"),
    (4, "bottom", "left"),
    (5, "left", "top"),
    (6, "right", "top"),
    (7, "right", "bottom"),
    (8, "left", "bottom"),
]
"""JEITA CP-3451 (EXIF 2.3), 4.6.4 A, tag 274: where the 0th row and the 0th column are."""

SECRETS = (
    b"GPS-52.1-5.3",
    b"thumb",
    b"http://ns.adobe.com/xap",
    b"Photoshop 3.0",
    b"a pupil's name",
)


def as_camera_holds(image: Image.Image, row: str, column: str) -> Image.Image:
    """The pixels that a camera stores, by the standard's own words: what its 0th row shows."""
    sides = {"top": "y0", "bottom": "y1", "left": "x0", "right": "x1"}
    width, height = image.size
    turned = sides[row][0] == "x"
    stored = Image.new("RGB", (height, width) if turned else (width, height))
    for x in range(stored.width):
        for y in range(stored.height):
            down, across = (y, x)
            place = {}
            for side, step in ((row, down), (column, across)):
                axis, end = sides[side]
                length = width if axis == "x" else height
                place[axis] = length - 1 - step if end == "1" else step
            stored.putpixel((x, y), image.getpixel((place["x"], place["y"])))  # type: ignore[arg-type]
    return stored


def with_orientation(image: Image.Image, value: int) -> bytes:
    exif = Image.Exif()
    exif[ExifTags.Base.Orientation] = value
    return encoded(image, "JPEG", quality=95, exif=exif)


def markers(data: bytes) -> list[int]:
    """The marker codes outside entropy-coded data (ITU-T T.81, B.1.1.2), in their order."""
    return [found[1][0] for found in re.finditer(rb"\xff([^\x00\xff\xd0-\xd7])", data)]


def scans(data: bytes) -> bytes:
    """Everything from the first quantisation table on (T.81, B.2.4.1), as Pillow writes it."""
    return data[data.index(b"\xff\xdb") :]


def full_of_secrets(plain: bytes) -> bytes:
    """The same JPEG with every kind of metadata, and with a second picture behind its end."""
    segments = [
        jpeg_segment(0xE1, b"Exif\0\0MM\0*\0\0\0\x08\0\0" + SECRETS[0]),
        jpeg_segment(0xE0, b"JFXX\0\x10" + SECRETS[1]),
        jpeg_segment(0xE1, SECRETS[2]),
        jpeg_segment(0xED, SECRETS[3]),
        jpeg_segment(0xFE, SECRETS[4]),
        *(jpeg_segment(code, b"maker's note " + SECRETS[0]) for code in range(0xE3, 0xF0)),
    ]
    return plain[:2] + b"".join(segments) + plain[2:] + b"\0\0" + plain + SECRETS[4]


@pytest.mark.parametrize(("value", "row", "column"), ORIENTATIONS)
def test_every_orientation_is_told_and_turned_as_the_standard_says(
    tmp_path: Path, value: int, row: str, column: str
) -> None:
    stored = as_camera_holds(quarters(), row, column)
    found = picture(tmp_path, with_orientation(stored, value), "newt.jpg")
    assert found.orientation == value
    assert (found.width, found.height) == quarters().size
    assert shows_quarters(upright(stored, value), within=0)


@pytest.mark.parametrize("value", [0, 9, 65535])
def test_an_orientation_that_is_none_counts_as_upright(tmp_path: Path, value: int) -> None:
    assert picture(tmp_path, with_orientation(quarters(), value), "newt.jpg").orientation == 1


@pytest.mark.parametrize("progressive", [False, True])
def test_the_coded_picture_is_kept_byte_for_byte(tmp_path: Path, progressive: bool) -> None:
    plain = encoded(photograph(400, 300), "JPEG", quality=85, progressive=progressive)
    kept = picture(tmp_path, full_of_secrets(plain), "newt.jpg").data
    assert scans(kept) == scans(plain)


def test_nothing_of_the_metadata_survives() -> None:
    plain = encoded(quarters(), "JPEG")
    kept = jpeg.clean(full_of_secrets(plain)).data
    assert not any(secret in kept for secret in SECRETS)
    assert set(markers(kept)) <= {0xD8, 0xE0, 0xDB, 0xC0, 0xC4, 0xDA, 0xD9}


def test_a_thumbnail_inside_the_jfif_segment_is_taken_out() -> None:
    plain = encoded(quarters(), "JPEG")
    jfif = b"JFIF\0\1\1\0\0\1\0\1\2\2" + b"secret pixel"
    kept = jpeg.clean(plain[:2] + jpeg_segment(0xE0, jfif) + scans(plain)).data
    assert b"secret" not in kept
    assert jpeg.clean(kept).data == kept


def test_data_behind_the_end_of_image_marker_is_cut_off() -> None:
    plain = encoded(quarters(), "JPEG")
    assert jpeg.clean(plain + b"a film of the same moment").data == plain


def test_fill_bytes_before_a_marker_are_no_trouble() -> None:
    """ITU-T T.81, B.1.1.2: any marker may be preceded by any number of bytes FF."""
    plain = encoded(quarters(), "JPEG")
    filled = plain[:-2] + b"\xff" * 500_000 + plain[-2:]
    assert jpeg.clean(filled).data == plain[:-2] + b"\xff" * 500_000 + plain[-2:]
    tables = plain.index(b"\xff\xdb")
    assert jpeg.clean(plain[:tables] + b"\xff" * 9 + plain[tables:]).data == plain


def test_metadata_between_the_scans_of_a_progressive_picture_goes_too() -> None:
    plain = encoded(photograph(200, 200), "JPEG", progressive=True)
    second = [found.start() for found in re.finditer(rb"\xff\xda", plain)][1]
    mixed = plain[:second] + jpeg_segment(0xFE, SECRETS[4]) + plain[second:]
    assert jpeg.clean(mixed).data == plain


def test_the_colour_profile_is_lifted_out_of_its_parts() -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    plain = encoded(quarters(), "JPEG")
    half = len(profile) // 2
    parts = [
        jpeg_segment(0xE2, b"ICC_PROFILE\0\2\2" + profile[half:]),
        jpeg_segment(0xE2, b"ICC_PROFILE\0\1\2" + profile[:half]),
    ]
    clean = jpeg.clean(plain[:2] + b"".join(parts) + plain[2:])
    assert clean.icc == profile
    assert clean.data == plain


@pytest.mark.parametrize("broken", ["a part is missing", "it speaks of grey", "it is none"])
def test_a_profile_that_does_not_fit_is_dropped(broken: str) -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    grey = profile[:16] + b"GRAY" + profile[20:]
    body = {
        "a part is missing": b"ICC_PROFILE\0\1\2" + profile,
        "it speaks of grey": b"ICC_PROFILE\0\1\1" + grey,
        "it is none": b"ICC_PROFILE\0\1\1" + bytes(200),
    }[broken]
    plain = encoded(quarters(), "JPEG")
    assert jpeg.clean(plain[:2] + jpeg_segment(0xE2, body) + plain[2:]).icc == b""


def test_cmyk_keeps_adobes_mark_and_says_that_it_counts_from_white(tmp_path: Path) -> None:
    found = picture(tmp_path, encoded(quarters().convert("CMYK"), "JPEG"), "newt.jpg")
    assert b"\xff\xee\0\x0eAdobe" in found.data
    assert (found.colours, found.inverted) == (4, True)


def test_grey_stays_grey(tmp_path: Path) -> None:
    found = picture(tmp_path, encoded(quarters().convert("L"), "JPEG"), "newt.jpg")
    assert (found.format, found.colours, found.inverted) == ("jpeg", 1, False)


def test_rgb_without_adobes_mark_is_redrawn_since_readers_differ(tmp_path: Path) -> None:
    plain = encoded(quarters(), "JPEG", quality=95)
    frame = plain.index(b"\xff\xc0")
    scan = plain.index(b"\xff\xda")
    bare = bytearray(plain)
    for at, name in enumerate(b"RGB"):
        bare[frame + 10 + 3 * at] = name
        bare[scan + 5 + 2 * at] = name
    assert not jpeg.clean(bytes(bare)).prints_as_it_is
    assert picture(tmp_path, bytes(bare), "newt.jpg").format == "jpeg"


@pytest.mark.parametrize("share", [0.02, 0.3, 0.7, 0.99])
def test_a_photograph_that_breaks_off_is_refused(tmp_path: Path, share: float) -> None:
    whole = encoded(photograph(300, 200), "JPEG")
    found = fault(tmp_path, whole[: int(len(whole) * share)], "newt.jpg")
    assert found.code == "art-unreadable"
    assert "cut off" in found.message


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_damage_is_refused_or_read_but_never_anything_else(data: st.DataObject) -> None:
    damaged = bytearray(full_of_secrets(encoded(quarters(32, 32), "JPEG")))
    for _ in range(data.draw(st.integers(1, 6))):
        damaged[data.draw(st.integers(2, len(damaged) - 1))] = data.draw(st.integers(0, 255))
    try:
        clean = jpeg.clean(bytes(damaged))
    except Unfit:
        return
    assert clean.data.startswith(b"\xff\xd8")
    assert clean.data.endswith(b"\xff\xd9")


@given(st.binary(max_size=200))
def test_any_bytes_have_some_orientation(exif: bytes) -> None:
    assert 1 <= jpeg.orientation(b"MM\0*" + exif) <= 8


@given(st.integers(1, 8), st.sampled_from(["<", ">"]), st.integers(0, 5))
def test_orientation_is_found_in_either_byte_order(value: int, order: str, before: int) -> None:
    entries = [struct.pack(order + "HHII", 256 + at, 4, 1, 7) for at in range(before)]
    entries.append(struct.pack(order + "HHIHH", 274, 3, 1, value, 0))
    mark = b"II" if order == "<" else b"MM"
    head = mark + struct.pack(order + "HIH", 42, 8, len(entries))
    assert jpeg.orientation(head + b"".join(entries) + bytes(4)) == value


@pytest.mark.parametrize("value", range(1, 9))
def test_turning_agrees_with_pillow(value: int) -> None:
    stored = Image.open(io.BytesIO(with_orientation(quarters(), value)))
    stored.load()
    turned = ImageOps.exif_transpose(stored)
    assert upright(stored, value).tobytes() == turned.tobytes()
