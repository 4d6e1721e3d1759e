"""Every kind of raster becomes an upright, opaque picture without metadata."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pillow_heif
import pytest
from PIL import ExifTags, Image, ImageCms, PngImagePlugin

from bookmaker.pictures import Limits, PictureFault
from bookmaker.pictures.raster import LONGEST_REDRAWN, to_srgb
from tests.pictures.makers import (
    bare_png,
    decoded,
    encoded,
    fault,
    near,
    photograph,
    picture,
    quarters,
    shows_quarters,
    taken,
)

SECRET = b"a pupil's name"


def secret_exif(orientation: int = 1) -> Image.Exif:
    exif = Image.Exif()
    exif[ExifTags.Base.Orientation] = orientation
    exif[ExifTags.Base.Artist] = SECRET.decode()
    exif.get_ifd(ExifTags.IFD.GPSInfo)[1] = "N"
    return exif


def heic(image: Image.Image, **options: object) -> bytes:
    out = io.BytesIO()
    pillow_heif.from_pillow(image).save(out, quality=90, **options)
    return out.getvalue()


def see_through(image: Image.Image) -> Image.Image:
    """The picture with its left half fully transparent."""
    alpha = Image.new("L", image.size, 255)
    alpha.paste(0, (0, 0, image.width // 2, image.height))
    layered = image.convert("RGBA")
    layered.putalpha(alpha)
    return layered


KINDS = {
    "RGB PNG": lambda: (encoded(quarters(), "PNG"), "png", 0),
    "palette PNG": lambda: (encoded(quarters().quantize(8), "PNG"), "png", 4),
    "RGBA PNG": lambda: (encoded(quarters().convert("RGBA"), "PNG"), "png", 0),
    "lossless WebP": lambda: (encoded(quarters(), "WEBP", lossless=True), "png", 0),
    "lossy WebP": lambda: (encoded(quarters(), "WEBP", quality=90), "jpeg", 24),
    "TIFF": lambda: (encoded(quarters(), "TIFF"), "png", 0),
    "TIFF in LZW": lambda: (encoded(quarters(), "TIFF", compression="tiff_lzw"), "png", 0),
    "TIFF in JPEG": lambda: (encoded(quarters(), "TIFF", compression="jpeg"), "jpeg", 24),
    "CMYK TIFF": lambda: (encoded(quarters().convert("CMYK"), "TIFF"), "png", 24),
    "GIF": lambda: (encoded(quarters(), "GIF"), "png", 4),
    "BMP": lambda: (encoded(quarters(), "BMP"), "png", 0),
    "HEIC": lambda: (heic(quarters()), "jpeg", 24),
    "JPEG": lambda: (encoded(quarters(), "JPEG", quality=90), "jpeg", 24),
    "progressive JPEG": lambda: (
        encoded(quarters(), "JPEG", quality=90, progressive=True),
        "jpeg",
        24,
    ),
}


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_each_kind_shows_the_same_picture(tmp_path: Path, kind: str) -> None:
    data, form, within = KINDS[kind]()
    found = picture(tmp_path, data)
    assert found.format == form
    assert (found.width, found.height, found.orientation) == (96, 64, 1)
    assert shows_quarters(decoded(found), within)


def test_avif_is_read_where_pillow_can(tmp_path: Path) -> None:
    from PIL import features

    if not features.check("avif"):
        pytest.skip("this Pillow was built without AVIF")
    found = picture(tmp_path, encoded(quarters(), "AVIF", quality=90))
    assert shows_quarters(decoded(found), 24)


@pytest.mark.parametrize("form", ["PNG", "WEBP", "TIFF"])
def test_see_through_parts_are_laid_on_white(tmp_path: Path, form: str) -> None:
    found = decoded(picture(tmp_path, encoded(see_through(quarters()), form, lossless=True)))
    assert found.mode == "RGB"
    assert near(found, 0.25, 0.5, (255, 255, 255), 0)
    assert near(found, 0.75, 0.25, (30, 160, 30), 0)


def test_a_transparent_palette_entry_is_laid_on_white(tmp_path: Path) -> None:
    palette = quarters().quantize(8)
    hidden = palette.getpixel((5, 5))
    found = decoded(picture(tmp_path, encoded(palette, "GIF", transparency=hidden)))
    assert near(found, 0.25, 0.25, (255, 255, 255), 0)
    assert near(found, 0.75, 0.75, (230, 200, 20), 4)


def test_grey_with_alpha_stays_grey(tmp_path: Path) -> None:
    found = picture(tmp_path, encoded(see_through(quarters()).convert("LA"), "PNG"))
    assert (decoded(found).mode, found.colours) == ("L", 1)


def test_sixteen_bits_of_grey_become_eight(tmp_path: Path) -> None:
    levels = np.linspace(0, 65535, 96 * 64).reshape(64, 96).astype(np.uint16)
    found = decoded(picture(tmp_path, encoded(Image.fromarray(levels), "PNG")))
    expected = (levels >> 8).astype(np.uint8)
    assert found.mode == "L"
    assert np.abs(np.asarray(found).astype(int) - expected).max() <= 1


def test_floats_from_nought_to_one_become_grey(tmp_path: Path) -> None:
    levels = np.linspace(0, 1, 96 * 64, dtype=np.float32).reshape(64, 96)
    found = decoded(picture(tmp_path, encoded(Image.fromarray(levels), "TIFF")))
    assert np.abs(np.asarray(found) / 255 - levels).max() < 0.005


def test_a_sixteen_bit_colour_png_becomes_eight(tmp_path: Path) -> None:
    import zlib

    row = b"\0" + b"\xff\xff\x80\x00\x00\x00" * 20
    found = decoded(picture(tmp_path, bare_png(20, 20, 16, 2, zlib.compress(row * 20))))
    assert near(found, 0.5, 0.5, (255, 128, 0), 1)


def test_of_a_moving_gif_the_first_frame_is_taken(tmp_path: Path) -> None:
    later = Image.new("RGB", (96, 64), "black")
    data = encoded(quarters(), "GIF", save_all=True, append_images=[later])
    assert shows_quarters(decoded(picture(tmp_path, data)), 4)


@pytest.mark.parametrize("form", ["PNG", "WEBP", "TIFF"])
def test_exif_turns_other_kinds_too(tmp_path: Path, form: str) -> None:
    stored = quarters().transpose(Image.Transpose.ROTATE_90)
    data = encoded(stored, form, exif=secret_exif(6), lossless=True)
    found = picture(tmp_path, data)
    assert (found.width, found.height) == (96, 64)
    assert shows_quarters(decoded(found), 0)


def test_a_turned_telephone_photograph_is_upright(tmp_path: Path) -> None:
    stored = quarters().transpose(Image.Transpose.ROTATE_90)
    stored.info["exif"] = secret_exif(6).tobytes()
    found = picture(tmp_path, heic(stored, exif=secret_exif(6).tobytes()))
    assert found.orientation == 1
    assert decoded(found).size == (found.width, found.height)


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "TIFF"])
def test_no_metadata_survives_in_any_kind(tmp_path: Path, form: str) -> None:
    text = PngImagePlugin.PngInfo()
    text.add_text("Author", SECRET.decode())
    options = {
        "JPEG": {"comment": SECRET, "xmp": b"<x:xmpmeta>" + SECRET},
        "PNG": {"pnginfo": text},
        "WEBP": {"xmp": b"<x:xmpmeta>" + SECRET},
        "TIFF": {"description": SECRET.decode()},
    }[form]
    data = encoded(quarters(), form, exif=secret_exif(), **options)
    assert SECRET in data
    found = picture(tmp_path, data)
    assert SECRET not in found.data
    kept = decoded(found)
    assert not dict(kept.getexif())
    assert not set(kept.info) & {"exif", "xmp", "comment", "Author", "icc_profile"}


def test_a_heic_photograph_keeps_none_of_its_metadata(tmp_path: Path) -> None:
    data = heic(quarters(), exif=secret_exif().tobytes())
    assert SECRET in data
    assert SECRET not in picture(tmp_path, data).data


def test_odd_colour_profiles_of_redrawn_pictures_become_srgb(tmp_path: Path) -> None:
    """A picture in L*a*b* comes out as littleCMS turns it: (L 53, a 80, b 67) is sRGB red.

    Value from CSS Color 4, section 9.3 (lab(54.29% 80.8 69.9) is rgb(255 0 0), D50).
    """
    red = np.full((40, 40, 3), (138, 81, 70), dtype=np.uint8)
    lab = Image.frombytes("LAB", (40, 40), red.tobytes())
    found = decoded(picture(tmp_path, encoded(lab, "TIFF")))
    assert near(found, 0.5, 0.5, (255, 0, 0), 10)


def test_an_srgb_profile_changes_nothing_and_a_broken_one_is_none() -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    assert to_srgb(profile, "RGB") is None
    assert to_srgb(b"no profile at all", "RGB") is None
    assert to_srgb(profile, "P") is None


def test_another_profile_is_turned_into_srgb(tmp_path: Path) -> None:
    swapped = swapped_primaries()
    convert = to_srgb(swapped, "RGB")
    assert convert is not None
    green = convert(Image.new("RGB", (1, 1), (255, 0, 0))).getpixel((0, 0))
    assert isinstance(green, tuple)
    assert green[1] > 200 > 60 > green[0]
    found = picture(tmp_path, encoded(quarters(), "PNG", icc_profile=swapped))
    assert found.icc == b""
    assert not shows_quarters(decoded(found), 24)


def swapped_primaries() -> bytes:
    """An sRGB profile whose tags for the red and the green primary are exchanged (ICC.1, 9.2)."""
    profile = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    red, green = profile.index(b"rXYZ", 128), profile.index(b"gXYZ", 128)
    profile[red : red + 4], profile[green : green + 4] = b"gXYZ", b"rXYZ"
    described = bytes(profile).replace("sRGB".encode("utf-16-be"), "pond".encode("utf-16-be"))
    return described.replace(b"sRGB", b"pond")


@pytest.mark.parametrize("kind", ["WEBP", "TIFF", "GIF", "BMP", "HEIC"])
@pytest.mark.parametrize("share", [0.3, 0.8])
def test_a_picture_that_breaks_off_is_a_fault(tmp_path: Path, kind: str, share: float) -> None:
    whole = photograph(200, 150)
    data = heic(whole) if kind == "HEIC" else encoded(whole, kind)
    found = fault(tmp_path, data[: int(len(data) * share)])
    assert found.code == "art-unreadable"


def test_a_picture_of_one_pixel_is_refused(tmp_path: Path) -> None:
    for form in ("PNG", "JPEG", "GIF", "BMP", "WEBP", "TIFF"):
        found = fault(tmp_path, encoded(Image.new("RGB", (1, 1)), form))
        assert "1 x 1 pixels" in found.message


def test_fifty_thousand_pixels_square_in_a_small_file_are_refused_by_the_header(
    tmp_path: Path,
) -> None:
    found = fault(tmp_path, bare_png(50_000, 50_000, 1, 0, b"never looked at"))
    assert found.code == "art-too-large"
    assert "50,000 x 50,000" in found.message
    assert "5,000 pixels" in found.mend


def test_huge_pictures_of_other_kinds_are_refused_by_the_header(tmp_path: Path) -> None:
    gif = bytearray(encoded(quarters(), "GIF"))
    gif[6:10] = b"\xff\xff\xff\xff"
    bmp = bytearray(encoded(quarters(), "BMP"))
    bmp[18:26] = (60_000).to_bytes(4, "little") * 2
    whole = bytearray(encoded(quarters(), "JPEG"))
    frame = whole.index(b"\xff\xc0")
    whole[frame + 5 : frame + 9] = b"\xff\xff\xff\xff"
    for data in (gif, bmp, whole):
        assert fault(tmp_path, bytes(data)).code == "art-too-large"


def test_a_picture_within_pillows_warning_is_taken_in_silently(tmp_path: Path) -> None:
    """Pillow warns above 89 million pixels and refuses above 179; 12,000 x 12,000 is 144."""
    assert 89_478_485 < 12_000 * 12_000 < Limits().pixels < 178_956_970
    data = encoded(Image.new("1", (12_000, 12_000), 1), "PNG")
    found = picture(tmp_path, data)
    assert max(found.width, found.height) <= LONGEST_REDRAWN


def test_limits_are_those_that_were_handed_in(tmp_path: Path) -> None:
    found = taken(tmp_path, encoded(quarters(), "PNG"), limits=Limits(pixels=5000))
    assert isinstance(found, PictureFault)
    assert found.code == "art-too-large"
