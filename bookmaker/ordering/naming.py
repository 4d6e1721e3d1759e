"""Names of files: what is made of a book in, a name that nothing else of it has out.

A name is words with hyphens between. Pages have hyphens in their own, so that "newt-letter" may be
a page, or the newt on letter paper. What has one word keeps it; what has several, and could be read
in another way, gets two hyphens between them, which no page has. Capitals make no difference: to
many file systems they make none.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from bookmaker.model import OrderedBook, folded

VARIANTS = frozenset(
    (
        *("a3", "a4", "a5", "letter", "half-letter", "board", "large", "light", "grey", "booklet"),
        *("no-key", "key", "loose", "sheets", "sheets-list", "clearances", "grid"),
    )
)
"""What names say of variants; weeks are among them, too."""
_WEEK = re.compile(r"week-\d+")
_DEVICES = frozenset(
    {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))}
)
"""Windows opens a device in place of a file of such a name, whatever follows its dot."""


@dataclass(frozen=True, slots=True)
class Names:
    """The words for pages and chapters of one book, none of which means two things.

    All are ids, folded; chapters that hold one page of their own name ``alone`` may share its file.
    """

    pages: frozenset[str]
    chapters: frozenset[str]
    alone: frozenset[str]

    @classmethod
    def of(cls, ordered: OrderedBook) -> Names:
        held = {c.id: [page.id for page in c.pages] for c in ordered.chapters}
        return cls(
            frozenset(folded(page) for pages in held.values() for page in pages),
            frozenset(map(folded, held)),
            frozenset(folded(chapter) for chapter, pages in held.items() if pages == [chapter]),
        )

    def page(self, page_id: str) -> str:
        """A page's id, unless variants are called so."""
        return self._led("page", page_id) if _ways(page_id) else page_id

    def chapter(self, chapter_id: str) -> str:
        """A chapter's id, unless variants are called so, or one page of several."""
        key = folded(chapter_id)
        is_taken = key in self.pages and key not in self.alone
        return self._led("chapter", chapter_id) if is_taken or _ways(key) else chapter_id

    def other(self, kind: str, name: str) -> str:
        """The name of a class or of a sheet, unless it could be read as something of the book."""
        return self._led(kind, name) if _ways(name, self._words()) else name

    def join(self, words: Sequence[str]) -> str:
        """One name of words of this book."""
        return join(words, self._words())

    def _words(self) -> set[str]:
        return {*map(self.page, self.pages), *map(self.chapter, self.chapters)}

    def _led(self, kind: str, name: str) -> str:
        """``name`` behind its kind, as often as something else is called so."""
        led = f"{kind}-{name}"
        return self._led(kind, led) if folded(led) in self.pages | self.chapters else led


def join(words: Sequence[str], known: Collection[str]) -> str:
    """``words`` with hyphens between, as nothing else made of the ``known`` words is called."""
    plain = "-".join(words)
    is_plain = len(words) < 2 or _ways(plain, {*known, *map(folded, words)}) == 1
    return plain if is_plain else "--".join(words)


def file_name(page_id: str, words: Iterable[str], pages: Collection[str]) -> str:
    """The name, without its ending, of a file that is named after one of ``pages`` alone.

    ``words`` say what is unusual about it. No device is opened in its place.
    """
    name = join((page_id, *words), pages)
    while name in _DEVICES or (name != page_id and name in pages):
        name = f"page-{name}"
    return name


def _ways(name: str, known: Collection[str] = ()) -> int:
    """In how many ways ``name`` can be read as variants and ``known`` (folded) words."""
    pieces = folded(name).split("-")
    ways = [1]
    for end in range(1, len(pieces) + 1):
        read = (start for start in range(end) if _is_word("-".join(pieces[start:end]), known))
        ways.append(sum(ways[start] for start in read))
    return ways[-1]


def _is_word(text: str, known: Collection[str]) -> bool:
    return text in VARIANTS or text in known or _WEEK.fullmatch(text) is not None
