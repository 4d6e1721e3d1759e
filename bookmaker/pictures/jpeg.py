"""JPEG as it is: its markers read, its metadata left out, its coded picture untouched.

Marker codes and the form of the segments are those of ITU-T T.81, Annex B.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

from bookmaker.pictures.limits import FETCH_AGAIN, Unfit
from bookmaker.pictures.stored import Part, joined, put_together

SOI, EOI, SOS, COM, APP0, APP1, APP2, APP14, APP15 = (
    *(0xD8, 0xD9, 0xDA, 0xFE),
    *(0xE0, 0xE1, 0xE2, 0xEE, 0xEF),
)
FRAMES = {code for code in range(0xC0, 0xD0) if code not in (0xC4, 0xC8, 0xCC)}
PRINTABLE_FRAMES = {0xC0, 0xC1, 0xC2}
"""Baseline, extended and progressive Huffman: what a PDF's DCTDecode must read."""

_MARKER = re.compile(rb"\xff([\x01-\xfe])", re.DOTALL)
_MARKER_IN_SCAN = re.compile(rb"\xff([\x01-\xcf\xd8-\xfe])", re.DOTALL)
_ICC = b"ICC_PROFILE\0"
_EXIF = b"Exif\0\0"
_BYTE_ORDERS: Final[Mapping[bytes, Literal["little", "big"]]] = {
    b"II*\0": "little",
    b"MM\0*": "big",
}
_ORIENTATION = 274
_LARGEST_PROFILE = 4_000_000
_PROFILE_SPACES = {1: b"GRAY", 3: b"RGB ", 4: b"CMYK"}


@dataclass(frozen=True, slots=True)
class CleanJpeg:
    """A JPEG without metadata.

    ``width`` and ``height`` are in pixels as coded, before ``orientation`` (EXIF, 1 to 8) turns
    them. ``frame`` is the code of its frame marker, ``bits`` the bits of a sample. ``adobe`` is
    the colour transform of Adobe's mark, None without one. ``parts`` says where in the file
    that was cleaned the bytes of ``data`` lie.
    """

    data: bytes
    parts: tuple[Part, ...]
    width: int
    height: int
    colours: int
    bits: int
    frame: int
    orientation: int
    adobe: int | None
    icc: bytes
    component_ids: bytes

    @property
    def prints_as_it_is(self) -> bool:
        """Whether every PDF reader decodes it, and to the colours that are meant."""
        bare_rgb = self.adobe is None and self.component_ids == b"RGB"
        at_odds = self.colours == 3 and self.adobe == 0 and self.data[2:4] == b"\xff\xe0"  # JFIF
        return (
            self.frame in PRINTABLE_FRAMES
            and self.bits == 8
            and self.colours in _PROFILE_SPACES
            and not bare_rgb
            and not at_odds
        )


@dataclass(slots=True)
class _Reading:
    """What has been met so far on the way through the file."""

    kept: list[Part] = field(default_factory=lambda: [(0, 2)])
    frame: tuple[int, bytes] | None = None
    exif: bytes | None = None
    adobe: bytes | None = None
    profile: dict[int, bytes] = field(default_factory=dict)
    profile_parts: int = 0


def clean(data: bytes) -> CleanJpeg:
    """Leave out all but the picture itself.

    Dropped are comments, all application segments but JFIF's (without its thumbnail) and
    Adobe's, and whatever lies between segments or after the end-of-image marker. The colour
    profile and EXIF's orientation are lifted out. Raises Unfit for a file that is cut off or
    has no frame.
    """
    reading = _Reading()
    at = 2
    while True:
        found = _MARKER.search(data, at)
        if found is None:
            raise _cut_off()
        code = found[1][0]
        if code == EOI:
            reading.kept.append(found.span())
            break
        if code in (SOI, 0x01) or 0xD0 <= code <= 0xD7:
            at = found.end()
            continue
        at = _segment(data, found.start(), found.end(), code, reading)
    return _result(reading, data)


