"""A finished file, opened and looked at again before anybody is told that it is done."""

from __future__ import annotations

import io
from collections.abc import Sequence

from pypdf import PageObject, PdfReader
from pypdf.errors import PyPdfError
from pypdf.generic import DictionaryObject

from bookmaker.model import PlacedArt, PlacedPage

MM = 72 / 25.4
TOLERANCE = 0.02
"""Points by which a page's size may differ: cairo writes six digits."""


class FinishedFileFault(Exception):
    """A finished file is not what was laid out: a fault of ours, nothing is to be written."""


def check_pdf(data: bytes, pages: Sequence[PlacedPage]) -> None:
    """Raise FinishedFileFault unless ``data`` is a PDF of ``pages``.

    Looks at the number and size of pages, that each picture is there, and that every face is
    embedded.
    """
    try:
        reader = PdfReader(io.BytesIO(data), strict=True)
        found = list(reader.pages)
    except (PyPdfError, ValueError, KeyError) as error:
        raise FinishedFileFault(f"the file can't be opened again: {error}") from error
    if len(found) != len(pages):
        raise FinishedFileFault(f"{len(found)} pages stand in the file instead of {len(pages)}")
    for number, (page, placed) in enumerate(zip(found, pages, strict=True), 1):
        _check_page(page, placed, number)


def _check_page(page: PageObject, placed: PlacedPage, number: int) -> None:
    width, height = float(page.mediabox.width), float(page.mediabox.height)
    off = max(abs(width - placed.width * MM), abs(height - placed.height * MM))
    if off > TOLERANCE:
        raise FinishedFileFault(f"page {number} is {width} x {height} points large")
    resources = page["/Resources"].get_object()
    assert isinstance(resources, DictionaryObject)
    art = {item.picture for item in placed.items if isinstance(item, PlacedArt)}
    objects = resources.get("/XObject", {})
    laid = [name for name in objects if name.startswith("/Art")]
    if len(laid) < len(art):
        raise FinishedFileFault(f"page {number} shows {len(laid)} of its {len(art)} pictures")
    for name, font in resources.get("/Font", {}).items():
        if not _is_embedded(font.get_object()):
            raise FinishedFileFault(f"page {number}: the face {name} is not embedded")


def _is_embedded(font: DictionaryObject) -> bool:
    inner = font.get("/DescendantFonts")
    font = inner.get_object()[0].get_object() if inner is not None else font
    descriptor = font.get("/FontDescriptor", {})
    return any(f"/FontFile{kind}" in descriptor for kind in ("", "2", "3"))
