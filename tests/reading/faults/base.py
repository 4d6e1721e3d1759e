"""The small good book, and how a fault is made of it by a change to one of its files."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

BOOK = """\
title = "A river book"
grade = "3"
numbers = { start = 1, step = 2 }
paper = "a4"
order = "ramp"
language = "en"
chapters = ["01.toml"]

[term]
weeks = 12
"""

CHAPTER = """\
title = "The spring"

[[page]]
name = "Newt"
art = "newt.svg"
artist = "The class"
licence = "CC0-1.0"
links = [
    "nose-back",
    "back-tail",
    "back-paw",
]
position = 1

[page.spots]
nose = [12, 40]
back = [45, 35.5]
tail = [88, 52]
paw = [40, 80]

[[page]]
name = "Heron"
art = "heron.svg"
links = ["bill-neck", "neck-leg"]
[page.spots]
bill = [10, 20]
neck = [30, 40]
leg = [50, 90]
"""

ART = """\
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 150">
<path d="M10 75 Q100 10 190 75 Q100 140 10 75 Z" fill="#7a8b5a"/>
</svg>
"""

GOOD: Mapping[str, str | bytes] = {
    "book.toml": BOOK,
    "01.toml": CHAPTER,
    "newt.svg": ART,
    "heron.svg": ART,
}


@dataclass(frozen=True, slots=True)
class Fault:
    """A faulty book. ``file`` is the file that differs from the good book, ``bad`` its text (or
    bytes), ``mended`` the text with every mend applied; ``expected`` are line and code of each
    problem, in the order of the lines, all in ``told_in`` (``file`` unless that is given)."""

    name: str
    file: str
    bad: str | bytes
    mended: str | bytes
    expected: tuple[tuple[int, str], ...]
    told_in: str

    @property
    def files(self) -> dict[str, str | bytes]:
        return {**GOOD, self.file: self.bad}

    @property
    def mended_files(self) -> dict[str, str | bytes]:
        return {**GOOD, self.file: self.mended}


def write(files: Mapping[str, str | bytes], folder: Path) -> Path:
    """Write ``files`` into ``folder``; gives the path of the book's manifest."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8"))
    (folder / "a-folder").mkdir(exist_ok=True)
    return folder / "book.toml"


def _in(
    file: str, name: str, good: str, bad: str, mended: str, *expected: tuple[int, str]
) -> Fault:
    """``bad``, or ``mended``, in place of ``good`` in the good book's ``file``."""
    text = str(GOOD[file])
    assert text.count(good) == 1, f"{name}: {good!r} stands {text.count(good)} times in {file}"
    return Fault(
        name, file, text.replace(good, bad), text.replace(good, mended), expected, told_in=file
    )


def in_chapter(name: str, good: str, bad: str, mended: str, *expected: tuple[int, str]) -> Fault:
    return _in("01.toml", name, good, bad, mended, *expected)


def in_book(name: str, good: str, bad: str, mended: str, *expected: tuple[int, str]) -> Fault:
    return _in("book.toml", name, good, bad, mended, *expected)


def whole_chapter(name: str, bad: str | bytes, *expected: tuple[int, str]) -> Fault:
    """A whole chapter that is ``bad``; mended by writing the good one."""
    return Fault(name, "01.toml", bad, CHAPTER, expected, told_in="01.toml")


LINKS = """\
links = [
    "nose-back",
    "back-tail",
    "back-paw",
]
"""
HERON = """\
bill = [10, 20]
neck = [30, 40]
leg = [50, 90]
"""
HERON_PUZZLE = 'links = ["bill-neck", "neck-leg"]\n[page.spots]\n' + HERON
MANY = "".join(f'"s{place}" = [{place}, 3]\n' for place in range(36))
MANY_LINKS = ", ".join(f'"s{place}-s{place + 1}"' for place in range(35))
UNKNOWN = "".join(f"key{place} = {place}\n" for place in range(1000))
MANY_PAGE = f"""\
[[page]]
name = "Heron"
art = "heron.svg"
links = [{MANY_LINKS}]
[page.spots]
{MANY}"""
