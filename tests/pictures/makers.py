"""Pictures made for the tests: nothing is read from disk that was not written here."""

from __future__ import annotations

import io
import struct
import zlib
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image

from bookmaker.cache import Cache, MemoryCache
from bookmaker.model import Picture
from bookmaker.pictures import Limits, PictureFault, take_in

SVG = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
BOX = SVG + ' viewBox="0 0 100 60">'
CORNERS = ((220, 30, 30), (30, 160, 30), (30, 30, 200), (230, 200, 20))
"""Colours of the quarters of ``quarters()``: top left, top right, bottom left, bottom right."""


def quarters(width: int = 96, height: int = 64) -> Image.Image:
    """A picture that tells which way up it is: each quarter has a colour of its own."""
    image = Image.new("RGB", (width, height))
    for index, colour in enumerate(CORNERS):
        x, y = (index % 2) * width // 2, (index // 2) * height // 2
        image.paste(colour, (x, y, x + width - width // 2, y + height - height // 2))
    return image


def photograph(width: int, height: int, seed: int = 7) -> Image.Image:
    """Soft blotches and a camera's noise."""
    random = np.random.default_rng(seed)
    coarse = (random.random((height // 40 + 2, width // 40 + 2, 3)) * 255).astype(np.uint8)
    soft = np.asarray(Image.fromarray(coarse).resize((width, height), Image.Resampling.BICUBIC))
    noisy = soft + random.normal(0, 4, soft.shape)
    return Image.fromarray(np.clip(noisy, 0, 255).astype(np.uint8))


def encoded(image: Image.Image, form: str, **options: Any) -> bytes:
    out = io.BytesIO()
    image.save(out, form, **options)
    return out.getvalue()


def decoded(picture: Picture) -> Image.Image:
    image = Image.open(io.BytesIO(picture.data))
    image.load()
    return image


def bare_png(width: int, height: int, bits: int, colour_type: int, samples: bytes) -> bytes:
    """A PNG put together by hand (ISO/IEC 15948), for what Pillow would not write."""
    header = struct.pack(">IIBBBBB", width, height, bits, colour_type, 0, 0, 0)
    chunks = ((b"IHDR", header), (b"IDAT", samples), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(png_chunk(name, body) for name, body in chunks)


def png_chunk(name: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))


def jpeg_segment(code: int, body: bytes) -> bytes:
    return bytes((0xFF, code)) + struct.pack(">H", len(body) + 2) + body


def taken(
    folder: Path,
    data: bytes,
    name: str = "newt.png",
    *,
    cache: Cache | None = None,
    limits: Limits | None = None,
) -> Picture | PictureFault:
    """Write ``data`` to a file and take it in."""
    path = folder / name
    path.write_bytes(data)
    return take_in([path], cache=cache or MemoryCache(), limits=limits)[path]


def picture(folder: Path, data: bytes, name: str = "newt.png") -> Picture:
    found = taken(folder, data, name)
    assert isinstance(found, Picture), found
    return found


def fault(folder: Path, data: bytes, name: str = "newt.png") -> PictureFault:
    found = taken(folder, data, name)
    assert isinstance(found, PictureFault), found
    return found


def near(image: Image.Image, x: float, y: float, colour: tuple[int, ...], within: int) -> bool:
    """Whether the pixel at the fraction (x, y) of the picture is of this colour, about."""
    at = image.convert("RGB").getpixel((int(x * image.width), int(y * image.height)))
    assert isinstance(at, tuple)
    return all(abs(one - other) <= within for one, other in zip(at, colour, strict=True))


def shows_quarters(image: Image.Image, within: int = 24) -> bool:
    """Whether the picture is ``quarters()``, upright."""
    places = ((0.25, 0.25), (0.75, 0.25), (0.25, 0.75), (0.75, 0.75))
    return all(
        near(image, x, y, colour, within) for (x, y), colour in zip(places, CORNERS, strict=True)
    )
