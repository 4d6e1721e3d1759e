"""The papers: one palette for the whole set, and how light each paper is.

Earth, plant and water colours only; no plain red and no plain blue. Names are the words that
artists use at the table, in order from light to dark within each family.
"""

from __future__ import annotations

PAPER = "#fbf6ea"
SAND = "#ecdcbb"
STRAW = "#dfc07a"
OCHRE = "#dc9f2e"
RUST = "#bf5b2b"
BARK = "#5b3a2a"
INK = "#22282b"
SAGE = "#ccd6b0"
MOSS = "#84944a"
FERN = "#3d5f40"
MIST = "#dde9e3"
POOL = "#92bdb8"
TEAL = "#21808a"
DEEP = "#1c4457"
STONE = "#b3ac9b"
SLATE = "#626a6c"
SHELL = "#d99e8c"

PALETTE = {
    "paper": PAPER,
    "sand": SAND,
    "straw": STRAW,
    "ochre": OCHRE,
    "rust": RUST,
    "bark": BARK,
    "ink": INK,
    "sage": SAGE,
    "moss": MOSS,
    "fern": FERN,
    "mist": MIST,
    "pool": POOL,
    "teal": TEAL,
    "deep": DEEP,
    "stone": STONE,
    "slate": SLATE,
    "shell": SHELL,
}


WEIGHTS = (0.2126, 0.7152, 0.0722)
"""What red, green and blue add to luminance (WCAG 2.2)."""


def luminance(colour: str) -> float:
    """Relative luminance of ``#rrggbb``, 0 to 1 (WCAG 2.2, definition of relative luminance)."""
    channels = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return sum(weight * linear(c) for weight, c in zip(WEIGHTS, channels, strict=True))


def linear(channel: float) -> float:
    """A channel of sRGB, 0 to 1, without its gamma (WCAG 2.2)."""
    return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two papers, 1 to 21 (WCAG 2.2)."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)
