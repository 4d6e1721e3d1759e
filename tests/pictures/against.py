"""A picture as it would be printed, and as programs of others draw the same file."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pypdfium2
import resvg_py
from PIL import Image, ImageOps

from bookmaker.cache import MemoryCache
from bookmaker.model import Picture
from bookmaker.pictures import PictureFault, take_in
from bookmaker.pictures.raster import upright

SIDE = 160
"""Pixels along the longer side of what is compared."""


def taken(folder: Path, data: bytes, name: str) -> Picture | PictureFault:
    (folder / name).write_bytes(data)
    return take_in([folder / name], cache=MemoryCache())[folder / name]


def printed(picture: Picture) -> Image.Image:
    """The whole picture, with its margins, on white."""
    if picture.format == "svg":
        with pypdfium2.PdfDocument(picture.pdf) as document:
            page = document[0]
            scale = SIDE / max(page.get_width(), page.get_height())
            return page.render(scale=scale).to_pil().convert("RGB")
    with Image.open(io.BytesIO(picture.data)) as image:
        return upright(image.convert("RGB"), picture.orientation)


def by_resvg(svg: bytes, size: tuple[int, int]) -> Image.Image:
    """resvg, a renderer in Rust that shares no code with cairo or cairosvg."""
    png = resvg_py.svg_to_bytes(
        svg_string=svg.decode(), width=size[0], height=size[1], background="white"
    )
    return Image.open(io.BytesIO(bytes(png))).convert("RGB").resize(size)


def by_pillow(data: bytes) -> Image.Image:
    """Pillow's own decoding, turned by its own reading of EXIF, on white."""
    with Image.open(io.BytesIO(data)) as image:
        turned = ImageOps.exif_transpose(image)
        if image.mode in ("I;16", "I", "F"):  # which Pillow would cut off at 255
            levels = np.asarray(turned, dtype=float)
            turned = Image.fromarray((levels / _end(levels.max()) * 255).astype(np.uint8))
        layered = turned.convert("RGBA")
        paper = Image.new("RGBA", layered.size, "white")
        return Image.alpha_composite(paper, layered).convert("RGB")


def _end(largest: float) -> float:
    """The level of white: that of floats, of eight bits or of sixteen."""
    return next(end for end in (1.0, 255.0, 65535.0) if largest <= end)


def apart(one: Image.Image, other: Image.Image) -> float:
    """Mean difference of levels of 255, after a blur that forgives half a pixel at edges."""
    small = [image.resize((40, 40), Image.Resampling.BOX) for image in (one, other)]
    levels = [np.asarray(image, dtype=float) for image in small]
    return float(np.abs(levels[0] - levels[1]).mean())
