"""Finished files put into their place: whole, or not at all."""

from __future__ import annotations

import contextlib
import errno
import hashlib
import os
import platform
import re
import tempfile
import time
from collections.abc import Collection, Iterable, Iterator, Sequence
from contextvars import ContextVar
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


_PLACED: ContextVar[list[Path] | None] = ContextVar("placed files", default=None)
_BESIDE = re.compile(r"\..*\.([0-9a-f]{8})-(\d+)-\w+\.part", re.DOTALL)
"""Name of a file that waits beside its place: the machine and the process that wrote it."""
_LONGEST_WAIT = 24 * 3600.0
"""Seconds after which no process is thought to be still writing."""


@contextlib.contextmanager
def placed_files() -> Iterator[Sequence[Path]]:
    """A list that fills with every file that is put into its place while the context lasts."""
    placed: list[Path] = []
    token = _PLACED.set(placed)
    try:
        yield placed
    finally:
        _PLACED.reset(token)


def sweep(folder: Path) -> None:
    """Take away what a run that was killed left beside its places in ``folder``.

    What another run is still writing stays.
    """
    with contextlib.suppress(OSError):
        for file in [each for each in folder.iterdir() if each.name.endswith(".part")]:
            found = _BESIDE.fullmatch(file.name)
            if found and _is_left_over(file, found[1], int(found[2])):
                with contextlib.suppress(OSError):
                    file.unlink()


def _is_left_over(file: Path, machine: str, process: int) -> bool:
    if machine == _machine() and os.name == "posix":
        try:
            os.kill(process, 0)
        except (ProcessLookupError, OverflowError):
            return True
        except OSError:
            return False
    return time.time() - file.stat().st_mtime > _LONGEST_WAIT


def _machine() -> str:
    """This machine's mark: folders may be shared, and processes are counted on each."""
    return hashlib.sha256(platform.node().encode()).hexdigest()[:8]


class Staging:
    """Files written beside their places, and renamed into them together at the very end.

    What a killed run left there is swept away first.

    A write that fails, or is interrupted, leaves what was there before. Raises OutputFault, which
    tells of --out unless the files can stand nowhere else (``fixed``).
    """

    def __init__(self, *, fixed: bool = False) -> None:
        self._waiting: list[tuple[Path, Path]] = []
        self._swept: set[Path] = set()
        self._fixed = fixed

    def __enter__(self) -> Staging:
        return self

    def put(self, place: Path, pieces: Iterable[bytes], *, ahead: bool = False) -> Written:
        """Write what is to stand at ``place``; renamed after all that was put, or ``ahead``."""
        with _told(place, self._fixed):
            place.parent.mkdir(parents=True, exist_ok=True)
            if place.parent not in self._swept:
                sweep(place.parent)
                self._swept.add(place.parent)
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
                placed = _PLACED.get()
                if placed is not None:
                    placed.append(place)
        finally:
            for beside, _ in self._waiting:
                with contextlib.suppress(OSError):
                    beside.unlink()


def write_all(files: Sequence[tuple[Path, bytes]], *, fixed: bool = False) -> None:
    """Write ``files`` and rename them into their places in their order; raises OutputFault."""
    with Staging(fixed=fixed) as staging:
        for place, data in files:
            staging.put(place, (data,))


def write_unchanged(place: Path, before: bytes | None, after: bytes) -> None:
    """Write ``after`` where ``place`` still holds ``before``, or (None) where nothing is yet.

    Raises OutputFault where something else stands there by now, which is left as it is.
    """
    place = place.resolve()
    with _told(place, True):
        sweep(place.parent)
        written = _write_beside(place, (after,)).file
        try:
            if before is None:
                _into_a_gap(written, place)
            elif place.read_bytes() == before:
                written.chmod(place.stat().st_mode & 0o777)
                written.replace(place)
            else:
                raise OutputFault(f"{place} {_MEANWHILE}")
        finally:
            written.unlink(missing_ok=True)
    placed = _PLACED.get()
    if placed is not None:
        placed.append(place)


_MEANWHILE = "was changed in the meantime, and is left as it is. Do the same again."


def _into_a_gap(written: Path, place: Path) -> None:
    """A second name for the file takes no other's place, as renaming would; not all disks can."""
    try:
        place.hardlink_to(written)
    except FileExistsError:
        raise OutputFault(f"{place} {_MEANWHILE}") from None
    except OSError:
        if place.exists():
            raise OutputFault(f"{place} {_MEANWHILE}") from None
        written.rename(place)


def sparing(place: Path, read: Collection[Path]) -> Path:
    """``place``, or one named after it where a file stands there that was ``read`` for it.

    A teacher's own picture of a newt may well be called newt.png, too.
    """
    try:
        while place.exists() and any(each.exists() and place.samefile(each) for each in read):
            place = place.with_name(f"{place.stem}--page{place.suffix}")
    except OSError:  # a place that can't be looked at can't be written either, and that is told
        pass
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
    prefix = f".{place.name[:40]}.{_machine()}-{os.getpid()}-"
    handle, name = tempfile.mkstemp(prefix=prefix, suffix=".part", dir=place.parent)
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
    if error.errno == errno.ENAMETOOLONG:
        return "A name in it is longer than the disk takes: shorten the folder's or the page's."
    elsewhere = isinstance(error, NotADirectoryError | FileExistsError | IsADirectoryError)
    if elsewhere or error.errno == errno.EROFS:
        return "Choose another folder with --out."
    return "Make room on the disk, or choose another folder with --out."
