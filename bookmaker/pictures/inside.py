"""Pictures inside an SVG, as data URIs."""

from __future__ import annotations

import base64
import binascii
import io
import warnings
from urllib.parse import unquote_to_bytes

from PIL import Image as Images
from PIL import ImageOps
from PIL.Image import Image

from bookmaker.pictures.limits import Limits, Unfit
from bookmaker.pictures.raster import eight_bits

_LONGEST = 3000
_START = "data:"


def keep_inside(uri: str, pixels_left: int) -> tuple[str | None, int]:
    """The picture as a data URI without metadata, and its pixels; (None, 0) if it can't be read.

    Raises Unfit where it has more than ``pixels_left``. Pictures longer than 3,000 pixels are
    brought down to that.
    """
    data = decode_uri(uri)
    if not data:
        return None, 0
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            image = Images.open(io.BytesIO(data), formats=["PNG", "JPEG", "GIF", "WEBP"])
        except Images.DecompressionBombError:
            raise _too_many() from None
        except (OSError, ValueError, SyntaxError):
            return None, 0
        pixels = image.width * image.height
        if pixels > pixels_left:
            raise _too_many()
        photograph = image.format == "JPEG"
        try:
            image.load()
        except (OSError, ValueError, SyntaxError):
            return None, 0
        ImageOps.exif_transpose(image, in_place=True)
    deep = image.mode.startswith("I") or image.mode == "F"
    plain = (eight_bits(image) if deep else image).convert("RGB" if photograph else "RGBA")
    plain.thumbnail((_LONGEST, _LONGEST))
    return _as_uri(plain), pixels


def decode_uri(uri: str) -> bytes | None:
    """The bytes in a data URI (RFC 2397), None for anything else."""
    if not uri.startswith(_START):
        return None
    head, comma, body = uri[len(_START) :].partition(",")
    if not comma:
        return None
    raw = unquote_to_bytes(body)
    if not head.rstrip().endswith("base64"):
        return raw
    try:
        return base64.b64decode(b"".join(raw.split()) + b"==")
    except binascii.Error:
        return None


def _as_uri(image: Image) -> str:
    out = io.BytesIO()
    kind = "jpeg" if image.mode == "RGB" else "png"
    image.save(out, kind, quality=90)
    return f"data:image/{kind};base64,{base64.b64encode(out.getvalue()).decode()}"


def _too_many() -> Unfit:
    most = Limits().inside_pixels // 1_000_000
    return Unfit(
        f"holds pictures of more than {most} million pixels inside it",
        "Scale those pictures down, or use them as art without the SVG around them.",
        "art-too-large",
    )
