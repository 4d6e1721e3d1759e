"""Art files in, pictures or faults out; what was learnt is kept in the cache."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from bookmaker.cache import Cache
from bookmaker.model import Picture
from bookmaker.pictures.kinds import kind_of
from bookmaker.pictures.limits import Limits, PictureFault, Unfit
from bookmaker.pictures.packing import pack, unpack
from bookmaker.pictures.workroom import Workroom

VERSION = 1
"""Raised whenever the same bytes are to give another picture."""


def take_in(
    paths: Iterable[Path], *, cache: Cache, limits: Limits | None = None, fonts: Path | None = None
) -> dict[Path, Picture | PictureFault]:
    """Take in each art file once; a file that can't be printed gives its fault.

    SVG art is screened and drawn in a child process under ``limits``; one child draws all that
    the cache does not know, and none is started where there is nothing to draw. ``fonts`` is a
    fontconfig file that lists the only fonts for words in SVG art (the system's, if None).
    Raises RendererMissing where SVG art is to be drawn and cairo is not installed.
    """
    limits = limits or Limits()
    taken: dict[Path, Picture | PictureFault] = {}
    with Workroom(limits, fonts) as workroom:
        intake = _Intake(cache, limits, workroom, f"{fonts is not None}")
        for path in sorted(set(paths)):
            try:
                taken[path] = intake.picture(_read(path, limits))
            except Unfit as unfit:
                taken[path] = unfit.fault(path.name)
    return taken


@dataclass(frozen=True, slots=True)
class _Intake:
    """Everything that taking in one file needs."""

    cache: Cache
    limits: Limits
    workroom: Workroom
    flavour: str

    def picture(self, data: bytes) -> Picture:
        kind = kind_of(data)
        digest = hashlib.sha256(data).hexdigest()
        key = f"picture {VERSION} {self.flavour} {self.limits} {digest}"
        known = self._known(key)
        if known is not None:
            return known
        if kind == "svg":
            picture = self.workroom.draw(data)
        else:
            from bookmaker.pictures.raster import take_raster

            picture = take_raster(data, kind, self.limits)
        self.cache.put(key, pack(picture))
        return picture

    def _known(self, key: str) -> Picture | None:
        packed = self.cache.get(key)
        try:
            return None if packed is None else unpack(packed)
        except (ValueError, KeyError, TypeError):
            return None


def _read(path: Path, limits: Limits) -> bytes:
    """The bytes of a file; raises Unfit where there is none, or it is none to be read."""
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
        return path.read_bytes()
    except PermissionError:
        raise Unfit("may not be read", "Give yourself permission to read it.") from None
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise Unfit(f"can't be read ({why})", "Check the disk and the file's name.") from error
