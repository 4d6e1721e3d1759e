"""The pictures of what is on the screen: taken in as a build does, and sent to be shown.

A picture goes out by its digest, and only where a page has it: no path ever comes in.
"""

from __future__ import annotations

import gzip
import io
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from bookmaker.cache import Cache
from bookmaker.model import Page, Picture, Problem
from bookmaker.pictures import PictureFault, look, small, standing_alone, take_in

SHOWN = 1600
"""Pixels of a picture's longer side on the sheet: two for each of a large screen's."""
LITTLE = 200
"""Pixels of a picture's longer side in the row of pages."""
MEDIA = {"svg": "image/svg+xml", "jpeg": "image/jpeg", "png": "image/png"}


@dataclass(frozen=True, slots=True)
class Sent:
    """A picture's bytes for the browser; ``packed`` says that they are gzipped."""

    media: str
    data: bytes
    packed: bool = False
    keep: bool = True


class Pictures:
    """Takes pictures in, each once for as long as its file stays as it is."""

    def __init__(self, cache: Cache) -> None:
        self._cache = cache
        self._taken: dict[Path, tuple[tuple[int, int], Picture | PictureFault]] = {}
        self._by_digest: dict[str, Picture] = {}
        self._named: set[Path] = set()

    def allow(self, arts: Iterable[Path]) -> None:
        """These are named by a manifest on the disk, or were sent as pictures: no others are ever
        opened, whatever a page says by now."""
        self._named.update(arts)

    def of(self, page: Page) -> tuple[Picture | None, tuple[Problem, ...]]:
        """The page's picture, and what is wrong with it."""
        if page.art is None or page.art not in self._named:
            return None, ()
        found = self._take(page.art)
        if isinstance(found, Picture):
            self._by_digest[found.digest] = found
            return found, ()
        return None, (Problem(page.file, 0, page.name, found.code, found.message, found.mend),)

    def take_all(self, pages: tuple[Page, ...]) -> None:
        """Take in at once what is new: several are drawn beside each other."""
        arts = {a: _stamp(a) for a in (page.art for page in pages) if a and a in self._named}
        new = [art for art, stamp in arts.items() if self._known(art, stamp) is None]
        for art, found in take_in(new, cache=self._cache).items():
            self._taken[art] = (arts[art], found)

    def find(self, digest: str) -> Picture:
        """A picture that a page has shown; raises KeyError."""
        return self._by_digest[digest]

    def know(self, pictures: Iterable[Picture]) -> None:
        """These may be asked for by their digests."""
        self._by_digest |= {picture.digest: picture for picture in pictures}

    def shown(self, digest: str, *, keep: bool = True) -> Sent:
        """The picture for the sheet, reduced where it is larger than a screen.

        ``keep``: the browser may keep it; it keeps nothing of a child's.
        """
        picture = small(self.find(digest), SHOWN, cache=self._cache)
        kind, data = standing_alone(picture)
        packed = kind == "svg"
        return Sent(MEDIA[kind], gzip.compress(data, 6, mtime=0) if packed else data, packed, keep)

    def little(self, digest: str, *, keep: bool = True) -> Sent:
        """The picture for the row of pages."""
        key = f"place little 1 {digest}"
        data = self._cache.get(key)
        if not data:
            image = look(self.find(digest), "RGB", LITTLE)
            out = io.BytesIO()
            image.save(out, "JPEG", quality=82)
            data = out.getvalue()
            self._cache.put(key, data)
        return Sent("image/jpeg", data, keep=keep)

    def _take(self, art: Path) -> Picture | PictureFault:
        stamp = _stamp(art)
        known = self._known(art, stamp)
        if known is None:
            known = take_in([art], cache=self._cache)[art]
            self._taken[art] = (stamp, known)
        return known

    def _known(self, art: Path, stamp: tuple[int, int]) -> Picture | PictureFault | None:
        kept = self._taken.get(art)
        return kept[1] if kept and kept[0] == stamp else None


def _stamp(path: Path) -> tuple[int, int]:
    try:
        found = path.stat()
    except OSError:
        return (0, 0)
    return found.st_size, found.st_mtime_ns
