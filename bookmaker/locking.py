"""A lock on a file that goes away with the process that holds it, however it ends."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

PATIENCE = 120.0
"""Seconds that a run waits for another one to be done with the same folder."""
LOCK = ".lock"


class Held(Exception):
    """Another run holds the lock."""


@contextmanager
def held(file: Path) -> Iterator[None]:
    """Hold ``file``, made if missing, for this run. Raises Held, and OSError where it can't be
    made."""
    handle = os.open(file, os.O_RDWR | os.O_CREAT, 0o600)
    try:
        _lock(handle)
        yield
    finally:
        os.close(handle)


@contextmanager
def alone_in(
    folder: Path, waiting: Callable[[], None], patience: float = PATIENCE
) -> Iterator[None]:
    """Hold ``folder`` for this run; while another has it, say so once and wait. Raises Held.

    Where no lock can be had (a folder that can't be written, a drive without locks) the run goes
    on without: whatever it writes says what is wrong.
    """
    deadline, told = time.monotonic() + patience, False
    handle = _opened(folder / LOCK)
    try:
        while handle is not None:
            try:
                _lock(handle)
                break
            except Held:
                if time.monotonic() > deadline:
                    raise
                if not told:
                    waiting()
                told = True
                time.sleep(0.1)
        yield
    finally:
        if handle is not None:
            os.close(handle)


def _opened(file: Path) -> int | None:
    try:
        return os.open(file, os.O_RDWR | os.O_CREAT, 0o666)
    except OSError:
        return None


def _lock(handle: int) -> None:
    try:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError) as error:
        raise Held from error
    except OSError:
        return  # a drive without locks
