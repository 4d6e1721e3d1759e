"""One writer at a time: a lock that goes away with the process that holds it, however it ends."""

from __future__ import annotations

import hashlib
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


class Held(Exception):
    """Another run has this manifest open."""


@contextmanager
def sole_writer(manifest: Path, folder: Path) -> Iterator[None]:
    """Hold ``manifest`` for this run; the lock lies in ``folder``. Raises Held."""
    name = hashlib.sha256(str(manifest.resolve()).encode()).hexdigest()[:24]
    folder.mkdir(parents=True, exist_ok=True)
    handle = os.open(folder / f"place-{name}.lock", os.O_RDWR | os.O_CREAT, 0o600)
    try:
        _lock(handle)
        yield
    finally:
        os.close(handle)


def _lock(handle: int) -> None:
    try:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        raise Held from error
