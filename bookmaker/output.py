"""Finished files put into their place: whole, or not at all."""

from __future__ import annotations

import contextlib
import os
import tempfile
from collections.abc import Sequence
from pathlib import Path


class OutputFault(Exception):
    """A file could not be written; the message names it and says why."""


def write_all(files: Sequence[tuple[Path, bytes]]) -> None:
    """Write ``files`` beside their places first, then rename them, in their order.

    A write that fails, or is interrupted, leaves what was there before. Raises OutputFault.
    """
    beside: list[tuple[Path, Path]] = []
    try:
        for place, data in files:
            place.parent.mkdir(parents=True, exist_ok=True)
            beside.append((_write_beside(place, data), place))
        while beside:
            written, place = beside[0]
            written.replace(place)
            beside.pop(0)
    except OSError as error:
        name = error.filename or files[0][0]
        reason = error.strerror or str(error)
        raise OutputFault(f"{name} can't be written: {reason}. {_mend(error)}") from error
    finally:
        for written, _ in beside:
            with contextlib.suppress(OSError):
                written.unlink()


def _write_beside(place: Path, data: bytes) -> Path:
    if place.is_dir():
        raise IsADirectoryError(21, "a folder of that name is in the way", str(place))
    handle, name = tempfile.mkstemp(prefix=f".{place.name}.", suffix=".part", dir=place.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        Path(name).chmod(0o666 & ~_umask())
    except BaseException:
        with contextlib.suppress(OSError):
            Path(name).unlink()
        raise
    return Path(name)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _mend(error: OSError) -> str:
    if isinstance(error, PermissionError):
        return "Choose another folder with --out, or close the program that has the file open."
    if isinstance(error, NotADirectoryError | FileExistsError | IsADirectoryError):
        return "Choose another folder with --out."
    return "Make room on the disk, or choose another folder with --out."
