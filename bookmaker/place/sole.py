"""One writer at a time: a lock that goes away with the process that holds it, however it ends."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from bookmaker.locking import Held, held

__all__ = ["Held", "sole_writer"]


@contextmanager
def sole_writer(manifest: Path, folder: Path) -> Iterator[None]:
    """Hold ``manifest`` for this run; the lock lies in ``folder``. Raises Held."""
    name = hashlib.sha256(str(manifest.resolve()).encode()).hexdigest()[:24]
    folder.mkdir(parents=True, exist_ok=True)
    with held(folder / f"place-{name}.lock"):
        yield
