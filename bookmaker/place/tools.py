"""What placing is handed: a cache, a seed, the clock, and who makes documents."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, Protocol

from bookmaker.cache import Cache, MemoryCache
from bookmaker.progress import Watch

What = Literal["book", "key", "children"]


class Maker(Protocol):
    """Makes one document of a manifest, as the commands do, and gives the PDF's place.

    Raises what they raise: InputProblems, OutputFault and the rest.
    """

    def __call__(self, manifest: Path, what: What, paper: str | None, watch: Watch, /) -> Path: ...


@dataclass(frozen=True, slots=True)
class Tools:
    """``kept`` keeps what is unsaved, ``now`` gives the time in words for people, ``fault`` hears
    of what should never have happened."""

    cache: Cache
    kept: Cache
    make: Maker
    now: Callable[[], str]
    fault: Callable[[Exception], None]
    seed: int = 0
    made: Sequence[What] = ("book", "key", "children")


class NearCache:
    """What another cache keeps, and near at hand for as long as the screen is open."""

    def __init__(self, far: Cache) -> None:
        self._far, self._near = far, MemoryCache()

    def get(self, key: str) -> bytes | None:
        found = self._near.get(key)
        if found is None:
            found = self._far.get(key)
            if found is not None:
                self._near.put(key, found)
        return found

    def put(self, key: str, value: bytes) -> None:
        self._near.put(key, value)
        self._far.put(key, value)
