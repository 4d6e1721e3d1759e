"""How much ink a picture takes."""

from __future__ import annotations

from PIL import Image

from bookmaker.cache import Cache
from bookmaker.model import Picture
from bookmaker.pictures.look import look, trimmed

VERSION = 2


def ink_cover(picture: Picture, cache: Cache) -> float:
    """The part of the trimmed picture that ink covers, 0 (white) to 1 (black), in grey."""
    key = f"cover {VERSION} {picture.digest}"
    kept = cache.get(key)
    if kept:
        return float(kept)
    cover = round(_measured(trimmed(look(picture, "L"), picture)), 4)
    cache.put(key, repr(cover).encode())
    return cover


def _measured(shown: Image.Image) -> float:
    levels = shown.histogram()
    return 1 - sum(level * count for level, count in enumerate(levels)) / 255 / sum(levels)
