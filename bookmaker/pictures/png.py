"""PNG as it is: its deflated samples can go into a PDF without being touched.

Chunks and filters are those of ISO/IEC 15948 (W3C PNG, third edition); a PDF's /Predictor 15
is the same five filters (ISO 32000-1, 7.4.4.4).
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from bookmaker.model import Picture, Stored, read_stored
from bookmaker.pictures.limits import FETCH_AGAIN, Unfit
from bookmaker.pictures.stored import InFile, Part

SIGNATURE = b"\x89PNG\r\n\x1a\n"
_COLOURS = {0: 1, 2: 3}
_AT_ONCE = 1 << 20
_BITS_AT = 24
"""Where in a PNG the number of bits of a sample stands."""


@dataclass(frozen=True, slots=True)
class PngStream:
    """Samples for a PDF image: /FlateDecode with /Predictor 15, ``bits`` of each colour."""

    stored: bytes | Stored
    colours: int
    bits: int

    @property
    def data(self) -> bytes:
        return read_stored(self.stored)


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
    stored = picture.stored
    if isinstance(stored, InFile):  # as ``lift`` puts it together: a head, the samples, a tail
        head, *samples, _ = stored.parts
        assert isinstance(head, bytes)
        return PngStream(replace(stored, parts=tuple(samples)), picture.colours, head[_BITS_AT])
    data = picture.data
    return PngStream(_samples(data), picture.colours, data[_BITS_AT])


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


def lift(data: bytes, facts: PngFacts) -> tuple[Part, ...] | None:
    """The parts of a PNG that holds the same samples and nothing else; None where they must be
    redrawn.

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
    check = struct.pack(">I", zlib.crc32(kept, zlib.crc32(b"IDAT")))
    head = SIGNATURE + chunk(b"IHDR", data[16:29]) + struct.pack(">I", len(kept)) + b"IDAT"
    places = (span for name, span in _spans(data) if name == b"IDAT")
    return (head, *_first(len(kept), places), check + chunk(b"IEND", b""))


def _samples(data: bytes) -> bytes:
    return b"".join(body for name, body in _chunks(data) if name == b"IDAT")


def _first(count: int, places: Iterable[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """Where the first ``count`` bytes of ``places`` lie."""
    for start, end in places:
        end = min(end, start + count)
        if end > start:
            yield start, end
        count -= end - start


def _chunks(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    return ((name, data[start:end]) for name, (start, end) in _spans(data))


def _spans(data: bytes) -> Iterator[tuple[bytes, tuple[int, int]]]:
    """The name of each chunk, and where its body begins and ends."""
    at = len(SIGNATURE)
    while at + 12 <= len(data):
        length = int.from_bytes(data[at : at + 4], "big")
        if at + 12 + length > len(data):
            return
        name = data[at + 4 : at + 8]
        yield name, (at + 8, at + 8 + length)
        if name == b"IEND":
            return
        at += 12 + length


def chunk(name: bytes, body: bytes) -> bytes:
    """A chunk with its length before it and its check behind it (5.3)."""
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
