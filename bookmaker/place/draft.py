"""Manifests in pieces: a file's text parted at its pages, so that a change touches one alone.

Whatever is not changed keeps its every byte, since it is never read and written again.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import count, pairwise
from pathlib import Path

from bookmaker.reading import outline

MARK = b"\xef\xbb\xbf"
_HEADER = re.compile(r"[ \t]*\[\[")


@dataclass(frozen=True, slots=True)
class PageText:
    """A page as its file writes it, from its line ``[[page]]`` to the next; ``uid`` stays the same
    whatever becomes of the text or its place."""

    uid: int
    text: str


@dataclass(frozen=True, slots=True)
class FileText:
    """One manifest: ``head`` is what stands above the first page.

    ``entry`` is how the book names it; ``raw`` are the bytes of a file that is not UTF-8: it is
    never changed.
    """

    path: Path
    head: str
    pages: tuple[PageText, ...] = ()
    mark: bytes = b""
    raw: bytes | None = None
    entry: str = ""

    @property
    def data(self) -> bytes:
        """The file's bytes."""
        if self.raw is not None:
            return self.raw
        return self.mark + "".join((self.head, *(page.text for page in self.pages))).encode()

    def starts(self) -> tuple[int, ...]:
        """The line, from 1, on which each page begins."""
        line, found = 1 + self.head.count("\n"), []
        for page in self.pages:
            found.append(line)
            line += page.text.count("\n")
        return tuple(found)

    def at_line(self, line: int) -> int | None:
        """The uid of the page that ``line`` is in; None above the first."""
        uid = None
        for start, page in zip(self.starts(), self.pages, strict=True):
            if start <= line:
                uid = page.uid
        return uid


@dataclass(frozen=True, slots=True)
class Draft:
    """All files of a book or a chapter as they are on the screen. The first is the one named.

    ``paper`` is another paper than the manifest's, for as long as the screen is open.
    """

    files: tuple[FileText, ...]
    paper: str | None = None

    @property
    def is_book(self) -> bool:
        return not self.files[0].pages and len(self.files) > 1

    @property
    def unsaved(self) -> Mapping[Path, bytes]:
        return {file.path: file.data for file in self.files}

    def uids(self) -> Iterator[int]:
        for file in self.files:
            yield from (page.uid for page in file.pages)

    def find(self, uid: int) -> tuple[FileText, PageText]:
        """The page ``uid`` and its file; raises KeyError."""
        for file in self.files:
            for page in file.pages:
                if page.uid == uid:
                    return file, page
        raise KeyError(uid)

    def with_page(self, uid: int, text: str) -> Draft:
        """The draft with other text for one page."""
        file, _ = self.find(uid)
        pages = (PageText(uid, text) if page.uid == uid else page for page in file.pages)
        return self.with_file(replace(file, pages=tuple(pages)))

    def with_file(self, changed: FileText) -> Draft:
        files = (changed if file.path == changed.path else file for file in self.files)
        return replace(self, files=tuple(files))


class Numbering:
    """Gives each page a number of its own."""

    def __init__(self) -> None:
        self._next = count(1)

    def __call__(self) -> int:
        return next(self._next)


def parted(path: Path, data: bytes, numbering: Numbering, uids: Iterable[int] = ()) -> FileText:
    """A file's bytes parted at its pages; ``uids`` are taken first, in the order of the pages."""
    mark = MARK if data.startswith(MARK) else b""
    try:
        text = data.removeprefix(mark).decode("utf-8")
    except UnicodeDecodeError:
        return FileText(path, "", raw=data)
    cuts = [*_page_starts(text), len(text)]
    given = iter(uids)
    pages = tuple(
        PageText(next(given, None) or numbering(), text[start:end]) for start, end in pairwise(cuts)
    )
    return FileText(path, text[: cuts[0]], pages, mark)


def _page_starts(text: str) -> list[int]:
    """Where the lines ``[[page]]`` begin; none where pages are written in another way."""
    # Line ends of Windows become blanks and keep their length, so that places stay true.
    found = outline(text.replace("\r\n", " \n"))
    starts = []
    for each in found.statements:
        if each.is_header and len(each.where) == 2 and each.where[0] == "page":
            start = text.rfind("\n", 0, each.start) + 1
            if _HEADER.match(text, start):
                starts.append(start)
    return starts
