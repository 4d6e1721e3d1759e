"""Strangers' SVG made safe: what it may hold, and nothing that reaches outside its own file."""

from __future__ import annotations

import re
import zlib
from dataclasses import dataclass, field
from xml.etree.ElementTree import Element, ParseError, fromstring
from xml.parsers import expat

from bookmaker.pictures.colours import plain_colours
from bookmaker.pictures.css import clean_sheet, clean_style, percent_to_number, without_outside
from bookmaker.pictures.inside import keep_inside
from bookmaker.pictures.limits import SAVE_AGAIN, Limits, Unfit
from bookmaker.pictures.mending import has_doubtful_mask, mend
from bookmaker.pictures.sheets import inline_sheets
from bookmaker.pictures.values import sound_value
from bookmaker.pictures.weight import weigh

__all__ = ["Element", "screen"]

_SVG = "{http://www.w3.org/2000/svg}"
_XLINK_HREF = "{http://www.w3.org/1999/xlink}href"
_XML_SPACE = "{http://www.w3.org/XML/1998/namespace}space"
_SIMPLIFY = "Simplify the drawing and save it as plain SVG, or save it as PNG."

_SEEN = ("path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text", "image")
_DRAWN = (
    *(*_SEEN, "tspan", "textPath"),
    *("svg", "g", "defs", "symbol", "use", "switch", "a", "style", "clipPath", "mask", "marker"),
    *("linearGradient", "radialGradient", "stop", "pattern"),
)
_LEFT_OUT = {
    "script": "holds a script, which is left out",
    "foreignObject": "holds parts that are no SVG, which are left out",
    "animate": "moves on a screen; it is printed as it starts",
    "animateTransform": "moves on a screen; it is printed as it starts",
    "animateMotion": "moves on a screen; it is printed as it starts",
    "set": "moves on a screen; it is printed as it starts",
}
_EFFECTS = "uses filters or blend modes (blur, shadow), which can't be printed and are left out"
_MASKS = "hides or fades parts by a mask, which may be printed otherwise than it is meant"
_CONDITIONS = ("requiredFeatures", "requiredExtensions", "systemLanguage")
_DROPPED = frozenset(("style", "href", "filter", "mix-blend-mode", "base", *_CONDITIONS))
_OPACITIES = ("opacity", "fill-opacity", "stroke-opacity", "stop-opacity")
_COLOURED = ("fill", "stroke", "stop-color", "color")
_NAME = re.compile(r"[A-Za-z][\w:.-]*")


def screen(data: bytes, limits: Limits) -> tuple[Element, tuple[str, ...]]:
    """The drawing alone, and notes on what was left out.

    Elements come back without namespaces; references are "#id" or a small picture as a data
    URI. Raises Unfit for what is no well-formed SVG, defines entities, or asks for too much.
    """
    text = _unpacked(data, limits)
    _count(text, limits)
    try:
        root = fromstring(text)
    except (ParseError, ValueError, LookupError) as error:
        raise _malformed(error) from error
    if _bare(root.tag) != "svg":
        raise Unfit("is an XML file without an svg element around it all", SAVE_AGAIN)
    cleaning = _Cleaning(limits)
    clean = cleaning.element(root)
    if inline_sheets(clean):
        cleaning.notes.append("has a style sheet that can't be read, which is left out")
    mend(clean)
    weigh(clean, limits)
    if not any(element.tag in _SEEN for element in clean.iter()):
        raise Unfit("draws nothing", SAVE_AGAIN)
    if has_doubtful_mask(clean):
        cleaning.notes.append(_MASKS)
    return clean, tuple(dict.fromkeys(cleaning.notes))


def _unpacked(data: bytes, limits: Limits) -> bytes:
    """The text of an SVG, unpacked no further than it may be."""
    if data.startswith(b"\x1f\x8b"):
        unpacker = zlib.decompressobj(wbits=31)
        try:
            data = unpacker.decompress(data, limits.svg_bytes + 1)
        except zlib.error:
            raise Unfit("is damaged and can't be unpacked", SAVE_AGAIN) from None
        if not unpacker.eof and len(data) <= limits.svg_bytes:
            raise Unfit("is cut off before its end", SAVE_AGAIN)
    if len(data) > limits.svg_bytes:
        raise Unfit(
            f"holds more than {limits.svg_bytes // 1_000_000} MB of SVG", _SIMPLIFY, "art-too-large"
        )
    return data


