"""Pictures as bytes and back: for the cache, and for the way home from the worker."""

from __future__ import annotations

import hashlib
import json
from dataclasses import replace

from bookmaker.model import Box, Picture


def pack(picture: Picture) -> bytes:
    """A line of JSON, then ``data``, ``pdf`` and ``icc`` one after the other."""
    head = {
        "format": picture.format,
        "size": [picture.width, picture.height],
        "trim": [picture.trim.x, picture.trim.y, picture.trim.width, picture.trim.height],
        "orientation": picture.orientation,
        "notes": list(picture.notes),
        "colours": picture.colours,
        "inverted": picture.inverted,
        "lengths": [len(picture.data), len(picture.pdf), len(picture.icc)],
    }
    line = json.dumps(head).encode() + b"\n"
    return line + picture.data + picture.pdf + picture.icc


def unpack(packed: bytes) -> Picture:
    """The picture that ``pack`` wrote; raises ValueError or KeyError for anything else."""
    line, _, blobs = packed.partition(b"\n")
    head = json.loads(line)
    first, second, third = head["lengths"]
    if len(blobs) != first + second + third:
        raise ValueError("a packed picture of the wrong length")
    data = blobs[:first]
    bare = make(head["format"], head["size"][0], head["size"][1], data)
    return replace(
        bare,
        trim=Box(*head["trim"]),
        orientation=head["orientation"],
        notes=tuple(head["notes"]),
        colours=head["colours"],
        inverted=head["inverted"],
        pdf=blobs[first : first + second],
        icc=blobs[first + second :],
    )


def make(form: str, width: float, height: float, data: bytes) -> Picture:
    """A picture that is all art, no border, with its digest."""
    if form not in ("svg", "jpeg", "png"):
        raise ValueError(f"no such format: {form}")
    whole = Box(0.0, 0.0, 1.0, 1.0)
    digest = hashlib.sha256(data).hexdigest()
    return Picture(form, width, height, whole, data, digest)  # type: ignore[arg-type]
