"""Finished files put into their place: whole, or not at all."""

from __future__ import annotations

import contextlib
import errno
import hashlib
import os
import tempfile
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType


class OutputFault(Exception):
    """A file could not be written; the message names it and says why."""


@dataclass(frozen=True, slots=True)
class Written:
    """A file that waits beside its place, and the SHA-256 of its bytes in hexadecimal."""

    file: Path
    sha256: str


class Staging:
    """Files written beside their places, and renamed into them together at the very end.

    A write that fails, or is interrupted, leaves what was there before. Raises OutputFault, which
    tells of --out unless the files can stand nowhere else (``fixed``).
    """

    def __init__(self, *, fixed: bool = False) -> None:
        self._waiting: list[tuple[Path, Path]] = []
        self._fixed = fixed

    def __enter__(self) -> Staging:
        return self

    def put(self, place: Path, pieces: Iterable[bytes], *, ahead: bool = False) -> Written:
        """Write what is to stand at ``place``; renamed after all that was put, or ``ahead``."""
        with _told(place, self._fixed):
            place.parent.mkdir(parents=True, exist_ok=True)
            written = _write_beside(place, pieces)
        self._waiting.insert(0 if ahead else len(self._waiting), (written.file, place))
        return written

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        try:
            while self._waiting and kind is None:
                beside, place = self._waiting[0]
                with _told(place, self._fixed):
                    beside.replace(place)
                self._waiting.pop(0)
        finally:
            for beside, _ in self._waiting:
                with contextlib.suppress(OSError):
                    beside.unlink()


def write_all(files: Sequence[tuple[Path, bytes]], *, fixed: bool = False) -> None:
    """Write ``files`` and rename them into their places in their order; raises OutputFault."""
    with Staging(fixed=fixed) as staging:
        for place, data in files:
            staging.put(place, (data,))


def sparing(place: Path, read: Collection[Path]) -> Path:
    """``place``, or one named after it where a file stands there that was ``read`` for it.

    A teacher's own picture of a newt may well be called newt.png, too.
    """
    while place.exists() and any(each.exists() and place.samefile(each) for each in read):
        place = place.with_name(f"{place.stem}--page{place.suffix}")
    return place


def remove_all(files: Iterable[Path]) -> None:
    """Take away those of ``files`` that are there; raises OutputFault."""
    for file in files:
        try:
            file.unlink(missing_ok=True)
        except OSError as error:
            raise OutputFault(f"{file} can't be removed: {error.strerror}. {_CLOSE}") from error


def _write_beside(place: Path, pieces: Iterable[bytes]) -> Written:
    if place.is_dir():
        raise IsADirectoryError(errno.EISDIR, "a folder of that name is in the way", str(place))
    digest = hashlib.sha256()
    handle, name = tempfile.mkstemp(prefix=f".{place.name[:60]}.", suffix=".part", dir=place.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            for piece in pieces:
                digest.update(piece)
                file.write(piece)
            file.flush()
            os.fsync(file.fileno())
        Path(name).chmod(0o666 & ~_umask())
    except BaseException:
        with contextlib.suppress(OSError):
            Path(name).unlink()
        raise
    return Written(Path(name), digest.hexdigest())


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


@contextlib.contextmanager
def _told(place: Path, fixed: bool) -> Iterator[None]:
    """Say of a failure which file can't be written, and what to do."""
    try:
        yield
    except OSError as error:
        named = str(error.filename or place)
        name = place if named.endswith(".part") else named  # nobody knows of the file beside it
        reason = error.strerror or str(error)
        raise OutputFault(f"{name} can't be written: {reason}. {_mend(error, fixed)}") from error


_CLOSE = "Close the program that has the file open, and see that you may write in that folder."


def _mend(error: OSError, fixed: bool) -> str:
    if fixed:
        return _CLOSE if isinstance(error, PermissionError) else "Make room on the disk."
    if isinstance(error, PermissionError):
        return "Choose another folder with --out, or close the program that has the file open."
    elsewhere = isinstance(error, NotADirectoryError | FileExistsError | IsADirectoryError)
    if elsewhere or error.errno == errno.EROFS:
        return "Choose another folder with --out."
    return "Make room on the disk, or choose another folder with --out."
