"""A finished PDF as pieces, the pictures' own bytes read from their files when their turn comes.

A book of photographs is far larger than what should stand in memory. So everything but the
rasters is one file, made by the libraries, with a placeholder for each raster; the rasters follow
it as an update of that file (ISO 32000-1, 7.5.6): each placeholder's object once more, now as the
image that it stands for, and a cross-reference table that leads to them.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from pikepdf import Dictionary, Object, Pdf

from bookmaker.model import Stored, read_stored

Piece = bytes | Stored


@dataclass(frozen=True, slots=True)
class Raster:
    """An image's bytes, and what is to be said of it (ISO 32000-1, 8.9.5) but its colour space."""

    stored: Piece
    facts: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Pressed:
    """The bytes of a PDF, one piece after the other."""

    pieces: tuple[Piece, ...]

    def __iter__(self) -> Iterator[bytes]:
        for piece in self.pieces:
            data = read_stored(piece)
            if len(data) != _size(piece):
                raise RuntimeError("a picture was not made again as it was")
            yield data

    def __bytes__(self) -> bytes:
        return b"".join(self)


def with_rasters(file: bytes, rasters: Mapping[str, Raster]) -> Pressed:
    """``file`` with its rasters, whose placeholders stand on its pages under these names."""
    if not rasters:
        return Pressed((file,))
    with Pdf.open(io.BytesIO(file)) as pdf:
        update = _Update(file)
        for name, placeholder in sorted(_placeholders(pdf, rasters).items()):
            update.add(placeholder, rasters[name])
        update.close(pdf.trailer)
    return Pressed(tuple(update.pieces))


def _placeholders(pdf: Pdf, names: Mapping[str, Raster]) -> dict[str, Object]:
    found: dict[str, Object] = {}
    for page in pdf.pages:
        objects = page.obj.Resources.get("/XObject", Dictionary())
        found.update((name, objects[name]) for name in objects.keys() & names.keys() - found.keys())
        if len(found) == len(names):
            break
    return found


class _Update:
    """The pieces of a file and of the update behind it, and where in them objects begin."""

    def __init__(self, file: bytes) -> None:
        self.pieces: list[Piece] = [file]
        self._length = len(file)
        self._before = file[file.rindex(b"startxref") :].split()[1]
        self._places: list[tuple[int, int]] = []

    def add(self, placeholder: Object, raster: Raster) -> None:
        number, _ = placeholder.objgen
        self._places.append((number, self._length))
        rest = {"/ColorSpace": placeholder.ColorSpace, "/Length": _size(raster.stored)}
        facts = Dictionary({**raster.facts, **rest}).unparse()
        self._append(b"%d 0 obj\n%s\nstream\n" % (number, facts))
        self._append(raster.stored)
        self._append(b"\nendstream\nendobj\n")

    def close(self, trailer: Object) -> None:
        """The table of what was added (7.5.4) and the trailer that leads to the one before."""
        kept = {key: trailer[key] for key in ("/Size", "/Root", "/Info", "/ID")}
        facts = Dictionary(kept).unparse().removesuffix(b">>")  # the file's id may be any bytes
        rows = b"".join(b"%d 1\n%010d 00000 n \n" % place for place in sorted(self._places))
        table = b"xref\n%strailer %s/Prev %s >>\n" % (rows, facts, self._before)
        self._append(b"%sstartxref\n%d\n%%%%EOF\n" % (table, self._length))

    def _append(self, piece: Piece) -> None:
        self.pieces.append(piece)
        self._length += _size(piece)


def _size(piece: Piece) -> int:
    return len(piece) if isinstance(piece, bytes) else piece.size
