"""PDFs as school copiers make them: a file in, the picture of each page out.

Most pages are one JPEG, which is handed on as it is. Strips, layers under masks and the copiers'
own ways to pack black and white are left to a PDF renderer.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pypdfium2
import pypdfium2.raw as pdfium
from PIL import Image

SMALLEST = 200
"""Pixels: a smaller picture is a stamp or a logo, not a scan."""

FINEST_DPI = 300.0
MOST_PIXELS = 40_000_000

Opener = Callable[[bytes], Image.Image]


class LockedPdf(Exception):
    """The file asks for a password."""


def pdf_pictures(path: Path, opener: Opener) -> Iterator[tuple[int, Image.Image | None]]:
    """Each page's number from 1 and what was scanned, None where the page holds no picture.

    ``opener`` opens the bytes of a picture file. Raises LockedPdf, or ValueError for a file that
    can't be read as a PDF. Not for several threads at once.
    """
    try:
        document = pypdfium2.PdfDocument(path)
    except pypdfium2.PdfiumError as fault:
        if "password" in str(fault).lower():
            raise LockedPdf(path.name) from fault
        raise ValueError(str(fault)) from fault
    try:
        for number in range(len(document)):
            yield number + 1, _page_picture(document, number, opener)
    finally:
        document.close()


def count_pages(path: Path) -> int:
    """How many pages a PDF has; 1 where that can't be told."""
    from pypdf import PdfReader  # slow to load
    from pypdf.errors import PyPdfError

    try:
        return len(PdfReader(path).pages)
    except (PyPdfError, OSError, ValueError, KeyError, TypeError, RecursionError):
        return 1


def _page_picture(document: Any, number: int, opener: Opener) -> Image.Image | None:
    try:
        page = document[number]
        pieces = list(page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_IMAGE], max_depth=4))
        large = [piece for piece in pieces if min(piece.get_px_size()) >= SMALLEST]
        if not large and len(pieces) < 2:
            return None
        if len(pieces) == 1 and _is_jpeg(pieces[0]):
            return opener(bytes(pieces[0].get_data(decode_simple=False)))
        return _rendered(page, max(pieces, key=lambda piece: piece.get_px_size()[0]))
    except pypdfium2.PdfiumError:
        return None


def _is_jpeg(piece: Any) -> bool:
    """Whether the picture is a JPEG as files hold it: packed in no other way, without a mask."""
    return list(piece.get_filters()) == ["DCTDecode"] and not pdfium.FPDFPageObj_HasTransparency(
        piece.raw
    )


def _rendered(page: Any, finest: Any) -> Image.Image:
    """The page drawn at the resolution of its ``finest`` picture, 300 dpi at most."""
    left, _, right, _ = finest.get_bounds()
    width, height = page.get_size()
    scale = finest.get_px_size()[0] / max(1.0, right - left)
    room = (MOST_PIXELS / max(1.0, width * height)) ** 0.5
    drawn: Image.Image = page.render(scale=min(scale, FINEST_DPI / 72, room)).to_pil()
    return drawn.convert("RGB")
