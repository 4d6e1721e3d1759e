"""A book begun: a folder of pictures in, manifests with proposed spots out.

Nothing that is there is changed but for pages added at the end of ``pages.toml``, and nothing is
written before every picture has been looked at.
"""

from __future__ import annotations

import os
import tomllib
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path

from bookmaker.cache import Cache
from bookmaker.context import BuildContext
from bookmaker.curricula import BY_LANGUAGE
from bookmaker.linking import Proposal, propose_spots
from bookmaker.model import (
    Chapter,
    InputProblems,
    Number,
    Page,
    Picture,
    Problem,
    Spot,
    progression,
)
from bookmaker.output import write_unchanged
from bookmaker.pictures import PictureFault, take_in
from bookmaker.pictures.folder import ENDINGS, pictures_in
from bookmaker.reading import Reading, id_of, open_manifest
from bookmaker.reading.book import book_keys
from bookmaker.reading.choices import grade_of
from bookmaker.reading.kinds import filename, whole
from bookmaker.reading.manifest_text import book_text, chapter_text, name_for, page_text, readable
from bookmaker.reading.spots import MOST_SPOTS
from bookmaker.typeset import is_printable

BOOK, PAGES = "book.toml", "pages.toml"
PAPER = "a4"
MOST = 1000
"""Pages of a book that is begun at once; more are hardly meant."""
FIRST, LAST, USUAL = 4, 7, 5
"""Spots of the first pages and of the last, and where there are too few pages to rise."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What a user asks of the book; None: not asked, the usual."""

    title: str | None = None
    grade: str | None = None
    language: str | None = None
    weeks: int | None = None
    spots: int | None = None
    deep: bool = False


@dataclass(frozen=True, slots=True)
class Begun:
    """What was begun: files written, pages made, and what to say of pictures and folders.

    ``fewer`` pairs pages with how many spots they got, where they got fewer than was asked for;
    ``unsure`` names pages whose creature was not told from its ground. ``left`` are files that are
    no pictures, ``inside`` counts pictures in folders that were not gone into. ``kept``: the book
    was there before; ``unlisted``: and does not list the chapter; ``added``: the chapter was there.
    """

    book: Path
    written: tuple[Path, ...] = ()
    pages: tuple[str, ...] = ()
    fewer: tuple[tuple[str, int], ...] = ()
    unsure: tuple[str, ...] = ()
    problems: tuple[Problem, ...] = ()
    left: tuple[str, ...] = ()
    inside: int = 0
    unlisted: bool = False
    kept: bool = False
    added: bool = False


def faults_of(asked: Asked) -> Iterator[str]:
    """What is wrong with what is asked for, in words with their mend."""
    kinds = {key: known.kind for key, known in book_keys().items()}
    kinds["grade"] = grade_of(BY_LANGUAGE.get(asked.language or "en", "us"))
    kinds |= {"weeks": whole(1, 53), "spots": whole(2, MOST_SPOTS)}
    for key in ("title", "grade", "language", "weeks", "spots"):
        value = getattr(asked, key)
        fault = None if value is None else kinds[key](key, value)
        if fault:
            yield f"--{fault[0]}. {fault[1]}"


def begin(folder: Path, asked: Asked, context: BuildContext) -> Begun:
    """Begin a book of the pictures in ``folder``, or add those that are new.

    Raises InputProblems where there are none, too many, or where a manifest that is there has
    problems; OutputFault.
    """
    found = pictures_in(folder, asked.deep)
    before = _before(folder)
    new = [art for art in found.pictures if art.resolve() not in before.arts]
    if not found.pictures and not before.arts:
        raise InputProblems([_none(folder, found.inside)])
    if len(new) > MOST:
        raise InputProblems([_too_many(folder, len(new))])
    taken = take_in(new, cache=context.cache)
    desk = _Desk(folder, set(before.ids))
    counts = _counts(len(before.ids), len(new), asked.spots)
    proposals = _proposed([taken[art] for art in new], counts, context.cache)
    for art, count, looked in zip(context.watch("looking", new), counts, proposals, strict=True):
        desk.add(art, count, looked)
    written = _write(folder, asked, before, desk)
    return Begun(
        book=folder / (BOOK if before.book or written else PAGES),
        written=written,
        pages=tuple(desk.pages),
        fewer=tuple(desk.fewer),
        unsure=tuple(desk.unsure),
        problems=tuple(desk.problems),
        left=found.left,
        inside=found.inside,
        unlisted=before.book and not before.listed and bool(written),
        kept=before.book,
        added=before.chapter is not None,
    )


