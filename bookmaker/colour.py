"""Colours as WCAG 2.2 reckons them: relative luminance, the grey that is as light."""

from __future__ import annotations


def luminance(red: float, green: float, blue: float) -> float:
    """Relative luminance, 0 to 1, of an sRGB colour whose channels go from 0 to 1 (WCAG 2.2)."""
    channels = (red, green, blue)
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def grey_level(red: float, green: float, blue: float) -> float:
    """The level of the grey, 0 (black) to 1, that is as light as the colour."""
    light = luminance(red, green, blue)
    return 12.92 * light if light <= 0.0031308 else 1.055 * float(light ** (1 / 2.4)) - 0.055


def channels(colour: str) -> tuple[float, float, float]:
    """The channels of ``#rrggbb``, each 0 to 1."""
    red, green, blue = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return red, green, blue


def grey(colour: str) -> str:
    """``#rrggbb`` without its colour."""
    level = f"{round(grey_level(*channels(colour)) * 255):02x}"
    return f"#{level * 3}"


def under_paper(colour: str, share: float) -> str:
    """``#rrggbb`` with that share of white laid over it, 0 none and 1 all."""
    return "#" + "".join(f"{round((c + (1 - c) * share) * 255):02x}" for c in channels(colour))