def _count(text: bytes, limits: Limits) -> None:
    """Read through once, stopping at the first entity or when there is too much of anything."""
    parser = expat.ParserCreate()
    elements = depth = 0

    def start(name: str, attributes: dict[str, str]) -> None:
        nonlocal elements, depth
        elements += 1
        depth += 1
        if elements > limits.elements:
            raise Unfit(f"holds more than {limits.elements:,} elements", _SIMPLIFY, "art-too-large")
        if depth > limits.depth:
            raise _too_deep(limits)

    def end(name: str) -> None:
        nonlocal depth
        depth -= 1

    def entity(*declaration: object) -> None:
        raise Unfit(
            "defines entities, which are not read from art files",
            "Save it again as plain SVG, without entities.",
        )

    parser.StartElementHandler = start
    parser.EndElementHandler = end
    parser.EntityDeclHandler = entity
    try:
        parser.Parse(text, True)
    except (expat.ExpatError, ValueError, LookupError) as error:
        raise _malformed(error) from error


def _too_deep(limits: Limits) -> Unfit:
    return Unfit(
        f"is nested more than {limits.depth} deep", "Ungroup the drawing.", "art-too-large"
    )


def _malformed(error: Exception) -> Unfit:
    return Unfit(f"is no well-formed SVG ({error})", SAVE_AGAIN)


def _bare(tag: object) -> str:
    """The name of an SVG element without its namespace, "" for any other element."""
    if not isinstance(tag, str):
        return ""
    name = tag.removeprefix(_SVG)
    return "" if name.startswith("{") else name


@dataclass(slots=True)
class _Cleaning:
    """Copies what may stay and remembers what had to go."""

    limits: Limits
    notes: list[str] = field(default_factory=list)
    css: int = 0
    pixels: int = 0

    def element(self, old: Element, in_text: bool = False) -> Element:
        name = _bare(old.tag)
        if name == "a":
            name = "tspan" if in_text else "g"
        in_text = in_text or name == "text"
        new = Element(name)
        self._attributes(old, new)
        if name == "style":
            new.text = self._sheet("".join(old.itertext()))
            return new
        new.text = old.text if in_text else None
        children = self._first_choice(old) if name == "switch" else list(old)
        if name == "switch":
            new.tag = "g"
        for child in children:
            kept = _bare(child.tag)
            if kept in _DRAWN:
                copy = self.element(child, in_text)
                copy.tail = child.tail if in_text else None
                new.append(copy)
            elif kept in _LEFT_OUT:
                self.notes.append(_LEFT_OUT[kept])
        return new

    def _first_choice(self, switch: Element) -> list[Element]:
        """The branch of a switch that asks for nothing special."""
        drawn = [child for child in switch if _bare(child.tag) in _DRAWN]
        plain = [child for child in drawn if not any(child.get(key) for key in _CONDITIONS)]
        return (plain or drawn)[:1]

    def _attributes(self, old: Element, new: Element) -> None:
        for key, value in old.attrib.items():
            if key == _XML_SPACE:
                new.set(key, value)
            elif _NAME.fullmatch(key) and key not in _DROPPED and not _is_foreign(key):
                self._attribute(new, key, value)
        if old.get("filter", "none") != "none" or old.get("mix-blend-mode"):
            self.notes.append(_EFFECTS)
        style = old.get("style")
        if style:
            new.set("style", self._style(style))
        href = old.get("href", old.get(_XLINK_HREF))
        if href is not None:
            self._reference(new, href.strip())

    def _attribute(self, new: Element, key: str, value: str) -> None:
        if key in _OPACITIES:
            number = percent_to_number(value)
            if number is not None:
                new.set(key, number)
            return
        sound = sound_value(key, plain_colours(value) if key in _COLOURED else value)
        if sound is not None:
            kept, outside = without_outside(sound)
            self._outside(outside)
            new.set(key, kept)

    def _style(self, text: str) -> str:
        kept, outside, effects = clean_style(text)
        self._remember(outside, effects)
        return kept

    def _sheet(self, text: str) -> str:
        self.css += len(text)
        if self.css > self.limits.css_bytes:
            raise Unfit(
                f"holds more than {self.limits.css_bytes // 1000} kB of style sheets",
                "Save it as plain SVG, with its styles as attributes.",
                "art-too-large",
            )
        kept, outside, effects = clean_sheet(text)
        self._remember(outside, effects)
        return kept

    def _remember(self, outside: list[str], effects: bool) -> None:
        self._outside(outside)
        if effects:
            self.notes.append(_EFFECTS)

    def _reference(self, new: Element, href: str) -> None:
        if href.startswith("#"):
            new.set("href", href)
        elif new.tag == "image" and href.startswith("data:"):
            kept, pixels = keep_inside(href, self.limits.inside_pixels - self.pixels)
            self.pixels += pixels
            if kept is None:
                self.notes.append("holds a picture that can't be read, which is left out")
            else:
                new.set("href", kept)
        elif href and new.tag != "g":
            self._outside([href])

    def _outside(self, references: list[str]) -> None:
        for reference in references:
            shown = reference if len(reference) <= 60 else reference[:57] + "..."
            self.notes.append(
                f"points to something outside its own file ({shown}), which is left out"
            )


def _is_foreign(key: str) -> bool:
    return key.startswith(("on", "data-", "aria-", "xmlns")) or ":" in key or key == "role"