def _segment(data: bytes, start: int, after: int, code: int, reading: _Reading) -> int:
    """Read the segment at ``start``, keep it or not, and tell where the next one begins."""
    end = after + int.from_bytes(data[after : after + 2], "big")
    if end > len(data) or end < after + 2:
        raise _cut_off()
    body = data[after + 2 : end]
    if code == SOS:
        following = _MARKER_IN_SCAN.search(data, end)
        if following is None:
            raise _cut_off()
        end = following.start()
        reading.kept.append((start, end))
    elif APP0 <= code <= APP15:
        _application(code, body, (start, end), reading)
    elif code != COM and not 0xF0 <= code <= 0xFD:
        if code in FRAMES and reading.frame is None:
            reading.frame = (code, body)
        reading.kept.append((start, end))
    return end


def _application(code: int, body: bytes, segment: Part, reading: _Reading) -> None:
    if code == APP0 and body.startswith(b"JFIF\0") and len(body) >= 14:
        plain = body[12:14] == b"\0\0" and len(body) == 14
        without_thumbnail = b"\xff\xe0\0\x10" + body[:12] + b"\0\0"
        reading.kept.append(segment if plain else without_thumbnail)
    elif code == APP1 and body.startswith(_EXIF) and reading.exif is None:
        reading.exif = body[len(_EXIF) :]
    elif code == APP2 and body.startswith(_ICC) and len(body) > 14:
        reading.profile[body[12]] = body[14:]
        reading.profile_parts = body[13]
    elif code == APP14 and body.startswith(b"Adobe") and len(body) >= 12 and not reading.adobe:
        reading.adobe = body[:12]
        reading.kept.append(b"\xff\xee\0\x0e" + body[:12])


def _result(reading: _Reading, data: bytes) -> CleanJpeg:
    if reading.frame is None or len(reading.frame[1]) < 6:
        raise Unfit("is damaged: it holds no picture", FETCH_AGAIN)
    code, body = reading.frame
    colours = body[5]
    parts = joined(reading.kept)
    return CleanJpeg(
        data=put_together(parts, data),
        parts=parts,
        width=int.from_bytes(body[3:5], "big"),
        height=int.from_bytes(body[1:3], "big"),
        colours=colours,
        bits=body[0],
        frame=code,
        orientation=orientation(reading.exif or b""),
        adobe=reading.adobe[11] if reading.adobe else None,
        icc=_profile(reading, colours),
        component_ids=body[6 : 6 + 3 * colours : 3],
    )


def _profile(reading: _Reading, colours: int) -> bytes:
    """The colour profile, where all its parts are there and it speaks of these colours."""
    numbers = range(1, reading.profile_parts + 1)
    if not all(number in reading.profile for number in numbers):
        return b""
    profile = b"".join(reading.profile[number] for number in numbers)
    fits = profile[16:20] == _PROFILE_SPACES.get(colours) and profile[36:40] == b"acsp"
    return profile if fits and len(profile) <= _LARGEST_PROFILE else b""


def orientation(exif: bytes) -> int:
    """The orientation tag (274) of an EXIF block's first directory, 1 where there is none.

    ``exif`` starts with its TIFF header (TIFF 6.0, section 2; JEITA CP-3451 for the tag).
    """
    order = _BYTE_ORDERS.get(exif[:4])
    if order is None:
        return 1
    directory = int.from_bytes(exif[4:8], order)
    entries = int.from_bytes(exif[directory : directory + 2], order)
    for entry in range(min(entries, 1000)):
        at = directory + 2 + 12 * entry
        if int.from_bytes(exif[at : at + 2], order) == _ORIENTATION:
            value = int.from_bytes(exif[at + 8 : at + 10], order)
            return value if 1 <= value <= 8 else 1
    return 1


def _cut_off() -> Unfit:
    return Unfit("is cut off before its end", FETCH_AGAIN)
