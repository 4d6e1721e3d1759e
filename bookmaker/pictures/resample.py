"""Fewer pixels of the same picture."""

from __future__ import annotations

import io
import warnings
from dataclasses import replace

from PIL import Image

from bookmaker.model import Picture
from bookmaker.pictures.packing import make
from bookmaker.pictures.raster import encode_jpeg, encode_png, is_photograph, to_srgb, upright


def resample(picture: Picture, width: int, height: int) -> Picture:
    """A raster picture at ``width`` x ``height`` upright pixels: sRGB or grey, no profile.

    A JPEG stays a JPEG. A PNG stays one where it deflates well, as drawings do; otherwise it
    is a photograph and becomes a JPEG of quality 90.
    """
    turned = picture.orientation >= 5
    across, down = (height, width) if turned else (width, height)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", Image.DecompressionBombWarning)
        image: Image.Image = Image.open(io.BytesIO(picture.data), formats=[picture.format.upper()])
        image.draft(None, (across, down))
        if image.mode == "1":
            image = image.convert("L")  # two levels can't be averaged
        reduced = image.resize((across, down), Image.Resampling.LANCZOS, reducing_gap=3.0)
    flat = upright(_in_srgb(reduced, picture.icc), picture.orientation)
    as_jpeg = picture.format == "jpeg" or is_photograph(flat)
    data = encode_jpeg(flat) if as_jpeg else encode_png(flat)
    bare = make("jpeg" if as_jpeg else "png", width, height, data)
    return replace(bare, trim=picture.trim, notes=picture.notes, colours=len(flat.getbands()))


def _in_srgb(image: Image.Image, profile: bytes) -> Image.Image:
    convert = to_srgb(profile, image.mode)
    if convert:
        return convert(image)
    return image if image.mode in ("L", "RGB") else image.convert("RGB")
