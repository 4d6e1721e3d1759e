"""CSS colours as cairosvg knows them: hexadecimal, or ``rgba(r,g,b,a)`` where see-through."""

from __future__ import annotations

import colorsys
import re

_FUNCTION = re.compile(r"\b(rgb|hsl)a?\(([^()]*)\)", re.IGNORECASE)
_SEPARATOR = re.compile(r"[\s,/]+")
_DIGITS = r"#(?P<digits>[0-9a-f]{4}|[0-9a-f]{8})(?![0-9a-f])"
_DECLARED_HEX = re.compile(
    r"(?P<before>(?<![\w-])(?:fill|stroke|color|stop-color)\s*:\s*)" + _DIGITS, re.IGNORECASE
)
_WHOLE_HEX = re.compile(r"\A(?P<before>\s*)" + _DIGITS + r"(?=\s*\Z)", re.IGNORECASE)
_TURNS = {"deg": 360.0, "grad": 400.0, "rad": 6.283185307179586, "turn": 1.0}


def plain_colours(text: str) -> str:
    """``text``, an attribute or declarations, with every colour in a form that cairosvg reads.

    The forms are those of CSS Color 4: commas or spaces, per cent, hue angles, alpha in each.
    What is no colour stays as it is.
    """
    if "(" in text:
        text = _FUNCTION.sub(_function, text)
    if "#" in text:
        text = _WHOLE_HEX.sub(_hex, _DECLARED_HEX.sub(_hex, text))
    return text


def _function(found: re.Match[str]) -> str:
    parts = [part for part in _SEPARATOR.split(found[2].strip()) if part]
    if len(parts) not in (3, 4):
        return found[0]
    try:
        alpha = _share(parts[3], 1.0) if len(parts) == 4 else 1.0
        if found[1].lower() == "rgb":
            red, green, blue = (_share(part, 255.0) for part in parts[:3])
        else:
            hue, saturation, light = _angle(parts[0]), *(_share(part, 100.0) for part in parts[1:3])
            red, green, blue = colorsys.hls_to_rgb(hue, light, saturation)
    except ValueError:
        return found[0]
    return _written(red, green, blue, alpha)


def _hex(found: re.Match[str]) -> str:
    digits = found["digits"]
    width = len(digits) // 4
    levels = [int(digits[at : at + width], 16) for at in range(0, len(digits), width)]
    return found["before"] + _written(*(level / (16**width - 1) for level in levels))


def _share(text: str, whole: float) -> float:
    """A number or a per cent as a part of one; raises ValueError for neither."""
    share = float(text[:-1]) / 100 if text.endswith("%") else float(text) / whole
    return min(max(share, 0.0), 1.0)


def _angle(text: str) -> float:
    for unit, turn in _TURNS.items():
        if text.lower().endswith(unit) and not (unit == "rad" and text.lower().endswith("grad")):
            return float(text[: -len(unit)]) / turn % 1.0
    return float(text) / 360 % 1.0


def _written(red: float, green: float, blue: float, alpha: float) -> str:
    levels = [round(level * 255) for level in (red, green, blue)]
    if alpha >= 1.0:
        return "#" + "".join(f"{level:02x}" for level in levels)
    return f"rgba({levels[0]},{levels[1]},{levels[2]},{alpha:.4g})"
