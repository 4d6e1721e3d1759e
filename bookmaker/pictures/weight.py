"""How much an SVG comes to once every reference in it is followed."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from xml.etree.ElementTree import Element

from bookmaker.pictures.limits import Limits, Unfit

_PAINTS = ("fill", "stroke")
_ONCE = ("clip-path", "mask")
_MARKERS = ("marker", "marker-start", "marker-mid", "marker-end")
_URL = re.compile(r"url\(#([^)]*)\)")
_DECLARED = re.compile(r"(?<![\w-])([\w-]+)\s*:\s*[^;]*?url\(#([^)]*)\)")
_COST = {"use": 5, "stop": 0}
"""How dear an element is to cairosvg, against a plain shape."""

_VERTEX = re.compile(r"[MLHVCSQTAZmlhvcsqtaz]|[\d.]+")


def weigh(root: Element, limits: Limits) -> None:
    """Raise Unfit where copies, patterns and markers multiply too far, or go round in a circle.

    References in style sheets are not followed here: the worker's limits of time and memory
    bound those.
    """
    named: dict[str, Element] = {}
    for element in root.iter():
        named.setdefault(element.get("id", ""), element)
    named.pop("", None)
    _Scales(named, limits).weight(root, 0)


@dataclass(slots=True)
class _Scales:
    """Weights found so far: elements drawn, and how deep they are nested, by element."""

    named: dict[str, Element]
    limits: Limits
    found: dict[int, tuple[int, int]] = field(default_factory=dict)
    open: set[int] = field(default_factory=set)

    def weight(self, element: Element, depth: int) -> tuple[int, int]:
        """Elements that are drawn for this one, and levels below it."""
        key = id(element)
        if key in self.open:
            raise Unfit(
                "refers to itself in a circle",
                "Take the use, pattern or mask that leads back to itself out of the drawing.",
            )
        if key not in self.found:
            self.open.add(key)
            self.found[key] = self._fresh(element, depth)
            self.open.discard(key)
        drawn, levels = self.found[key]
        if drawn > self.limits.drawn:
            raise Unfit(
                f"comes to more than {self.limits.drawn:,} elements once its copies are drawn",
                "Simplify the drawing (fewer copies and patterns), or save it as PNG.",
                "art-too-large",
            )
        if depth + levels > self.limits.depth:
            raise Unfit(
                f"is nested more than {self.limits.depth} deep once its copies are drawn",
                "Ungroup the drawing, or save it as PNG.",
                "art-too-large",
            )
        return drawn, levels

    def _fresh(self, element: Element, depth: int) -> tuple[int, int]:
        if depth > self.limits.depth:
            return 1, depth
        own, levels = _COST.get(element.tag, 1), 0
        for child in (*element, *self._targets(element, "href")):
            drawn, below = self.weight(child, depth + 1)
            own, levels = own + drawn, max(levels, below + 1)
        total = own
        for times, target in self._painted(element, own):
            drawn, below = self.weight(target, depth + 1)
            total, levels = total + times * drawn, max(levels, below + 1)
        return total, levels

    def _targets(self, element: Element, key: str) -> list[Element]:
        name = element.get(key, "").removeprefix("#")
        return [self.named[name]] if name in self.named else []

    def _painted(self, element: Element, own: int) -> list[tuple[int, Element]]:
        """What is drawn along with the element, and how often: its children inherit paint."""
        wanted = [
            (key, name)
            for key in (*_PAINTS, *_ONCE, *_MARKERS)
            for name in _URL.findall(element.get(key, ""))
        ]
        wanted += _DECLARED.findall(element.get("style", ""))
        painted = []
        for key, name in wanted:
            if name in self.named:
                times = 1 if key in _ONCE else own
                if key.startswith("marker"):
                    times *= self._vertices(element)
                painted.append((times, self.named[name]))
        return painted

    def _vertices(self, element: Element) -> int:
        outline = element.get("d", "") + element.get("points", "")
        return max(2, len(_VERTEX.findall(outline)) // 2)
