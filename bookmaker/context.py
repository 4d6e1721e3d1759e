"""What a run is handed from outside, and what is to be made in it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import datetime

from bookmaker.cache import BorrowedCache, Cache
from bookmaker.classroom.class_book import Edition
from bookmaker.model import Output
from bookmaker.ordering import Part
from bookmaker.progress import Watch, unwatched
from bookmaker.typeset import LARGE


@dataclass(frozen=True, slots=True)
class BuildContext:
    """What compiling needs from outside: a cache, a seed, a clock, and who hears of progress."""

    cache: Cache
    seed: int = 0
    date: datetime | None = None
    watch: Watch = unwatched

    def for_edition(self, edition: Edition | None) -> BuildContext:
        """For a class's edition nothing of the children's drawings stays in the cache."""
        if edition is None or isinstance(self.cache, BorrowedCache):
            return self
        return replace(self, cache=BorrowedCache(self.cache))


@dataclass(frozen=True, slots=True)
class BuildOptions:
    """What is to be made of a book: which document, on which paper ("" or None: the book's own),
    of which part, in which ink, how large, and with which class's drawings."""

    paper: str | None = None
    part: Part = field(default_factory=Part)
    ink: str = "full"
    output: Output = "book"
    large: bool = False
    edition: Edition | None = None

    @property
    def scale(self) -> float:
        return LARGE if self.large else 1.0
