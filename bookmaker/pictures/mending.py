"""The same drawing, said in a way that cairosvg draws as it is meant.

Each mend here answers a fault of cairosvg 2.9 that was seen on strangers' art: it forgets the
opacity of a ``use``; every second time it paints with a gradient or a pattern that takes its
stops from another one, it paints nothing; it does not know ``paint-order``; and it lets the fill
of a see-through shape show through its own outline.
"""

from __future__ import annotations

import re
from copy import deepcopy
from xml.etree.ElementTree import Element

from bookmaker.pictures.css import percent_to_number

_SERVERS = ("linearGradient", "radialGradient", "pattern")
_SHAPES = ("path", "rect", "circle", "ellipse", "line", "polyline", "polygon")
_OF_USE = ("href", "x", "y", "width", "height")
_WHITE = ("white", "#fff", "#ffffff", "none")
_DECLARED_PAINT = re.compile(r"(?:fill|stroke|stop-color)\s*:\s*([^;]+)")
_LOOKS = ("opacity", "class", "style")


def mend(root: Element) -> None:
    """Mend a screened tree in place."""
    _complete_servers(root)
    _wrap_uses(root)
    _layer_shapes(root)


def has_shaded_mask(root: Element) -> bool:
    """Whether a mask holds anything but white, which cairosvg takes for white."""
    paints = [
        value for mask in root.iter("mask") for element in mask.iter() for value in _paints(element)
    ]
    return any(value not in _WHITE for value in paints)


def _paints(element: Element) -> list[str]:
    attributes = [element.get(key, "") for key in ("fill", "stroke", "stop-color")]
    declared = _DECLARED_PAINT.findall(element.get("style", ""))
    return [value.strip().lower() for value in (*attributes, *declared) if value.strip()]


def _complete_servers(root: Element) -> None:
    """Copy into each gradient and pattern what it inherits by reference (SVG 2, 14.1.1)."""
    servers: dict[str, Element] = {}
    for element in root.iter():
        if element.tag in _SERVERS and element.get("id"):
            servers.setdefault(element.get("id", ""), element)
    for server in [element for element in root.iter() if element.tag in _SERVERS]:
        _complete(server, servers)


def _complete(server: Element, servers: dict[str, Element]) -> None:
    seen = {id(server)}
    while (href := server.attrib.pop("href", None)) is not None:
        model = servers.get(href.removeprefix("#"))
        if model is None or id(model) in seen:
            return
        seen.add(id(model))
        for key, value in model.attrib.items():
            if key != "id":
                server.attrib.setdefault(key, value)
        if len(server) == 0:
            server.extend(_nameless(child) for child in model)


def _nameless(element: Element) -> Element:
    copy = deepcopy(element)
    for part in copy.iter():
        part.attrib.pop("id", None)
    return copy


def _wrap_uses(root: Element) -> None:
    """Give the looks of a ``use`` to a group around it."""
    for parent in list(root.iter()):
        for place, child in enumerate(parent):
            if child.tag == "use" and any(child.get(key) for key in _LOOKS):
                parent[place] = _wrapped(child)


def _wrapped(use: Element) -> Element:
    own = {key: value for key, value in use.attrib.items() if key in _OF_USE}
    looks = {key: value for key, value in use.attrib.items() if key not in _OF_USE}
    group = Element("g", looks)
    group.append(Element("use", own))
    return group


def _layer_shapes(root: Element) -> None:
    """Part fill and outline where their order or their common opacity matters.

    What style sheets say of them is not looked at.
    """
    for parent in list(root.iter()):
        if parent.tag != "clipPath":
            for place, child in enumerate(parent):
                if child.tag in _SHAPES:
                    parent[place] = _layered(child)


def _layered(shape: Element) -> Element:
    opacity = percent_to_number(_said(shape, "opacity")) or "1"
    outline_first = _said(shape, "paint-order").startswith("stroke")
    if _said(shape, "stroke") in ("", "none") or (opacity == "1" and not outline_first):
        return shape
    group = Element("g", {"opacity": opacity})
    if "id" in shape.attrib:
        group.set("id", shape.attrib.pop("id"))
    for layer in ("fill:none", "stroke:none") if outline_first else ("",):
        copy = deepcopy(shape)
        copy.set("style", f"{shape.get('style', '')};opacity:1;{layer}".strip(";"))
        group.append(copy)
    return group


def _said(element: Element, name: str) -> str:
    """What the element itself says of a property; its style goes before its attribute."""
    declared = re.findall(rf"(?<![\w-]){name}\s*:\s*([^;!]+)", element.get("style", ""))
    return (declared[-1] if declared else element.get(name, "")).strip().lower()
