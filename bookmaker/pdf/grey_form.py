"""A PDF that cairo wrote, with every colour in it turned into a grey."""

from __future__ import annotations

import io
import re
import zlib
from typing import Any

from bookmaker.colour import grey_level

_OPERATOR = re.compile(rb"([\d.]+) ([\d.]+) ([\d.]+) (rg|RG)(?=\s)")
_RGB, _GREY = "/DeviceRGB", "/DeviceGray"


def grey_pdf(data: bytes) -> bytes:
    """``data`` with paths, words, gradients and rasters in the greys that are as light.

    Knows what cairo writes (PDF 1.7, ISO 32000-1): the operators ``rg`` and ``RG``, shadings with
    functions of types 2 and 3, and images of eight bits a channel.
    """
    from pypdf import PdfReader, PdfWriter  # slow to import
    from pypdf.generic import DictionaryObject, StreamObject

    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(data)))
    writer.metadata = None
    contents = {page.raw_get("/Contents").idnum for page in writer.pages if "/Contents" in page}
    for number, found in enumerate(writer._objects, 1):
        if isinstance(found, StreamObject):
            kind = found.get("/Subtype")
            if kind == "/Image":
                _grey_image(found)
            elif number in contents or kind == "/Form" or "/PatternType" in found:
                _grey_content(found)
        if isinstance(found, DictionaryObject):
            _grey_spaces(found)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def _grey_content(stream: Any) -> None:
    found = stream.get_data()
    _fill(stream, _OPERATOR.sub(_operator, found))


def _fill(stream: Any, data: bytes) -> None:
    """Put ``data`` into a stream, deflated, whatever filter it had."""
    from pypdf.generic import NameObject

    stream.pop("/DecodeParms", None)
    stream[NameObject("/Filter")] = NameObject("/FlateDecode")
    stream._data = zlib.compress(data, 9)
    if hasattr(stream, "decoded_self"):
        stream.decoded_self = None


def _operator(found: re.Match[bytes]) -> bytes:
    level = grey_level(*(float(found[i]) for i in (1, 2, 3)))
    return f"{level:.4g} ".encode() + (b"g" if found[4] == b"rg" else b"G")


def _grey_spaces(found: Any) -> None:
    """Gradients, and the spaces in which groups are blended."""
    from pypdf.generic import NameObject

    if found.get("/ColorSpace") == _RGB and "/ShadingType" in found:
        found[NameObject("/ColorSpace")] = NameObject(_GREY)
        _grey_function(found["/Function"])
    group = found.get("/Group")
    if group is not None and group.get_object().get("/CS") == _RGB:
        group.get_object()[NameObject("/CS")] = NameObject(_GREY)


def _grey_function(function: Any) -> None:
    from pypdf.generic import ArrayObject, FloatObject, NameObject

    for inner in function.get("/Functions", ()):
        _grey_function(inner.get_object())
    for end in ("/C0", "/C1"):
        if len(function.get(end, ())) == 3:
            level = grey_level(*(float(value) for value in function[end]))
            function[NameObject(end)] = ArrayObject([FloatObject(round(level, 4))])


def _grey_image(image: Any) -> None:
    from PIL import Image
    from pypdf.generic import NameObject

    if image.get("/ColorSpace") != _RGB or image.get("/BitsPerComponent") != 8:
        return
    size = (int(image["/Width"]), int(image["/Height"]))
    if image.get("/Filter") == "/DCTDecode":
        with Image.open(io.BytesIO(image._data)) as opened:
            levels = opened.convert("L").tobytes()
    else:
        levels = Image.frombytes("RGB", size, image.get_data()).convert("L").tobytes()
    image[NameObject("/ColorSpace")] = NameObject(_GREY)
    _fill(image, levels)
