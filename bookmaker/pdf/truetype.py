"""Some letters of a TrueType font as a font of their own, as small as a PDF needs it."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

_KEPT: Final = ("head", "hhea", "maxp")
"""Tables that are taken over; of glyphs and their metrics only those that are wanted (ISO 32000-1,
9.9, names what a reader needs). Hints are for screens of long ago."""


@dataclass(frozen=True, slots=True)
class Measures:
    """A face's name, and its measures in thousandths of its size (ISO 32000-1, table 122)."""

    name: str
    box: tuple[int, ...]
    ascent: int
    descent: int
    capital: int
    slant: float


@dataclass(frozen=True, slots=True)
class SubsetFont:
    """A font whose glyphs, from 1 on, are those of ``letters``, ``widths`` thousandths wide."""

    letters: str
    widths: tuple[float, ...]
    measures: Measures
    file: bytes


def subset_font(source: bytes, wanted: str) -> SubsetFont:
    """The font in ``source`` with a glyph for each of the letters ``wanted`` that it has.

    Letters that look alike get a glyph each, so that a glyph's number tells its letter.
    """
    from fontTools.ttLib import TTFont  # slow to import

    font = TTFont(io.BytesIO(source), lazy=True)
    forms = font.getBestCmap()
    letters = "".join(letter for letter in wanted if ord(letter) in forms)
    scale = 1000 / font["head"].unitsPerEm
    widths = tuple(font["hmtx"][forms[ord(letter)]][0] * scale for letter in letters)
    glyphs = {f"letter {ord(letter)}": forms[ord(letter)] for letter in letters}
    file = _file(font, {".notdef": ".notdef", **glyphs})
    return SubsetFont(letters, widths, _measures(font, scale), file)


def _file(font: Any, glyphs: Mapping[str, str]) -> bytes:
    """A font of ``glyphs``: their names there by their names in ``font``, and what they are made
    of."""
    from fontTools.ttLib import TTFont, newTable

    outlines, metrics = font["glyf"], font["hmtx"]
    named = {**glyphs, **_parts(outlines, list(glyphs.values()))}
    made = TTFont(recalcBBoxes=False, recalcTimestamp=False)
    made.setGlyphOrder(list(named))
    for table in _KEPT:
        made[table] = font[table]
    made["loca"], made["glyf"], made["hmtx"] = newTable("loca"), newTable("glyf"), newTable("hmtx")
    made["glyf"].glyphs = {name: _unhinted(outlines, own) for name, own in named.items()}
    made["glyf"].glyphOrder = list(named)
    made["hmtx"].metrics = {name: metrics[own] for name, own in named.items()}
    file = io.BytesIO()
    made.save(file)
    return file.getvalue()


def _parts(outlines: Any, glyphs: Sequence[str]) -> dict[str, str]:
    """The glyphs that ``glyphs`` are put together from, and those of these, by their own names."""
    found: dict[str, str] = {}
    waiting = list(glyphs)
    while waiting:
        for part in outlines[waiting.pop()].getComponentNames(outlines):
            if part not in found:
                found[part] = part
                waiting.append(part)
    return found


def _unhinted(outlines: Any, name: str) -> Any:
    glyph = outlines[name]
    glyph.removeHinting()
    return glyph


def _measures(font: Any, scale: float) -> Measures:
    head, os2 = font["head"], font["OS/2"]
    ends = (head.xMin, head.yMin, head.xMax, head.yMax)
    return Measures(
        name=font["name"].getDebugName(6),
        box=tuple(round(end * scale) for end in ends),
        ascent=round(font["hhea"].ascent * scale),
        descent=round(font["hhea"].descent * scale),
        capital=round(os2.sCapHeight * scale),
        slant=font["post"].italicAngle,
    )
