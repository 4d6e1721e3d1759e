"""The part of its plane that an SVG shows."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from xml.etree.ElementTree import Element

_PIXELS = {
    "": 1.0,
    "px": 1.0,
    "pt": 96 / 72,
    "pc": 16.0,
    "in": 96.0,
    "cm": 96 / 2.54,
    "mm": 96 / 25.4,
    "q": 96 / 101.6,
    "em": 16.0,
    "rem": 16.0,
    "ex": 8.0,
    "ch": 8.0,
}
"""CSS pixels to a unit: CSS Values and Units 3, section 5; em as in browsers, 16 pixels."""

_LENGTH = re.compile(r"\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*([a-zA-Z]*)\s*")
_SEPARATOR = re.compile(r"[\s,]+")
_LARGEST = 1e7


@dataclass(frozen=True, slots=True)
class Viewport:
    """A rectangle in user units."""

    x: float
    y: float
    width: float
    height: float

    @property
    def longer(self) -> float:
        return max(self.width, self.height)

    @property
    def size(self) -> str:
        return f"{self.width:.4g} x {self.height:.4g}"


def viewport_of(root: Element) -> Viewport | None:
    """The viewBox, else the width and height; None where neither is said in full."""
    return _view_box(root.get("viewBox", "")) or _sizes(root)


def length(text: str) -> float | None:
    """A length in CSS pixels; None for per cent and for what is no length."""
    found = _LENGTH.fullmatch(text)
    if found is None or found[2].lower() not in _PIXELS:
        return None
    value = float(found[1]) * _PIXELS[found[2].lower()]
    return value if math.isfinite(value) else None


def _view_box(text: str) -> Viewport | None:
    parts = [length(part) for part in _SEPARATOR.split(text.strip())]
    numbers = [part for part in parts if part is not None]
    if len(numbers) != 4 or len(parts) != 4:
        return None
    return _sensible(Viewport(*numbers))


def _sizes(root: Element) -> Viewport | None:
    width, height = (length(root.get(side, "")) for side in ("width", "height"))
    if width is None or height is None:
        return None
    return _sensible(Viewport(0.0, 0.0, width, height))


def _sensible(view: Viewport) -> Viewport | None:
    smallest = 1 / _LARGEST
    within = all(abs(value) <= _LARGEST for value in (view.x, view.y))
    fits = all(smallest <= value <= _LARGEST for value in (view.width, view.height))
    return view if within and fits else None
