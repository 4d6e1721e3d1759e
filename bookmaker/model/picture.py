"""A picture that has been taken in: safe bytes and what layout must know of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, Protocol

Format = Literal["svg", "jpeg", "png"]

PDF_SIDE = 1000.0
"""Points of the longer side of ``Picture.pdf``'s page, whatever the art's own units."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle: ``x``, ``y`` of its top left, ``width`` and ``height``."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        return self.x + self.width

    @property
    def bottom(self) -> float:
        return self.y + self.height

    @property
    def middle(self) -> tuple[float, float]:
        return (self.x + self.width / 2, self.y + self.height / 2)

    def grown(self, by: float) -> Box:
        """The box with ``by`` more on every side, or less where that is negative."""
        return Box(self.x - by, self.y - by, self.width + 2 * by, self.height + 2 * by)


class Stored(Protocol):
    """Bytes that lie somewhere, to be read when they are wanted; ``size`` says how many."""

    @property
    def size(self) -> int: ...

    def read(self) -> bytes: ...


def read_stored(stored: bytes | Stored) -> bytes:
    """The bytes themselves, read anew each time where they are not held."""
    return stored if isinstance(stored, bytes) else stored.read()


@dataclass(frozen=True, slots=True)
class Picture:
    """Art, upright and safe to print.

    ``width`` and ``height`` are those a viewer shows (pixels, or SVG user units); ``trim`` is the
    part that is not blank border, in fractions (0 to 1) of them. ``stored`` holds ``data``, or says
    where it lies: a book of photographs is larger than what should be kept in memory. ``data`` is a
    screened SVG (``format`` "svg"), a JPEG without metadata ("jpeg"; its pixels lie as
    ``orientation``, the EXIF value 1 to 8, says) or a PNG ("png"; grey or RGB, upright, no alpha,
    not interlaced).
    ``digest`` is the SHA-256 of ``data`` in hexadecimal. ``notes`` are warnings in words, each
    of which goes on after "the art".

    ``pdf`` is SVG art drawn as a PDF of one vector page that is exactly the picture, its longer
    side ``PDF_SIDE`` points long: cairo rounds to 1/256 point, so that a fixed number of points
    to a user unit would ruin art drawn in small units. ``colours`` is the number of a raster's
    channels (1 grey, 3 RGB, 4 CMYK), ``inverted`` says that its CMYK values count from white
    (Adobe's habit), and ``icc`` is a JPEG's own colour profile, or nothing for sRGB. ``cover`` is
    the part of it that ink covers, 0 to 1, where that has been measured. ``glance`` is a small
    upright JPEG of a large one that prints as it is: who looks at it need not decode it again.
    """

    format: Format
    width: float
    height: float
    trim: Box
    stored: bytes | Stored
    digest: str
    orientation: int = 1
    notes: tuple[str, ...] = ()
    pdf: bytes = b""
    colours: int = 3
    inverted: bool = False
    icc: bytes = b""
    cover: float = 0.0
    glance: bytes = b""

    @property
    def data(self) -> bytes:
        return read_stored(self.stored)
