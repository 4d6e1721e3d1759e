"""The same drawing, said in a way that cairosvg draws as it is meant.

Each mend here answers a fault of cairosvg 2.9 that was seen on strangers' art: it forgets the
opacity of a ``use``; every second time it paints with a gradient or a pattern that takes its
stops from another one, it paints nothing; it does not know ``paint-order``; and it lets the fill
of a see-through shape show through its own outline.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from copy import deepcopy
from xml.etree.ElementTree import Element

from bookmaker.pictures.css import percent_to_number

_SERVERS = ("linearGradient", "radialGradient", "pattern")
_SHAPES = ("path", "rect", "circle", "ellipse", "line", "polyline", "polygon")
_OF_USE = ("href", "x", "y", "width", "height")
_WHITE = ("white", "#fff", "#ffffff")
_OPACITIES = ("opacity", "fill-opacity", "stroke-opacity")
_INHERITED = ("stroke", "paint-order")
_URL = re.compile(r"url\(\s*[\"']?#([^)\"']*)[\"']?\s*\)")
EVEN_ODD_MARK = "cut-even-odd"
"""An attribute of our own on clip paths, for the surface that draws them."""
_LOOKS = ("opacity", "class", "style")


def mend(root: Element) -> None:
    """Mend a screened tree, whose style sheets are in its elements, in place."""
    _complete_servers(root)
    _wrap_uses(root)
    _layer_shapes(root, {})
    _mark_clips(root)


def has_doubtful_mask(root: Element) -> bool:
    """Whether something is masked by more than white shapes in the drawing's own units, or is an
    image: all else cairosvg draws in another way, or leaves out."""
    masks = {mask.get("id", ""): mask for mask in root.iter("mask")}
    for element in root.iter():
        found = _URL.search(_said(element, "mask"))
        if found and (
            found[1] not in masks
            or not _is_plain_mask(masks[found[1]])
            or any(each.tag in ("image", "use") for each in element.iter())
        ):
            return True
    return False


def _is_plain_mask(mask: Element) -> bool:
    units = mask.get("maskContentUnits", ""), mask.get("maskUnits", "")
    shapes = [element for element in mask.iter() if element is not mask]
    return (
        units[0] in ("", "userSpaceOnUse")
        and all(element.tag in _SHAPES for element in shapes)
        and all(_said(element, "fill") in _WHITE for element in shapes)
        and all(_said(element, "stroke") in ("", *_WHITE, "none") for element in shapes)
        and not any(_said(element, key) for element in (mask, *shapes) for key in _OPACITIES)
    )


def _mark_clips(root: Element) -> None:
    """Mark the clip paths whose shapes cut by the even-odd rule."""
    for clip in root.iter("clipPath"):
        if any(_said(element, "clip-rule") == "evenodd" for element in clip.iter()):
            clip.set(EVEN_ODD_MARK, "yes")


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


def _layer_shapes(parent: Element, inherited: Mapping[str, str]) -> None:
    """Part fill and outline where their order or their common opacity matters."""
    said = {key: _said(parent, key) or inherited.get(key, "") for key in _INHERITED}
    for place, child in enumerate(parent if parent.tag != "clipPath" else ()):
        if child.tag in _SHAPES:
            parent[place] = _layered(child, said)
        else:
            _layer_shapes(child, said)


def _layered(shape: Element, inherited: Mapping[str, str]) -> Element:
    stroke, order = (_said(shape, key) or inherited[key] for key in _INHERITED)
    opacity = percent_to_number(_said(shape, "opacity")) or "1"
    outline_first = order.startswith("stroke")
    if stroke in ("", "none") or (opacity == "1" and not outline_first):
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
