"""Pictures: art files in, ``Picture`` out: upright size, trim box, safe bytes, digest.

Rasters are decoded here with Pillow; SVG art is screened and drawn by a child process
(``worker``), under limits of time and memory.
"""

from bookmaker.pictures.book_pictures import take_in_art
from bookmaker.pictures.cover import ink_cover
from bookmaker.pictures.kinds import kind_of
from bookmaker.pictures.limits import Limits, PictureFault
from bookmaker.pictures.look import PIXELS, look, trimmed
from bookmaker.pictures.packing import make
from bookmaker.pictures.png import SIGNATURE as PNG_SIGNATURE
from bookmaker.pictures.png import PngStream, png_stream
from bookmaker.pictures.png import chunk as png_chunk
from bookmaker.pictures.scaling import at_size, dpi, small, standing_alone
from bookmaker.pictures.taking import take_in
from bookmaker.pictures.workroom import RendererMissing

__all__ = [
    "PIXELS",
    "PNG_SIGNATURE",
    "Limits",
    "PictureFault",
    "PngStream",
    "RendererMissing",
    "at_size",
    "dpi",
    "ink_cover",
    "kind_of",
    "look",
    "make",
    "png_chunk",
    "png_stream",
    "small",
    "standing_alone",
    "take_in",
    "take_in_art",
    "trimmed",
]
