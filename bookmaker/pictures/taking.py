"""Art files in, pictures or faults out; what was learnt is kept in the cache."""

from __future__ import annotations

import os
import threading
import warnings
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from dataclasses import dataclass, field
from pathlib import Path
from queue import LifoQueue

from bookmaker.cache import Cache
from bookmaker.model import Picture
from bookmaker.pictures.kinds import Kind, kind_of
from bookmaker.pictures.limits import Limits, PictureFault, Unfit
from bookmaker.pictures.packing import digest_of, pack, recall
from bookmaker.pictures.stored import Opened, stamp_of
from bookmaker.pictures.workroom import Workroom

_AT_ONCE = 4
"""JPEGs looked at, and SVGs drawn, side by side: little memory, and all of the processors."""

VERSION = 6
"""Raised whenever the same bytes are to give another picture."""


def take_in(
    paths: Iterable[Path], *, cache: Cache, limits: Limits | None = None
) -> dict[Path, Picture | PictureFault]:
    """Take in each art file once; a file that can't be printed gives its fault.

    SVG art is screened and drawn in child processes under ``limits``; one for each processor draws
    what the cache does not know, and none is started where there is nothing to draw.
    Raises RendererMissing where SVG art is to be drawn and cairo is not installed.
    """
    limits = limits or Limits()
    wanted = sorted(set(paths))
    with ExitStack() as open_rooms, warnings.catch_warnings():
        warnings.simplefilter("ignore")  # what decoders say of strangers' files is no one's news
        rooms: LifoQueue[Workroom] = LifoQueue()  # one that has been used is ready at once
        for _ in range(min(os.cpu_count() or 1, _AT_ONCE)):
            rooms.put(open_rooms.enter_context(Workroom(limits)))
        taking = _Taking(cache, limits, rooms)
        with ThreadPoolExecutor(_AT_ONCE) as pool:
            return dict(zip(wanted, pool.map(taking.take, wanted), strict=True))


@dataclass(frozen=True, slots=True)
class _Taking:
    """Everything that taking in one file needs."""

    cache: Cache
    limits: Limits
    rooms: LifoQueue[Workroom]
    alone: threading.Lock = field(default_factory=threading.Lock)

    def take(self, path: Path) -> Picture | PictureFault:
        try:
            return self._picture(_read(path, self.limits))
        except Unfit as unfit:
            return unfit.fault(path.name)

    def _picture(self, file: Opened) -> Picture:
        kind = kind_of(file.data)
        digest = digest_of(file.data)
        key = f"picture {VERSION} {self.limits} {digest}"
        known = recall(self.cache, key, file)
        if known is not None:
            return known
        picture = self._drawn(file.data) if kind == "svg" else self._decoded(file, kind)
        self.cache.put(key, pack(picture))
        return picture

    def _drawn(self, data: bytes) -> Picture:
        room = self.rooms.get()
        try:
            return room.draw(data)
        finally:
            self.rooms.put(room)

    def _decoded(self, file: Opened, kind: Kind) -> Picture:
        from bookmaker.pictures.raster import take_raster

        if kind == "jpeg":
            return take_raster(file, kind, self.limits)
        with self.alone:  # memory for one large picture
            return take_raster(file, kind, self.limits)


def _read(path: Path, limits: Limits) -> Opened:
    """A file and its bytes; raises Unfit where there is none, or it is none to be read."""
    try:
        if not path.exists():
            raise Unfit(
                "does not exist",
                "Put the file there, or mend the name after art (capitals count).",
                "art-missing",
            )
        if not path.is_file():
            what = "is a folder" if path.is_dir() else "is no ordinary file"
            raise Unfit(what + ", not a picture", "Name a picture file inside it.")
        size = path.stat().st_size
        if size > limits.file_bytes:
            raise Unfit(
                f"is {size / 1e6:,.0f} MB, more than the {limits.file_bytes / 1e6:,.0f} allowed",
                "Scale it down to 5,000 pixels along its longer side and save it as JPEG.",
                "art-too-large",
            )
        with path.open("rb") as file:
            return Opened(path, stamp_of(file.fileno()), file.read())
    except PermissionError:
        raise Unfit("may not be read", "Give yourself permission to read it.") from None
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise Unfit(f"can't be read ({why})", "Check the disk and the file's name.") from error
