"""A small look at a picture: enough to tell how dark it is, or where its creature lies."""

from __future__ import annotations

import io
import threading
from contextlib import closing
from typing import Literal

from PIL import Image

from bookmaker.model import Picture

PIXELS = 96
"""Longer side of a small look."""
_DRAWING = threading.Lock()
"""PDFium draws for one thread at a time."""
Mode = Literal["L", "RGB"]


def look(picture: Picture, mode: Mode, pixels: int = PIXELS) -> Image.Image:
    """The whole picture upright, in grey or colour, at most ``pixels`` along its longer side."""
    if picture.format == "svg":
        return draw_small(picture.pdf, mode, pixels)
    if picture.glance:
        with Image.open(io.BytesIO(picture.glance)) as image:
            if max(image.size) >= pixels:
                small_enough = image.convert(mode)
                small_enough.thumbnail((pixels, pixels), Image.Resampling.LANCZOS)
                return small_enough
    from bookmaker.pictures.raster import upright
    from bookmaker.pictures.scaling import small

    reduced = small(picture, pixels)
    with Image.open(io.BytesIO(reduced.data)) as image:
        return upright(image.convert(mode), reduced.orientation)


def trimmed(image: Image.Image, picture: Picture) -> Image.Image:
    """What is shown of ``image``, a look at ``picture``: its blank border is cut off."""
    trim = picture.trim
    wide, high = image.size
    corners = (trim.x * wide, trim.y * high, trim.right * wide, trim.bottom * high)
    left, top, right, bottom = (round(value) for value in corners)
    return image.crop((left, top, max(right, left + 1), max(bottom, top + 1)))


def draw_small(pdf: bytes, mode: Mode, pixels: int) -> Image.Image:
    """The only page of ``pdf``, at most ``pixels`` along its longer side."""
    import pypdfium2  # slow to import, and only asked where the cache knows nothing

    with _DRAWING, closing(pypdfium2.PdfDocument(pdf)) as document, closing(document[0]) as page:
        scale = pixels / max(page.get_width(), page.get_height())
        image: Image.Image = page.render(scale=scale, grayscale=mode == "L").to_pil().convert(mode)
        return image
