"""Files of scans and photographs in, one picture after another out, opened and not yet decoded.

Only pixels are read: what a file says about where, when and with what it was taken is not.
"""

from __future__ import annotations

import io
import warnings
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

import pillow_heif
from PIL import Image, UnidentifiedImageError

from bookmaker.scanning.pdf_scans import LockedPdf, count_pages, pdf_pictures

LONGEST = 7000
"""Pixels: a longer JPEG is decoded at half its size, which still leaves 300 dpi on A4."""

HEAD = 1024
PDF = b"%PDF-"
"""Somewhere in its first bytes a PDF says that it is one (ISO 32000-1, annex H.3.4.1)."""

SPOILT = (OSError, ValueError, SyntaxError, EOFError)
"""What Pillow raises for a picture that is not whole."""

Trouble = Literal["", "missing", "not-a-picture", "damaged", "too-large", "locked", "forbidden"]


@dataclass(frozen=True)
class Source:
    """One picture: the file's name (no path), its page or frame from 1 (0: the only one), and the
    picture, or None and the trouble with it."""

    file: str
    page: int
    picture: Image.Image | None
    trouble: Trouble = ""


def open_pictures(path: Path) -> Iterator[Source]:
    """Every picture in a file: JPEG, PNG, HEIC, TIFF of many frames, or the pages of a PDF.

    Raises nothing for a bad file: that is one ``Source`` with its trouble, after what could be
    read of it.
    """
    try:
        with path.open("rb") as file:
            head = file.read(HEAD)
        for page, picture in _pictures(path, head):
            yield Source(path.name, page, picture, "" if picture else "not-a-picture")
    except FileNotFoundError:
        yield Source(path.name, 0, None, "missing")
    except PermissionError:
        yield Source(path.name, 0, None, "forbidden")
    except (Image.DecompressionBombWarning, Image.DecompressionBombError):
        yield Source(path.name, 0, None, "too-large")
    except UnidentifiedImageError:
        yield Source(path.name, 0, None, "not-a-picture")
    except LockedPdf:
        yield Source(path.name, 0, None, "locked")
    except SPOILT:
        yield Source(path.name, 0, None, "damaged")


def count_pictures(path: Path) -> int:
    """How many pictures there seem to be in a file, without a look at any of them."""
    try:
        with path.open("rb") as file:
            return count_pages(path) if PDF in file.read(HEAD) else 1
    except OSError:
        return 1


def _pictures(path: Path, head: bytes) -> Iterator[tuple[int, Image.Image | None]]:
    if PDF in head:
        yield from pdf_pictures(path, open_picture)
    elif pillow_heif.is_supported(head):
        yield 0, pillow_heif.open_heif(path, convert_hdr_to_8bit=True).to_pillow()
    else:
        yield from _frames(path)


def _frames(path: Path) -> Iterator[tuple[int, Image.Image]]:
    with _opened(path) as picture:
        count = getattr(picture, "n_frames", 1) if picture.format in ("TIFF", "MPO") else 1
        if picture.format != "TIFF" or count == 1:
            yield 0, open_picture(path.read_bytes())
            return
        for frame in range(count):
            picture.seek(frame)
            yield frame + 1, picture.copy()


def open_picture(data: bytes) -> Image.Image:
    """The picture in ``data``, not yet decoded. Raises what Pillow raises, and
    DecompressionBombWarning for one that would fill the memory."""
    picture = _opened(io.BytesIO(data))
    if picture.format == "JPEG" and max(picture.size) > LONGEST:
        picture.draft("RGB", (picture.width // 2, picture.height // 2))
    return picture


def _opened(source: Path | io.BytesIO) -> Image.Image:
    with warnings.catch_warnings():
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        return Image.open(source)
