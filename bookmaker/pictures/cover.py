"""How much ink a picture takes."""

from __future__ import annotations

import io

from PIL import Image

from bookmaker.cache import Cache
from bookmaker.model import Picture

VERSION = 1
PIXELS = 96
"""Longer side of the small raster that is measured."""


def ink_cover(picture: Picture, cache: Cache) -> float:
    """The part of the trimmed picture that ink covers, 0 (white) to 1 (black), in grey."""
    key = f"cover {VERSION} {picture.digest}"
    kept = cache.get(key)
    if kept:
        return float(kept)
    cover = round(_measured(_small(picture), picture), 4)
    cache.put(key, repr(cover).encode())
    return cover


def _measured(image: Image.Image, picture: Picture) -> float:
    trim = picture.trim
    wide, high = image.size
    corners = (trim.x * wide, trim.y * high, trim.right * wide, trim.bottom * high)
    left, top, right, bottom = (round(value) for value in corners)
    shown = image.crop((left, top, max(right, left + 1), max(bottom, top + 1)))
    levels = shown.histogram()
    return 1 - sum(level * count for level, count in enumerate(levels)) / 255 / sum(levels)


def _small(picture: Picture) -> Image.Image:
    if picture.format == "svg":
        return _drawn(picture)
    from bookmaker.pictures.scaling import small

    reduced = small(picture, PIXELS)
    with Image.open(io.BytesIO(reduced.data)) as image:
        from bookmaker.pictures.raster import upright

        return upright(image.convert("L"), reduced.orientation)


def _drawn(picture: Picture) -> Image.Image:
    import pypdfium2  # slow to import, and only asked where the cache knows nothing

    document = pypdfium2.PdfDocument(picture.pdf)
    try:
        page = document[0]
        scale = PIXELS / max(page.get_width(), page.get_height())
        image: Image.Image = page.render(scale=scale, grayscale=True).to_pil().convert("L")
        return image
    finally:
        document.close()
