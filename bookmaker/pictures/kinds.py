"""What a file is, told by its first bytes and never by its name."""

from __future__ import annotations

from typing import Literal

from bookmaker.pictures.limits import FETCH_AGAIN, SAVE_AGAIN, Unfit

Kind = Literal["svg", "jpeg", "png", "gif", "webp", "tiff", "bmp", "heif", "avif"]

_STARTS: tuple[tuple[bytes, Kind], ...] = (
    (b"\xff\xd8\xff", "jpeg"),
    (b"\x89PNG\r\n\x1a\n", "png"),
    (b"GIF87a", "gif"),
    (b"GIF89a", "gif"),
    (b"II*\0", "tiff"),
    (b"MM\0*", "tiff"),
    (b"BM", "bmp"),
    (b"\x1f\x8b", "svg"),
)
_HEIF = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"hevm", b"hevs", b"mif1", b"msf1"}
_AVIF = {b"avif", b"avis"}
_STRANGERS = (
    (b"%PDF", "is a PDF"),
    (b"%!PS", "is a PostScript file"),
    (b"8BPS", "is a layered Photoshop file"),
    (b"PK\x03\x04", "is a zip archive (or an office document)"),
    (b"\0\0\1\0", "is an icon"),
)


def kind_of(data: bytes) -> Kind:
    """The kind of picture that ``data`` is; raises Unfit where it is none that we read."""
    if not data:
        raise Unfit("is empty (0 bytes)", FETCH_AGAIN)
    for start, kind in _STARTS:
        if data.startswith(start):
            return kind
    if data.startswith(b"RIFF") and data[8:12] == b"WEBP":
        return "webp"
    if data[4:8] == b"ftyp":
        return _film_or_still(data)
    if _opening_tag(data):
        return _markup(data)
    raise Unfit(_stranger(data), SAVE_AGAIN)


def _film_or_still(data: bytes) -> Kind:
    """The kind of an ISO media file (ISO/IEC 14496-12: the box "ftyp" lists its brands)."""
    size = min(int.from_bytes(data[:4], "big"), 256)
    brands = {data[8:12], *(data[at : at + 4] for at in range(16, size, 4))}
    if brands & _AVIF:
        return "avif"
    if brands & _HEIF:
        return "heif"
    raise Unfit("is a film or a sound, not a picture", "Save one still of it as JPEG.")


def _opening_tag(data: bytes) -> bool:
    start = data[:64].lstrip(b"\xef\xbb\xbf\xff\xfe\0 \t\r\n")
    return start.startswith(b"<")


def _markup(data: bytes) -> Kind:
    head = data[:100_000].replace(b"\0", b"").lower()
    if b"<svg" in head or b":svg" in head:
        return "svg"
    if b"<html" in head or b"<!doctype html" in head:
        raise Unfit(
            "is a web page, not a picture",
            "Save the picture on that page itself (right click, save image).",
        )
    raise Unfit("is an XML file without an svg element", SAVE_AGAIN)


def _stranger(data: bytes) -> str:
    for start, words in _STRANGERS:
        if data.startswith(start):
            return words + ", not a picture"
    try:
        text = data[:4096].decode("utf-8", errors="strict" if len(data) <= 4096 else "ignore")
    except UnicodeDecodeError:
        return "is no kind of picture that can be read"
    printable = all(character.isprintable() or character.isspace() for character in text)
    return "holds text, not a picture" if printable else "is no kind of picture that can be read"
