"""How much a picture may ask for, and how it is told that it asks too much."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limits:
    """What one picture may take of this machine.

    ``file_bytes`` bounds any file, ``svg_bytes`` an SVG once it is unpacked. ``pixels`` lets
    12,000 x 12,000 through and stays under what Pillow refuses; ``small_side`` is the least
    number of pixels along a side. ``elements`` are those of an SVG as written, ``drawn`` those
    with every reference followed, ``depth`` how deep they may be nested, ``inside_pixels`` the
    pixels of all pictures inside an SVG. ``seconds`` are those of processor time that drawing
    one SVG may take, by the clock twice and a half as many, so that a busy machine refuses
    nothing that an idle one prints; ``memory`` (bytes) is all that the drawing process may have.
    """

    file_bytes: int = 200_000_000
    pixels: int = 170_000_000
    small_side: int = 16
    svg_bytes: int = 20_000_000
    elements: int = 40_000
    drawn: int = 100_000
    depth: int = 150
    css_bytes: int = 200_000
    inside_pixels: int = 30_000_000
    seconds: float = 6.0
    memory: int = 1_500_000_000


@dataclass(frozen=True, slots=True)
class PictureFault:
    """Why an art file can't be printed; the caller adds the manifest's file, line and page."""

    code: str
    message: str
    mend: str


class Unfit(Exception):
    """A picture can't be taken in: ``reason`` goes on after the file's name."""

    def __init__(self, reason: str, mend: str, code: str = "art-unreadable") -> None:
        super().__init__(reason)
        self.reason = reason
        self.mend = mend
        self.code = code

    def fault(self, name: str) -> PictureFault:
        return PictureFault(self.code, f"{name} {self.reason}", self.mend)


SAVE_AGAIN = "Open it in a picture program and save it again as PNG, JPEG or plain SVG."
FETCH_AGAIN = "Copy the file again from where it came from."


def too_large(width: int, height: int, limits: Limits) -> None:
    """Refuse a raster by its header, before anything is decoded; raises Unfit."""
    if width * height > limits.pixels:
        raise Unfit(
            f"is {width:,} x {height:,} pixels, more than can be printed",
            "Scale it down to 5,000 pixels along its longer side: that is enough for any paper.",
            "art-too-large",
        )
    if min(width, height) < limits.small_side:
        raise Unfit(
            f"is only {width} x {height} pixels",
            "Use the picture itself, not its icon: about 1,500 pixels along its longer side.",
        )
