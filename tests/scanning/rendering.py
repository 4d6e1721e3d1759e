"""A side of a PDF as another renderer than the press's own sees it."""

from __future__ import annotations

import pypdfium2
from PIL import Image


def rendered(pdf: bytes, side: int, dpi: float) -> Image.Image:
    """The ``side`` (from 0) of ``pdf``, RGB."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        page: Image.Image = document[side].render(scale=dpi / 72).to_pil()
        return page.convert("RGB")
    finally:
        document.close()
