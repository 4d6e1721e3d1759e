"""The book's own typefaces for the screen: its letters of Latin scripts alone, packed as WOFF."""

from __future__ import annotations

import io
from typing import Final

from bookmaker.cache import Cache
from bookmaker.typeset import FACES

VERSION = 1
SHOWN: Final = (*range(0x20, 0x180), *range(0x2010, 0x2027), 0x20AC, 0x2190, 0x2192, 0x2212, 0x2713)
"""The letters that a screen is likely to show; others come from the system's own faces."""
NAMES: Final = {"text": "text", "strong": "strong", "italic": "italic", "title": "title"}


def face(name: str, cache: Cache) -> bytes:
    """The face ``name`` as WOFF; raises KeyError."""
    file = FACES[NAMES[name]]  # type: ignore[index]
    key = f"place face {VERSION} {file.file}"
    kept = cache.get(key)
    if kept:
        return kept
    data = _packed(str(file.path))
    cache.put(key, data)
    return data


def _packed(path: str) -> bytes:
    from fontTools.subset import Options, Subsetter
    from fontTools.ttLib import TTFont

    with TTFont(path, recalcTimestamp=False) as font:
        options = Options()
        options.layout_features = ["kern", "liga", "mark", "mkmk", "ccmp", "tnum", "lnum"]
        options.notdef_outline = True
        subsetter = Subsetter(options)
        subsetter.populate(unicodes=SHOWN)
        subsetter.subset(font)
        font.flavor = "woff"
        out = io.BytesIO()
        font.save(out)
    return out.getvalue()
