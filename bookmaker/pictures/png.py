"""PNG as it is: its deflated samples can go into a PDF without being touched.

Chunks and filters are those of ISO/IEC 15948 (W3C PNG, third edition); a PDF's /Predictor 15
is the same five filters (ISO 32000-1, 7.4.4.4).
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from bookmaker.model import Picture
from bookmaker.pictures.limits import FETCH_AGAIN, Unfit

SIGNATURE = b"\x89PNG\r\n\x1a\n"
_COLOURS = {0: 1, 2: 3}
_AT_ONCE = 1 << 20


class PngStream(NamedTuple):
    """Samples for a PDF image: /FlateDecode with /Predictor 15, ``bits`` of each colour."""

    data: bytes
    colours: int
    bits: int


@dataclass(frozen=True, slots=True)
class PngFacts:
    """What a PNG's chunks say; sizes in pixels."""

    width: int
    height: int
    bits: int
    colour_type: int
    interlaced: bool
    chunks: frozenset[bytes]

    @property
    def plain(self) -> bool:
        """Grey or RGB of at most 8 bits, opaque, in sRGB or thereabouts, upright."""
        plain_samples = self.colour_type in _COLOURS and self.bits <= 8 and not self.interlaced
        return plain_samples and not self.chunks & {b"tRNS", b"iCCP", b"eXIf"}


def png_stream(picture: Picture) -> PngStream:
    """The deflated samples of a picture of format "png", as a PDF takes them."""
    facts = read(picture.data)
    return PngStream(_samples(picture.data), _COLOURS[facts.colour_type], facts.bits)


def read(data: bytes) -> PngFacts:
    """The facts of a PNG file; raises Unfit where its chunks break off."""
    header = data[16:29]
    if data[12:16] != b"IHDR" or len(header) < 13:
        raise Unfit("is damaged: it starts like a PNG and goes on otherwise", FETCH_AGAIN)
    width, height, bits, colour_type, _, _, interlace = struct.unpack(">IIBBBBB", header)
    names = frozenset(name for name, _ in _chunks(data))
    if b"IEND" not in names:
        raise Unfit("is cut off before its end", FETCH_AGAIN)
    return PngFacts(width, height, bits, colour_type, interlace != 0, names)


def lift(data: bytes, facts: PngFacts) -> bytes | None:
    """The same samples in a PNG that holds nothing else, or None where they must be redrawn.

    What stands in the file beside the samples (text, time, EXIF, data after the end of the
    deflated stream) is left behind.
    """
    if not facts.plain:
        return None
    samples = _samples(data)
    row = 1 + -(-facts.width * facts.bits * _COLOURS[facts.colour_type] // 8)
    rest = _left_over(samples, row * facts.height)
    if rest is None:
        return None
    kept = samples[: len(samples) - rest]
    pieces = ((b"IHDR", data[16:29]), (b"IDAT", kept), (b"IEND", b""))
    return SIGNATURE + b"".join(_chunk(name, body) for name, body in pieces)


def _samples(data: bytes) -> bytes:
    return b"".join(body for name, body in _chunks(data) if name == b"IDAT")


def _chunks(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    at = len(SIGNATURE)
    while at + 12 <= len(data):
        length = int.from_bytes(data[at : at + 4], "big")
        if at + 12 + length > len(data):
            return
        name = data[at + 4 : at + 8]
        yield name, data[at + 8 : at + 8 + length]
        if name == b"IEND":
            return
        at += 12 + length


def _chunk(name: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))


def _left_over(samples: bytes, expected: int) -> int | None:
    """How many bytes lie behind the deflated stream; None unless it holds ``expected`` bytes."""
    stream, length, rest = zlib.decompressobj(), 0, samples
    try:
        while not stream.eof and length <= expected:
            piece = stream.decompress(rest, _AT_ONCE)
            rest = stream.unconsumed_tail
            length += len(piece)
            if not piece and not rest:
                break
    except zlib.error:
        return None
    return len(stream.unused_data) if stream.eof and length == expected else None
