"""Attributes and declarations that say nothing a drawing can be made of: left out, as browsers do.

cairosvg takes an empty paint for none, reads "nan" and "inf" as numbers and hands them on into the
PDF, and gives up on what it can't reckon with.
"""

from __future__ import annotations

import re

NUMERIC = frozenset(
    (
        *(
            "x",
            "y",
            "x1",
            "x2",
            "y1",
            "y2",
            "cx",
            "cy",
            "r",
            "rx",
            "ry",
            "fx",
            "fy",
            "fr",
            "dx",
            "dy",
            "width",
            "height",
            "d",
        ),
        *("points", "offset", "transform", "rotate", "gradientTransform"),
        *("patternTransform", "viewBox", "font-size", "letter-spacing", "stroke-width"),
        *("stroke-dasharray", "stroke-dashoffset", "stroke-miterlimit", "textLength"),
        *("startOffset", "refX", "refY", "markerWidth", "markerHeight"),
    )
)
_PLUS = re.compile(r"(?<![eE])\+")
_NO_NUMBER = re.compile(
    r"(?<![a-z#])[+-]?(?:nan|inf(?:inity)?)(?![a-z])"  # what Python takes for a number
    r"|(?<![\d.])\d{10,}|\de\+?[1-9]\d",  # and what is beyond any sheet
    re.IGNORECASE,
)
_DECLARATION = re.compile(r"(?<![\w-])([\w-]+)\s*:\s*([^;{}]*)(;?)")
_RECKONED = re.compile(r"\b(?:calc|var|env|min|max|clamp)\(", re.IGNORECASE)
_SIGNED = frozenset(("d", "points", "transform", "gradientTransform", "patternTransform"))


def sound_value(key: str, value: str) -> str | None:
    """The value of an attribute in a form that is read as it is meant; None for one of no use."""
    if not value.strip():
        return value if key in ("id", "class") else None
    if key in NUMERIC and _NO_NUMBER.search(value):
        return None
    if _RECKONED.search(value) and key not in ("id", "class"):
        return None
    return _PLUS.sub(" ", value) if key in _SIGNED else value


def sound_declarations(text: str) -> str:
    """Declarations, or a whole sheet, without those that are of no use."""
    return _DECLARATION.sub(_judged, text)


def _judged(found: re.Match[str]) -> str:
    name, value = found[1].lower(), found[2].strip()
    if not value or _RECKONED.search(value) or (name in NUMERIC and _NO_NUMBER.search(value)):
        return ""
    return found[0]
