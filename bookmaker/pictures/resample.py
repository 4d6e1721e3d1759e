"""Fewer pixels of the same picture."""

from __future__ import annotations

import io
import warnings
from dataclasses import replace

from PIL import Image

from bookmaker.model import Picture
from bookmaker.pictures.packing import make
from bookmaker.pictures.raster import encode_jpeg, encode_png, to_srgb, upright

_DRAWING_BYTES_PER_PIXEL = 0.7


def resample(picture: Picture, width: int, height: int) -> Picture:
    """A raster picture at ``width`` x ``height`` upright pixels: sRGB or grey, no profile.

    A JPEG stays a JPEG. A PNG stays one where it deflates well, as drawings do; otherwise it
    is a photograph and becomes a JPEG of quality 90.
    """
    turned = picture.orientation >= 5
    across, down = (height, width) if turned else (width, height)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", Image.DecompressionBombWarning)
        image = Image.open(io.BytesIO(picture.data), formats=[picture.format.upper()])
        image.draft(None, (across, down))
        reduced = image.resize((across, down), Image.Resampling.LANCZOS, reducing_gap=3.0)
    flat = upright(_in_srgb(reduced, picture.icc), picture.orientation)
    form, data = _encoded(flat, picture.format)
    bare = make(form, width, height, data)
    return replace(bare, trim=picture.trim, notes=picture.notes, colours=len(flat.getbands()))


def _in_srgb(image: Image.Image, profile: bytes) -> Image.Image:
    convert = to_srgb(profile, image.mode)
    if convert:
        return convert(image)
    return image if image.mode in ("L", "RGB") else image.convert("RGB")


def _encoded(image: Image.Image, form: str) -> tuple[str, bytes]:
    if form == "png":
        deflated = encode_png(image)
        if len(deflated) <= _DRAWING_BYTES_PER_PIXEL * image.width * image.height:
            return "png", deflated
    return "jpeg", encode_jpeg(image)
