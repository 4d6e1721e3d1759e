"""Pictures as bytes and back: for the cache, and for the way home from the worker."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from dataclasses import replace
from itertools import accumulate, pairwise
from typing import Any, get_args

from bookmaker.cache import Cache
from bookmaker.model import Box, Format, Picture
from bookmaker.pictures.stored import InFile, Opened, Part


def pack(picture: Picture) -> bytes:
    """A line of JSON, then what is held of ``data``, and ``pdf``, ``icc`` and ``glance``.

    Of a picture that lies in its file only the places there are packed, not the bytes.
    """
    stored = picture.stored
    parts = stored.parts if isinstance(stored, InFile) else (picture.data,)
    held = b"".join(part for part in parts if isinstance(part, bytes))
    blobs = (held, picture.pdf, picture.icc, picture.glance)
    head = {
        "format": picture.format,
        "size": [picture.width, picture.height],
        "trim": [picture.trim.x, picture.trim.y, picture.trim.width, picture.trim.height],
        "orientation": picture.orientation,
        "notes": list(picture.notes),
        "colours": picture.colours,
        "inverted": picture.inverted,
        "parts": [len(part) if isinstance(part, bytes) else part for part in parts],
        "digest": picture.digest,
        "lengths": [len(each) for each in blobs],
    }
    line = json.dumps(head).encode() + b"\n"
    return line + b"".join(blobs)


def unpack(packed: bytes, file: Opened | None = None) -> Picture:
    """The picture that ``pack`` wrote; ``file`` is the one in which it lies, where it does.

    Raises ValueError, KeyError or TypeError for anything else.
    """
    line, _, blobs = packed.partition(b"\n")
    head = json.loads(line)
    ends = list(accumulate(head["lengths"]))
    if len(ends) != 4 or len(blobs) != ends[-1]:
        raise ValueError("a packed picture of the wrong length")
    held, pdf, icc, glance = (blobs[a:b] for a, b in pairwise((0, *ends)))
    return replace(
        _bare(head, held, file),
        trim=Box(*head["trim"]),
        orientation=head["orientation"],
        notes=tuple(head["notes"]),
        colours=head["colours"],
        inverted=head["inverted"],
        pdf=pdf,
        icc=icc,
        glance=glance,
    )


def recall(cache: Cache, key: str, file: Opened | None = None) -> Picture | None:
    """The picture that was packed under ``key``; None also where it was packed in another way."""
    packed = cache.get(key)
    try:
        return None if packed is None else unpack(packed, file)
    except (ValueError, KeyError, TypeError):
        return None


def _bare(head: dict[str, Any], held: bytes, file: Opened | None) -> Picture:
    form, (width, height), sizes = head["format"], head["size"], head["parts"]
    if form not in get_args(Format):
        raise ValueError(f"no such format: {form}")
    if all(isinstance(size, int) for size in sizes):
        return make(form, width, height, held)
    if file is None:
        raise ValueError("a packed picture without the file that it lies in")
    parts = tuple(_parts(sizes, held))
    return replace(make(form, width, height, b""), stored=file.lying(parts), digest=head["digest"])


def _parts(sizes: Iterable[Any], held: bytes) -> Iterable[Part]:
    at = 0
    for size in sizes:
        if isinstance(size, int):
            yield held[at : at + size]
            at += size
        else:
            start, end = size
            yield (int(start), int(end))


def make(form: Format, width: float, height: float, data: bytes) -> Picture:
    """A picture that is all art, no border, with its digest."""
    return Picture(form, width, height, Box(0.0, 0.0, 1.0, 1.0), data, digest_of(data))


def digest_of(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
