"""A place to keep what was dear to compute: handed in, never reached for."""

from __future__ import annotations

import contextlib
import hashlib
import os
import tempfile
from pathlib import Path
from typing import Protocol


class Cache(Protocol):
    """Keeps bytes by key. A cache may forget at any time; it never gives wrong bytes back."""

    def get(self, key: str) -> bytes | None: ...

    def put(self, key: str, value: bytes) -> None: ...


class MemoryCache:
    """Keeps everything for as long as the process lives."""

    def __init__(self) -> None:
        self._kept: dict[str, bytes] = {}

    def get(self, key: str) -> bytes | None:
        return self._kept.get(key)

    def put(self, key: str, value: bytes) -> None:
        self._kept[key] = value


class BorrowedCache:
    """Reads what another cache has, and keeps what is new in memory alone.

    For a class's drawings: nothing of them is to lie about when they are to be forgotten.
    """

    def __init__(self, lender: Cache) -> None:
        self._lender, self._own = lender, MemoryCache()

    def get(self, key: str) -> bytes | None:
        return self._own.get(key) or self._lender.get(key)

    def put(self, key: str, value: bytes) -> None:
        self._own.put(key, value)


class FolderCache:
    """Keeps each value as a file that starts with its own SHA-256.

    A damaged, missing or unwritable file only costs the computation again.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def get(self, key: str) -> bytes | None:
        try:
            kept = self._file(key).read_bytes()
        except OSError:
            return None
        digest, value = kept[:32], kept[32:]
        return value if hashlib.sha256(value).digest() == digest else None

    def put(self, key: str, value: bytes) -> None:
        with contextlib.suppress(OSError):  # a full or read-only disk must not stop a build
            self._folder.mkdir(parents=True, exist_ok=True)
            handle, beside = tempfile.mkstemp(dir=self._folder)
            try:
                with os.fdopen(handle, "wb") as file:
                    file.write(hashlib.sha256(value).digest() + value)
                Path(beside).replace(self._file(key))
            except BaseException:
                with contextlib.suppress(OSError):
                    Path(beside).unlink()
                raise

    def _file(self, key: str) -> Path:
        return self._folder / hashlib.sha256(key.encode()).hexdigest()
