"""A PDF of one picture with every colour in it turned into a grey, wherever it stands.

Operators of pages, forms, patterns and glyphs; colour spaces of resources, shadings, images and
groups; functions that give colours; the colour behind a soft mask. What can't be turned raises.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any, Final

from pikepdf import (
    Array,
    ContentStreamInlineImage,
    Dictionary,
    Name,
    Object,
    Operator,
    Pdf,
    Stream,
    parse_content_stream,
    unparse_content_stream,
)

from bookmaker.pdf.grey_image import grey_image
from bookmaker.pdf.grey_space import NoGrey, channels_of, grey_function, grey_of, grey_space

_DEVICE: Final = {
    "g": ("DeviceGray", "g"),
    "rg": ("DeviceRGB", "g"),
    "k": ("DeviceCMYK", "g"),
    "G": ("DeviceGray", "G"),
    "RG": ("DeviceRGB", "G"),
    "K": ("DeviceCMYK", "G"),
}
"""Operators that set a space and a colour (8.6.8), and those that do so in greys."""
_STROKES: Final = frozenset({"G", "RG", "K", "CS", "SC", "SCN"})


def grey_pdf(data: bytes) -> bytes:
    """``data`` with paths, words, gradients and rasters in the greys that are as light.

    Raises NoGrey for what is no part of a picture drawn from SVG.
    """
    with Pdf.open(io.BytesIO(data)) as pdf:
        for page in pdf.pages:
            page.contents_coalesce()
            page.obj.Contents = pdf.make_indirect(page.obj.Contents)
            _grey_content(pdf, page.obj.Contents, page.resources)
        for found in pdf.objects:
            if isinstance(found, Stream) and _has_content(found):
                _grey_content(pdf, found, found.get("/Resources", Dictionary()))
        done: dict[Any, Object] = {}
        for found in list(pdf.objects):
            _grey_spaces(pdf, found, done)
        if "/Info" in pdf.trailer:
            del pdf.trailer.Info
        out = io.BytesIO()
        pdf.remove_unreferenced_resources()
        pdf.save(out, deterministic_id=True)
    return out.getvalue()


def _has_content(stream: Object) -> bool:
    """Forms, tiling patterns (8.7.3) and glyphs drawn by operators (9.6.5)."""
    return stream.get("/Subtype") == Name.Form or stream.get("/PatternType") == 1


def _grey_content(pdf: Pdf, stream: Object, resources: Object) -> None:
    """Rewrite the operators of ``stream``, which names spaces of ``resources``."""
    spaces = resources.get("/ColorSpace", Dictionary())
    now, saved = _Spaces(spaces), []
    written: list[Any] = []
    for step in parse_content_stream(stream):
        operator = str(step.operator)
        if isinstance(step, ContentStreamInlineImage):
            if channels_of(Name(step.iimage.colorspace or "/DeviceGray")) > 1:
                raise NoGrey("a coloured picture between operators")
            written.append(step)
            continue
        if operator == "q":
            saved.append(now.copy())
        elif operator == "Q" and saved:
            now = saved.pop()
        written.append(now.greyed(operator, list(step.operands)))
    stream.write(unparse_content_stream(written))


class _Spaces:
    """The spaces that hold at a place of a content stream, for filling and for strokes."""

    def __init__(self, named: Object, fill: Any = None, stroke: Any = None) -> None:
        self._named = named
        self._fill = fill or Name.DeviceGray
        self._stroke = stroke or Name.DeviceGray

    def copy(self) -> _Spaces:
        return _Spaces(self._named, self._fill, self._stroke)

    def greyed(self, operator: str, operands: Sequence[Any]) -> tuple[list[Any], Operator]:
        """An operator with its operands in greys."""
        if operator in _DEVICE:
            space, grey = _DEVICE[operator]
            self._choose(operator, Name(f"/{space}"))
            return [grey_of(operands)], Operator(grey)
        if operator in ("cs", "CS"):
            name = operands[0]
            self._choose(operator, self._named.get(str(name), name))
            is_device = str(name) not in self._named and channels_of(name) > 1
            return [Name.DeviceGray if is_device else name], Operator(operator)
        if operator in ("sc", "scn", "SC", "SCN"):
            return self._colour(operands, operator), Operator(operator)
        return list(operands), Operator(operator)

    def _choose(self, operator: str, space: Any) -> None:
        if operator in _STROKES:
            self._stroke = space
        else:
            self._fill = space

    def _colour(self, operands: Sequence[Any], operator: str) -> list[Any]:
        space = self._stroke if operator in _STROKES else self._fill
        names = [each for each in operands if isinstance(each, Name)]
        values = [each for each in operands if not isinstance(each, Name)]
        if names and values:  # a pattern without colours of its own (8.7.3.3)
            space = space[1]
        return [grey_of(values), *names] if channels_of(space) > 1 and values else list(operands)


def _grey_spaces(pdf: Pdf, found: Any, done: dict[Any, Object]) -> None:
    """Spaces in an object and in what stands inside it; not in what it refers to."""
    if isinstance(found, Array):
        kids = list(found)
    elif isinstance(found, Dictionary | Stream):
        if found.get("/Subtype") == Name.Image:
            grey_image(found)
        elif "/ShadingType" in found:
            _grey_shading(pdf, found, done)
        elif isinstance(found.get("/ColorSpace"), Dictionary):
            _grey_names(pdf, found.ColorSpace)
        if found.get("/S") == Name.Transparency and "/CS" in found:
            found.CS = grey_space(pdf, found.CS)
        if found.get("/S") in (Name.Luminosity, Name.Alpha) and "/BC" in found:
            found.BC = Array([grey_of([float(each) for each in found.BC])])
        kids = [each for _, each in found.items()]
    else:
        kids = []
    for kid in kids:
        if isinstance(kid, Array | Dictionary) and not kid.is_indirect:
            _grey_spaces(pdf, kid, done)


def _grey_names(pdf: Pdf, spaces: Object) -> None:
    """Spaces by the names that content has for them (7.8.3)."""
    for name in list(spaces.keys()):
        if name in ("/DefaultRGB", "/DefaultCMYK"):
            del spaces[name]
        else:
            spaces[name] = grey_space(pdf, spaces[name])


def _grey_shading(pdf: Pdf, shading: Any, done: dict[Any, Object]) -> None:
    """A gradient (8.7.4.5): its space, the function that gives its colours, what is behind it."""
    space = shading.ColorSpace
    if channels_of(space) < 2:
        return
    if "/Function" not in shading:
        raise NoGrey(f"a shading of type {int(shading.ShadingType)} that names its colours itself")
    function = shading.Function
    key = function.objgen if function.is_indirect else id(function)
    if key not in done:  # one function may serve several gradients
        done[key] = grey_function(pdf, function)
    shading.Function = done[key]
    shading.ColorSpace = Name.DeviceGray
    if "/Background" in shading:
        shading.Background = Array([grey_of([float(each) for each in shading.Background])])
