"""What a run is handed from outside."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from bookmaker.cache import Cache
from bookmaker.progress import Watch, unwatched


@dataclass(frozen=True, slots=True)
class Workshop:
    """What compiling needs from outside: a cache, a seed, a clock, and who hears of progress."""

    cache: Cache
    seed: int = 0
    date: datetime | None = None
    watch: Watch = unwatched
