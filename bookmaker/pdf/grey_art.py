"""Pictures in greys alone: rasters with one channel, vector art with every colour rewritten."""

from __future__ import annotations

import io
import re
from dataclasses import replace

from PIL import Image, ImageColor

from bookmaker.cache import Cache
from bookmaker.colour import grey_level
from bookmaker.model import Picture
from bookmaker.pdf.grey_form import grey_pdf
from bookmaker.pictures.packing import digest_of, pack, recall

VERSION = 3
_HEX = re.compile(r"#([0-9a-f]{6}|[0-9a-f]{3})\b", re.IGNORECASE)
_RGBA = re.compile(r"rgba?\(([^()]*)\)", re.IGNORECASE)
_NAMES = "|".join(sorted(ImageColor.colormap, key=len, reverse=True))
_NAMED = re.compile(
    rf"((?:fill|stroke|stop-color|flood-color|color)\s*[:=]\s*[\"']?\s*)({_NAMES})\b",
    re.IGNORECASE,
)


def in_grey(picture: Picture, cache: Cache) -> Picture:
    """The picture without colour: another picture, with a digest of its own."""
    key = f"grey {VERSION} {picture.digest} {picture.orientation}"
    kept = recall(cache, key)
    if kept:
        return kept
    made = _vector(picture) if picture.format == "svg" else _raster(picture)
    cache.put(key, pack(made))
    return made


def _raster(picture: Picture) -> Picture:
    from bookmaker.pictures.raster import encode_jpeg, encode_png
    from bookmaker.pictures.resample import resample

    flat = resample(picture, round(picture.width), round(picture.height))
    with Image.open(io.BytesIO(flat.data)) as image:
        levels = image.convert("L")
    encode = encode_jpeg if flat.format == "jpeg" else encode_png
    return replace(_rewritten(flat, encode(levels)), colours=1)


def _vector(picture: Picture) -> Picture:
    return replace(
        _rewritten(picture, grey_svg(picture.data.decode()).encode()),
        pdf=grey_pdf(picture.pdf) if picture.pdf else b"",
        colours=1,
    )


def _rewritten(picture: Picture, data: bytes) -> Picture:
    return replace(picture, stored=data, digest=digest_of(data))


def grey_svg(source: str) -> str:
    """An SVG's source with every colour in it turned into the grey that is as light."""
    source = _HEX.sub(lambda found: _css(*_digits(found[1])), source)
    source = _RGBA.sub(_function, source)
    return _NAMED.sub(lambda found: found[1] + _css(*_named(found[2])), source)


def _digits(digits: str) -> tuple[float, float, float]:
    step = len(digits) // 3
    whole = 16**step - 1
    red, green, blue = (int(digits[i * step : (i + 1) * step], 16) / whole for i in range(3))
    return red, green, blue


def _named(name: str) -> tuple[float, float, float]:
    red, green, blue = ImageColor.getrgb(name.lower())[:3]
    return red / 255, green / 255, blue / 255


def _css(red: float, green: float, blue: float) -> str:
    return "#" + f"{round(grey_level(red, green, blue) * 255):02x}" * 3


def _function(found: re.Match[str]) -> str:
    parts = [part.strip() for part in found[1].split(",")]
    try:
        red, green, blue = (float(part) / 255 for part in parts[:3])
    except ValueError:
        return found[0]
    level = round(grey_level(red, green, blue) * 255)
    return f"rgba({level},{level},{level},{parts[3]})" if len(parts) > 3 else _css(red, green, blue)
