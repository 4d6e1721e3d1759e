"""A finished file, opened and looked at again before anybody is told that it is done."""

from __future__ import annotations

import io
from collections.abc import Sequence
from pathlib import Path

from pikepdf import Object, Page, Pdf, PdfError

from bookmaker.model import PlacedArt, PlacedPage
from bookmaker.pdf.units import MM

TOLERANCE = 0.02
"""Points by which a page's size may differ: cairo writes six digits."""


class FinishedFileFault(Exception):
    """A finished file is not what was laid out: a fault of ours, nothing is to be written."""


def check_pdf(pdf: bytes | Path, pages: Sequence[PlacedPage]) -> None:
    """Raise FinishedFileFault unless ``pdf``, a file or its bytes, is a PDF of ``pages``.

    Looks at the number and size of pages, that each picture is there, and that every face is
    embedded.
    """
    try:
        file = pdf if isinstance(pdf, Path) else io.BytesIO(pdf)
        with Pdf.open(file, attempt_recovery=False) as opened:
            if len(opened.pages) != len(pages):
                count = f"{len(opened.pages)} pages stand in the file instead of {len(pages)}"
                raise FinishedFileFault(count)
            for number, (page, placed) in enumerate(zip(opened.pages, pages, strict=True), 1):
                _check_page(page, placed, number)
    except PdfError as error:
        raise FinishedFileFault(f"the file can't be opened again: {error}") from error


def _check_page(page: Page, placed: PlacedPage, number: int) -> None:
    left, bottom, right, top = (float(value) for value in page.mediabox)
    width, height = right - left, top - bottom
    off = max(abs(width - placed.width * MM), abs(height - placed.height * MM))
    if off > TOLERANCE:
        raise FinishedFileFault(f"page {number} is {width} x {height} points large")
    resources = page.obj.Resources
    art = {item.picture for item in placed.items if isinstance(item, PlacedArt)}
    laid = [each for each in _named(resources, "/XObject").values() if "/Subtype" in each]
    if len(laid) < len(art):
        raise FinishedFileFault(f"page {number} shows {len(laid)} of its {len(art)} pictures")
    for name, font in _named(resources, "/Font").items():
        if not _is_embedded(font):
            raise FinishedFileFault(f"page {number}: the face {name} is not embedded")


def _is_embedded(font: Object) -> bool:
    font = font.DescendantFonts[0] if "/DescendantFonts" in font else font
    descriptor = _named(font, "/FontDescriptor")
    return any(f"/FontFile{kind}" in descriptor for kind in ("", "2", "3"))


def _named(owner: Object, part: str) -> dict[str, Object]:
    """The entries of a dictionary's part by their names; none where it has no such part."""
    return dict(owner[part].items()) if part in owner else {}
