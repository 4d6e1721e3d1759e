"""Files are known by their first bytes."""

from __future__ import annotations

import pytest

from bookmaker.pictures.kinds import kind_of
from bookmaker.pictures.limits import Unfit

FIRST_BYTES = [
    (b"\xff\xd8\xff\xe0\0\x10JFIF", "jpeg", "ITU-T T.81, B.1.1.3: SOI is FFD8"),
    (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "png", "ISO/IEC 15948, 5.2"),
    (b"GIF89a\1\0\1\0", "gif", "GIF89a specification, 17"),
    (b"GIF87a\1\0\1\0", "gif", "GIF87 specification"),
    (b"RIFF\0\0\0\0WEBPVP8 ", "webp", "RFC 9649, 2.4"),
    (b"II*\0\x08\0\0\0", "tiff", "TIFF 6.0, section 2"),
    (b"MM\0*\0\0\0\x08", "tiff", "TIFF 6.0, section 2"),
    (b"BM\0\0\0\0\0\0", "bmp", "common practice, no source"),
    (b"\0\0\0\x18ftypheic\0\0\0\0mif1heic", "heif", "ISO/IEC 23008-12, annex B"),
    (b"\0\0\0\x18ftypmif1\0\0\0\0mif1heic", "heif", "ISO/IEC 23008-12, 10.2"),
    (b"\0\0\0\x1cftypmif1\0\0\0\0avifmif1", "avif", "AV1 Image File Format, 6"),
    (b"\x1f\x8b\x08\0", "svg", "RFC 1952, 2.3.1; SVG 2, appendix on media types"),
    (b'<svg xmlns="http://www.w3.org/2000/svg"/>', "svg", "SVG 2, 1.1"),
    (b"\xef\xbb\xbf\n <?xml version='1.0'?>\n<!-- a newt -->\n<svg/>", "svg", "XML 1.0, F"),
    ('<?xml version="1.0" encoding="UTF-16"?><svg/>'.encode("utf-16"), "svg", "XML 1.0, F"),
    (b"<s:svg xmlns:s='http://www.w3.org/2000/svg'/>", "svg", "XML Namespaces 1.0, 2"),
]

STRANGERS = [
    (b"", "is empty"),
    (b"A newt lives in the pond.\n", "holds text"),
    ("Die Kröte".encode() * 3000, "holds text"),
    (b"\x01\x02\x03\x04" * 20, "no kind of picture"),
    (b"%PDF-1.7\n", "is a PDF"),
    (b"PK\x03\x04", "zip archive"),
    (b"8BPS\0\1", "Photoshop"),
    (b"<!DOCTYPE html><html><body><p>A newt</p></body></html>", "is a web page"),
    (b"<?xml version='1.0'?><book/>", "without an svg element"),
    (b"\0\0\0\x14ftypisom\0\0\0\0isom", "is a film"),
]


@pytest.mark.parametrize(("data", "kind", "source"), FIRST_BYTES)
def test_first_bytes_tell_the_kind(data: bytes, kind: str, source: str) -> None:
    assert kind_of(data) == kind, source


@pytest.mark.parametrize(("data", "reason"), STRANGERS)
def test_what_is_no_picture_is_named(data: bytes, reason: str) -> None:
    with pytest.raises(Unfit) as refused:
        kind_of(data)
    assert reason in refused.value.reason
    assert refused.value.mend.endswith(".")