def _counts(before: int, new: int, spots: int | None) -> list[int]:
    """How many spots each new page wants: ever more through the book, unless all are to be so."""
    whole = before + new
    if spots is not None or whole <= LAST - FIRST:
        return [spots or USUAL] * new
    steps = LAST - FIRST + 1
    return [FIRST + place * steps // whole for place in range(before, whole)]


_Looked = Proposal | PictureFault | InputProblems


def _proposed(
    pictures: Sequence[Picture | PictureFault], counts: Sequence[int], cache: Cache
) -> Iterator[_Looked]:
    """Places on each picture, in their order, or why there are none; on all of the processors.

    Threads do: what takes long is Pillow's and numpy's, and a process takes longer to start.
    """

    def looked(picture: Picture | PictureFault, count: int) -> _Looked:
        if isinstance(picture, PictureFault):
            return picture
        try:
            return propose_spots(_wanting(count), picture, PAPER, cache)
        except InputProblems as fault:  # the picture was changed in the meantime
            return fault

    with ThreadPoolExecutor(os.cpu_count() or 1) as pool:
        yield from pool.map(looked, pictures, counts)


@dataclass
class _Desk:
    """Pages as they are made, one picture after the other."""

    folder: Path
    ids: set[str]
    texts: list[str] = field(default_factory=list)
    pages: list[str] = field(default_factory=list)
    fewer: list[tuple[str, int]] = field(default_factory=list)
    unsure: list[str] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def add(self, art: Path, count: int, found: _Looked) -> None:
        """Make a page of ``art``, or say why there is none."""
        if isinstance(found, PictureFault):
            self._refuse(art, found.code, found.message, found.mend)
            return
        written = art.relative_to(self.folder).as_posix()
        if not written.isprintable() or filename(1000)("art", written):
            self._refuse(
                art, "bad-value", "its name can't be written down", "Give it a plain name."
            )
            return
        if isinstance(found, InputProblems):
            for each in found.problems:
                self._refuse(art, each.code, each.message, each.mend)
            return
        if not found.clean:
            mend = "Take one that is less narrow, or place its spots yourself."
            self._refuse(art, "no-clean-layout", "no spots fit onto the picture", mend)
            return
        otherwise = f"Picture {len(self.ids) + 1}"
        name = name_for(art.stem, self.ids, otherwise, is_printable)
        self.ids.add(id_of(name))
        self.pages.append(name)
        self.texts.append(page_text(name, written, found.spots))
        if len(found.spots) < count:
            self.fewer.append((name, len(found.spots)))
        if not found.told:
            self.unsure.append(name)

    def _refuse(self, art: Path, code: str, message: str, mend: str) -> None:
        file = os.fsencode(art).decode(errors="replace")
        said = message.removeprefix(art.name).strip()
        self.problems.append(Problem(file, 0, "", code, said, mend))


def _wanting(count: int) -> Page:
    """A page that wants so many spots, wherever they are."""
    spots = tuple(Spot(f"spot_{i}", 0.0, 0.0) for i in range(1, count + 1))
    numbers = progression(Number.parse("1"), Number.parse("2"), count)
    return Page("page", "Page", "", "", 0, None, "", "", spots, (), numbers)


def _write(folder: Path, asked: Asked, before: _Before, desk: _Desk) -> tuple[Path, ...]:
    """The chapter first: a book never lists one that is not there."""
    if not desk.texts:
        return ()
    title = asked.title or readable(folder.resolve().name) or "My book"
    chapter = before.chapter
    if chapter is None:
        made = "\n".join((chapter_text(title), *desk.texts)).encode()
    else:
        made = _longer(folder / PAGES, chapter, desk.texts)
    write_unchanged(folder / PAGES, chapter, made)
    if before.book:
        return (folder / PAGES,)
    keys = {"grade": asked.grade, "language": asked.language}
    said = {key: value for key, value in keys.items() if value}
    text = book_text(title, PAGES, said, asked.weeks)
    write_unchanged(folder / BOOK, None, text.encode())
    return (folder / PAGES, folder / BOOK)


def _longer(place: Path, chapter: bytes, texts: Sequence[str]) -> bytes:
    """The chapter with further pages, all of its own bytes first; raises InputProblems."""
    line = "\r\n" if b"\r\n" in chapter else "\n"
    gap = "" if chapter.endswith(b"\n") else line
    more = gap + line + line.join(text.replace("\n", line) for text in texts)
    made = chapter + more.encode()
    try:
        tomllib.loads(made.decode("utf-8-sig"))
    except tomllib.TOMLDecodeError as error:
        message = "pages can't be added at its end: it writes page = [...] in one list"
        mend = "Write each page below a heading [[page]], then begin again."
        raise InputProblems([Problem(str(place), 0, "", "bad-toml", message, mend)]) from error
    return made


def _none(folder: Path, inside: int) -> Problem:
    mend = f"Put some there: {', '.join(sorted(ENDINGS))}."
    if inside:
        mend = f"The folders inside hold {inside}: --deep takes them in."
    return Problem(str(folder), 0, "", "art-missing", "there is no picture in this folder", mend)


def _too_many(folder: Path, count: int) -> Problem:
    message = f"there are {count:,} pictures, more than the {MOST:,} that a book is begun of"
    mend = "Put those that you want into a folder of their own."
    return Problem(str(folder), 0, "", "too-many-pages", message, mend)


@dataclass(frozen=True, slots=True)
class _Before:
    """What is there already: the chapter's bytes, the pages' ids and the art in use."""

    book: bool = False
    chapter: bytes | None = None
    listed: bool = False
    ids: frozenset[str] = frozenset()
    arts: frozenset[Path] = frozenset()


def _before(folder: Path) -> _Before:
    """Raises InputProblems where a manifest that is there can't be read as it should."""
    book, pages = folder / BOOK, folder / PAGES
    readings = [open_manifest(each) for each in (book, pages) if each.exists()]
    problems = [p for reading in readings for p in reading.problems if p.severity == "problem"]
    if problems:
        raise InputProblems(dict.fromkeys(problems))
    return _Before(
        book=book.exists(),
        chapter=pages.read_bytes() if pages.exists() else None,
        listed=any(_same(chapter.file, pages) for chapter in _chapters(readings[:1])),
        ids=frozenset(page.id for chapter in _chapters(readings) for page in chapter.pages),
        arts=frozenset(art.resolve() for art in _arts(readings)),
    )


def _chapters(readings: Sequence[Reading]) -> Iterator[Chapter]:
    for reading in readings:
        yield from reading.book.chapters if reading.book else ()


def _same(file: str, place: Path) -> bool:
    return Path(file).resolve() == place.resolve()


def _arts(readings: Sequence[Reading]) -> Iterator[Path]:
    for reading in readings:
        if reading.book and reading.book.cover:
            yield reading.book.cover
    for chapter in _chapters(readings):
        named = [chapter.ornament]
        for page in chapter.pages:
            named += [page.art, page.mark]
        yield from (art for art in named if art)
