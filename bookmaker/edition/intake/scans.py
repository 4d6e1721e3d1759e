"""PDFs as school copiers make them: a file in, the picture of each page out.

A page is one picture, or strips of one, or layers (a coarse colour picture under sharp masks). All
are put together where the page's own operators put them; nothing else of the page is drawn.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from PIL import Image
from pypdf import PdfReader
from pypdf.errors import PyPdfError
from pypdf.generic import ContentStream

SMALLEST = 64
"""Pixels: a smaller picture is a stamp or a logo, not a scan."""

MOST_PIXELS = 60_000_000
DEEPEST = 4

Matrix = tuple[float, float, float, float, float, float]
Opener = Callable[[bytes], Image.Image]


class LockedPdf(Exception):
    """The file asks for a password."""


@dataclass(frozen=True)
class _Placed:
    """A picture object of a page and the square that it fills (PDF units, y upwards)."""

    xobject: Any
    matrix: Matrix


def pdf_pictures(path: Path, opener: Opener) -> Iterator[tuple[int, Image.Image | None]]:
    """Each page's number from 1 and what was scanned, None where the page holds no picture.

    ``opener`` opens the bytes of a picture file. Raises LockedPdf, or ValueError for a file that
    can't be read as a PDF.
    """
    try:
        reader = PdfReader(path)
        if reader.is_encrypted and not reader.decrypt(""):
            raise LockedPdf(path.name)
        count = len(reader.pages)
    except PyPdfError as fault:
        raise ValueError(str(fault)) from fault
    for number in range(count):
        try:
            placed = list(_placed(reader.pages[number]))
            yield number + 1, _together(placed, opener) if placed else None
        except (PyPdfError, KeyError, TypeError, AttributeError, NotImplementedError, OSError):
            yield number + 1, None


def _placed(page: Any) -> Iterator[_Placed]:
    resources = page.get("/Resources", {})
    content = page.get_contents()
    if content is not None:
        yield from _drawn(content, resources, (1, 0, 0, 1, 0, 0), DEEPEST)


def _drawn(content: Any, resources: Any, matrix: Matrix, depth: int) -> Iterator[_Placed]:
    """Pictures in the order in which ``content`` draws them."""
    objects = resources.get_object().get("/XObject", {}).get_object() if resources else {}
    stack: list[Matrix] = []
    for operands, operator in content.operations:
        if operator == b"q":
            stack.append(matrix)
        elif operator == b"Q" and stack:
            matrix = stack.pop()
        elif operator == b"cm":
            matrix = _times(tuple(float(value) for value in operands), matrix)
        elif operator == b"Do" and operands[0] in objects:
            thing = objects[operands[0]].get_object()
            if thing.get("/Subtype") == "/Image":
                if min(thing.get("/Width", 0), thing.get("/Height", 0)) >= SMALLEST // 8:
                    yield _Placed(thing, matrix)
            elif thing.get("/Subtype") == "/Form" and depth:
                own = tuple(float(value) for value in thing.get("/Matrix", (1, 0, 0, 1, 0, 0)))
                inner = ContentStream(thing, thing.pdf if hasattr(thing, "pdf") else None)
                yield from _drawn(
                    inner, thing.get("/Resources", resources), _times(own, matrix), depth - 1
                )


def _together(placed: list[_Placed], opener: Opener) -> Image.Image | None:
    """The picture of a page; pieces and layers are laid where they stand."""
    if len(placed) == 1:
        only = placed[0].xobject
        return _decoded(only, opener) if min(_size(only)) >= SMALLEST else None
    boxes = [_box(piece.matrix) for piece in placed]
    left, low = min(box[0] for box in boxes), min(box[1] for box in boxes)
    right, high = max(box[2] for box in boxes), max(box[3] for box in boxes)
    scale = max(
        _size(piece.xobject)[0] / max(1e-3, box[2] - box[0])
        for piece, box in zip(placed, boxes, strict=True)
    )
    scale = min(scale, (MOST_PIXELS / max(1.0, (right - left) * (high - low))) ** 0.5)
    size = (round((right - left) * scale), round((high - low) * scale))
    if min(size) < SMALLEST:
        return None
    page = Image.new("RGB", size, "white")
    for piece, box in zip(placed, boxes, strict=True):
        x0, y0 = round((box[0] - left) * scale), round((high - box[3]) * scale)
        x1, y1 = round((box[2] - left) * scale), round((high - box[1]) * scale)
        if x1 > x0 and y1 > y0:
            _lay(page, _decoded(piece.xobject, opener), (x0, y0, x1, y1), _is_mask(piece.xobject))
    return page


def _lay(
    page: Image.Image, piece: Image.Image, box: tuple[int, int, int, int], stencil: bool
) -> None:
    size = (box[2] - box[0], box[3] - box[1])
    if stencil:  # a mask that ink is poured through; copiers use it for black print
        clear = piece.convert("L").resize(size)
        page.paste((0, 0, 0), box, clear.point([255 - value for value in range(256)]))
        return
    piece = piece.convert("RGBA" if "A" in piece.mode else "RGB").resize(size)
    page.paste(piece, box, piece if piece.mode == "RGBA" else None)


def _decoded(xobject: Any, opener: Opener) -> Image.Image:
    """A picture object's pixels. A plain JPEG is left for whoever needs its pixels to decode."""
    filters = xobject.get("/Filter")
    filters = filters if isinstance(filters, list) else [filters]
    plain = filters == ["/DCTDecode"] and "/SMask" not in xobject and "/Decode" not in xobject
    if plain and re.match(rb"\xff\xd8\xff", xobject._data):
        return opener(xobject._data)
    decoded: Image.Image = xobject.decode_as_image()
    return decoded


def _is_mask(xobject: Any) -> bool:
    return bool(xobject.get("/ImageMask", False))


def _size(xobject: Any) -> tuple[int, int]:
    return int(xobject["/Width"]), int(xobject["/Height"])


def _box(matrix: Matrix) -> tuple[float, float, float, float]:
    """What the unit square becomes: left, low, right, high."""
    a, b, c, d, e, f = matrix
    xs, ys = (e, e + a, e + c, e + a + c), (f, f + b, f + d, f + b + d)
    return min(xs), min(ys), max(xs), max(ys)


def _times(one: tuple[float, ...], other: Matrix) -> Matrix:
    """First ``one``, then ``other``."""
    a, b, c, d, e, f = one
    g, h, i, j, k, m = other
    return (
        a * g + b * i,
        a * h + b * j,
        c * g + d * i,
        c * h + d * j,
        e * g + f * i + k,
        e * h + f * j + m,
    )
