"""Pictures that stay in their files: where in them the bytes to be printed lie."""

from __future__ import annotations

import os
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from bookmaker.model import InputProblems, Problem

Part = bytes | tuple[int, int]
"""Bytes of our own, or where bytes of a file begin and end."""
Stamp = tuple[int, int]
"""A file's size in bytes and when it was changed, in nanoseconds: another stamp, another file."""


@dataclass(frozen=True, slots=True)
class Opened:
    """A file that was read: all of its ``data``, and its stamp at that time."""

    path: Path
    stamp: Stamp
    data: bytes

    def lying(self, parts: Iterable[Part]) -> InFile:
        return InFile(self.path, self.stamp, tuple(parts))


@dataclass(frozen=True, slots=True)
class InFile:
    """Bytes put together from parts, most of which lie in a file that is not held in memory."""

    path: Path
    stamp: Stamp
    parts: tuple[Part, ...]

    @property
    def size(self) -> int:
        return sum(_length(part) for part in self.parts)

    def read(self) -> bytes:
        """The bytes; raises InputProblems where the file is no longer what it was."""
        try:
            with self.path.open("rb") as file:
                if stamp_of(file.fileno()) != self.stamp:
                    raise self._changed()
                pieces = []
                for part in self.parts:
                    if isinstance(part, tuple):
                        file.seek(part[0])
                        part = file.read(part[1] - part[0])
                    pieces.append(part)
        except OSError as error:
            raise self._changed() from error
        return b"".join(pieces)

    def _changed(self) -> InputProblems:
        message = "the picture was changed or taken away while the book was being made"
        mend = "Leave it as it is and do the same again."
        return InputProblems([Problem(self.path.name, 0, "", "art-unreadable", message, mend)])


def stamp_of(file: int) -> Stamp:
    """The stamp of a file by the number that it is open under."""
    known = os.fstat(file)
    return known.st_size, known.st_mtime_ns


def put_together(parts: Iterable[Part], data: bytes) -> bytes:
    """``parts`` as bytes, ``data`` being the whole file."""
    return b"".join(part if isinstance(part, bytes) else data[slice(*part)] for part in parts)


def joined(parts: Iterable[Part]) -> tuple[Part, ...]:
    """The same with neighbours in one piece: own bytes, and places that follow on each other."""
    found: list[Part] = []
    for part in parts:
        last = found[-1] if found else None
        if isinstance(part, bytes) and isinstance(last, bytes):
            found[-1] = last + part
        elif isinstance(part, tuple) and isinstance(last, tuple) and last[1] == part[0]:
            found[-1] = (last[0], part[1])
        else:
            found.append(part)
    return tuple(found)


def _length(part: Part) -> int:
    return len(part) if isinstance(part, bytes) else part[1] - part[0]
