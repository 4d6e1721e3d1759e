"""A grey book has no colour: every colour space and every operator of a finished file looked at."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from pikepdf import (
    Array,
    ContentStreamInlineImage,
    Dictionary,
    Name,
    Object,
    Pdf,
    Stream,
    parse_content_stream,
)

COLOURED: Final = frozenset({"/DeviceRGB", "/DeviceCMYK", "/CalRGB", "/Lab", "/RGB", "/CMYK"})
"""Spaces of more than one channel (ISO 32000-1, 8.6), and their names in inline images."""
_OPERATORS: Final = frozenset({b"rg", b"RG", b"k", b"K", b"cs", b"CS", b"BI"})
_SPACES: Final = {"rg": "RGB", "RG": "RGB", "k": "CMYK", "K": "CMYK"}


def colour_left(pdf: Pdf) -> Iterator[str]:
    """What is left of colour in ``pdf``, in words."""
    for found in pdf.objects:
        if isinstance(found, Stream):
            yield from _in_content(found)
        for space in _spaces(found):
            yield f"object {found.objgen[0]} of a grey file is in {space[1:]}"


def _in_content(stream: Object) -> Iterator[str]:
    """Operators that set a colour, in whatever has content; a word of a text may look like one."""
    if not _has_content(stream) or _OPERATORS.isdisjoint(stream.read_bytes().split()):
        return
    for step in parse_content_stream(stream):
        operator, operands = str(step.operator), step.operands
        space = _SPACES.get(operator, "")
        if isinstance(step, ContentStreamInlineImage):
            space = _name_of(step.iimage.colorspace)
        elif operator in ("cs", "CS"):
            space = _name_of(str(operands[0]))
        if space:
            yield f"object {stream.objgen[0]} of a grey file sets a colour in {space}"


def _name_of(space: Any) -> str:
    return space[1:] if isinstance(space, str) and space in COLOURED else ""


def _has_content(stream: Object) -> bool:
    """Pages' content and forms, patterns and glyphs drawn by operators; no picture, no font."""
    if "/Type" in stream and stream.Type not in (Name.XObject, Name.Pattern):
        return False
    no_content = ("/Width", "/FunctionType", "/ShadingType", "/Length1", "/N", "/Subtype")
    return stream.get("/Subtype") == Name.Form or not any(key in stream for key in no_content)


def _spaces(found: Any) -> Iterator[str]:
    """Names of coloured spaces anywhere in an object, but not in those that it refers to."""
    if isinstance(found, Array):
        if len(found) == 2 and found[0] == "/ICCBased" and int(found[1].get("/N", 0)) != 1:
            yield "/ICCBased"
        parts = list(found)
    elif isinstance(found, Dictionary | Stream):
        parts = [each for _, each in found.items()]
    else:
        parts = []
    for part in parts:
        if isinstance(part, Name):
            if str(part) in COLOURED:
                yield str(part)
        elif isinstance(part, Array | Dictionary) and not part.is_indirect:
            yield from _spaces(part)
