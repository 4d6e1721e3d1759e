"""A JPEG whose coded picture breaks off before its last row, though the file goes on to its end.

Decoders fill what is missing with the last colour and say nothing. The last bytes of the code are
what makes the last rows; where leaving some out changes rows far above the bottom, and none below
them, the code of what lies below is not there.
"""

from __future__ import annotations

import io

from PIL import Image, ImageChops

from bookmaker.pictures.jpeg import EOI, SOS, CleanJpeg

_PROGRESSIVE = 0xC2
_CUT = 64
"""Bytes left out: the code of a hundred plain blocks, or of a few with much in them."""
_LOOK = 200
_LEAST = 0.04
"""The part of the height that must be missing before it is worth a word."""


def lost_notes(jpeg: CleanJpeg) -> tuple[str, ...]:
    """A note where the lower part of a JPEG is not in its file; none where a look can't tell."""
    scan = jpeg.data.rfind(bytes((0xFF, SOS)))
    end = len(jpeg.data) - 2
    if jpeg.frame == _PROGRESSIVE or end - scan < 8 * _CUT:
        return ()
    cut = jpeg.data[: end - _CUT].rstrip(b"\xff") + bytes((0xFF, EOI))
    try:
        whole, short = _look(jpeg.data), _look(cut)
    except (OSError, SyntaxError, ValueError):
        return ()
    changed = ImageChops.difference(whole, short).getbbox()
    if changed is None or changed[3] >= whole.height * (1 - _LEAST):
        return ()
    share = 1 - changed[3] / whole.height
    return (f"breaks off: about {share:.0%} of it, at its lower end, is missing from the file",)


def _look(data: bytes) -> Image.Image:
    image = Image.open(io.BytesIO(data), formats=["JPEG"])
    image.draft("L", (_LOOK, _LOOK))
    image.load()
    return image
