"""The desk: the manifests that are being changed, every step that led there, and their saving.

Steps are undone and done again without limit. What is unsaved is kept in the cache after each of
them. A file changed elsewhere is never written over: ``save`` says so, and ``settle`` takes
each page from where the teacher says.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Literal

from bookmaker.cache import Cache
from bookmaker.output import write_all
from bookmaker.place.bench import files_named
from bookmaker.place.draft import Draft, FileText, Numbering, PageText, parted
from bookmaker.place.edits import Refused
from bookmaker.place.loosely import page_values

Where = Literal["here", "there", "both"]


class Outdated(Exception):
    """A change was asked for of a state that is no longer there: another window was first."""


class ChangedElsewhere(Exception):
    """Files that are not any more as they were when they were opened: nothing was saved."""

    def __init__(self, files: tuple[Path, ...]) -> None:
        super().__init__(", ".join(file.name for file in files))
        self.files = files


@dataclass(frozen=True, slots=True)
class Step:
    """A draft, and the page that was changed to make it (None where it was no single one)."""

    draft: Draft
    page: int | None = None


@dataclass(frozen=True, slots=True)
class _Left:
    """What the cache kept: the texts that were not saved, and what their files were then."""

    when: str
    texts: Mapping[str, str]
    was: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Offer:
    """What was left unsaved the last time: ``when`` in words, and the names of its files."""

    when: str
    files: tuple[str, ...]
    elsewhere: bool


class Desk:
    """One writer's desk. Not for several threads at once: whoever calls it sees to that."""

    def __init__(self, manifest: Path, kept: Cache, now: Callable[[], str]) -> None:
        self.manifest = manifest
        self._kept, self._now = kept, now
        self._numbering = Numbering()
        self._done: list[Step] = [Step(self._opened())]
        self._undone: list[Step] = []
        self._disk: dict[Path, bytes] = {f.path: f.data for f in self.draft.files}
        self.revision = 1
        self.safe = True
        self._left = self._left_before()

    @property
    def draft(self) -> Draft:
        return self._done[-1].draft

    @property
    def can_undo(self) -> bool:
        return len(self._done) > 1

    @property
    def can_redo(self) -> bool:
        return bool(self._undone)

    @property
    def unsaved(self) -> tuple[FileText, ...]:
        """The files that are not on the disk as they are here."""
        return tuple(f for f in self.draft.files if self._disk.get(f.path) != f.data)

    def check(self, revision: int) -> None:
        """Raises Outdated where ``revision`` is not the newest."""
        if revision != self.revision:
            raise Outdated

    def take(self, draft: Draft, page: int | None, *, goes_on: bool = False) -> None:
        """A new state; ``goes_on`` makes one step of it and the last one, where they are of a
        page."""
        if draft == self.draft:
            return
        if goes_on and len(self._done) > 1 and self._done[-1].page == page:
            self._done.pop()
        self._done.append(Step(draft, page))
        self._undone.clear()
        self._moved_on()

    def undo(self) -> int | None:
        """One step back; gives the page that it was about."""
        if not self.can_undo:
            raise Refused("place.refused.nothing")
        self._undone.append(self._done.pop())
        self._moved_on()
        return self._undone[-1].page

    def redo(self) -> int | None:
        """One step on again; gives the page that it is about."""
        if not self._undone:
            raise Refused("place.refused.nothing")
        self._done.append(self._undone.pop())
        self._moved_on()
        return self._done[-1].page

    def next_uid(self) -> int:
        return self._numbering()

    def save(self) -> tuple[str, ...]:
        """Write what is unsaved, all of it or nothing; gives the names of the files.

        Raises ChangedElsewhere, OutputFault.
        """
        unsaved = self.unsaved
        changed = tuple(f.path for f in unsaved if _read(f.path) != self._disk.get(f.path))
        if changed:
            raise ChangedElsewhere(changed)
        write_all([(f.path, f.data) for f in unsaved], fixed=True)
        self._disk |= {f.path: f.data for f in unsaved}
        self._keep()
        return tuple(f.path.name for f in unsaved)

    def elsewhere(self) -> tuple[Path, ...]:
        """Files that were changed on the disk since they were read here."""
        return tuple(f.path for f in self.draft.files if _read(f.path) != self._disk.get(f.path))

    def theirs(self) -> Draft:
        """The files as they are on the disk now; a page has the number that it has here."""
        return replace(self.draft, files=tuple(self._reread(f) for f in self.draft.files))

    def differences(self) -> dict[int, Where]:
        """Each page that is not the same here as on the disk, and where it was changed."""
        before = self._pages({f.path: self._disk.get(f.path, b"") for f in self.draft.files})
        there = {p.uid: p.text for f in self.theirs().files for p in f.pages}
        here = {p.uid: p.text for f in self.draft.files for p in f.pages}
        found: dict[int, Where] = {}
        for uid in dict.fromkeys((*here, *there)):
            ours, others, was = here.get(uid), there.get(uid), before.get(uid)
            if ours != others:
                found[uid] = "there" if ours == was else "here" if others == was else "both"
        return found

    def settle(self, mine: Mapping[int, bool]) -> None:
        """Go on from what is on the disk, with those pages of the screen that ``mine`` says.

        Pages that are nowhere on the disk any more stay where ``mine`` wants them, at the end.
        """
        theirs, here = self.theirs(), self.draft
        files = tuple(
            _settled(ours, other, mine)
            for ours, other in zip(here.files, theirs.files, strict=True)
        )
        self._disk = {f.path: f.data for f in theirs.files}
        self.take(replace(here, files=files), None)
        self._moved_on()

    @property
    def offer(self) -> Offer | None:
        """What was left unsaved the last time, to be taken up again or let go."""
        left = self._left
        if left is None:
            return None
        elsewhere = any(_digest(self._disk.get(Path(f), b"")) != d for f, d in left.was.items())
        names = tuple(Path(file).name for file in left.texts)
        return Offer(left.when, names, elsewhere)

    def take_up(self) -> None:
        """Go on with what was left unsaved."""
        left, self._left = self._left, None
        if left is None:
            return
        texts = {Path(file): text.encode() for file, text in left.texts.items()}
        files = tuple(
            replace(
                parted(f.path, texts[f.path], self._numbering, [p.uid for p in f.pages]),
                entry=f.entry,
            )
            if f.path in texts
            else f
            for f in self.draft.files
        )
        self.take(replace(self.draft, files=files), None)

    def let_go(self) -> None:
        """Forget what was left unsaved."""
        self._left = None
        self._keep()

    def _opened(self) -> Draft:
        data = _read(self.manifest) or b""
        files = [parted(self.manifest, data, self._numbering)]
        if not files[0].pages:
            for path, entry in files_named(self.manifest, data):
                chapter = parted(path, _read(path) or b"", self._numbering)
                files.append(replace(chapter, entry=entry))
        return Draft(tuple(files))

    def _reread(self, file: FileText) -> FileText:
        data = _read(file.path)
        return self._numbered(file, self._disk.get(file.path, b"") if data is None else data)

    def _pages(self, files: Mapping[Path, bytes]) -> dict[int, str]:
        """The texts of all pages of ``files``, numbered as those here."""
        numbered = (self._numbered(f, files[f.path]) for f in self.draft.files)
        return {page.uid: page.text for file in numbered for page in file.pages}

    def _numbered(self, file: FileText, data: bytes) -> FileText:
        """``data`` parted, with the numbers that ``file`` has for pages of the same name, or else
        in the same place."""
        found = parted(file.path, data, self._numbering)
        by_name = {_name(page): page.uid for page in reversed(file.pages)}
        named = [by_name.get(_name(page)) for page in found.pages]
        pages: list[PageText] = []
        for place, (page, uid) in enumerate(zip(found.pages, named, strict=True)):
            same = file.pages[place].uid if place < len(file.pages) else None
            free = same not in named and all(same != other.uid for other in pages)
            taken = any(uid == other.uid for other in pages)
            number = uid if uid and not taken else same if same and free else page.uid
            pages.append(PageText(number, page.text))
        return replace(found, entry=file.entry, pages=tuple(pages))

    def _moved_on(self) -> None:
        self.revision += 1
        self._keep()

    @property
    def _key(self) -> str:
        return f"place left {self.manifest.resolve()}"

    def _keep(self) -> None:
        """Put what is unsaved where a crash does not reach it."""
        if self._left is not None:
            return  # what was left before is not to be lost while it is still offered
        unsaved = [f for f in self.unsaved if f.raw is None]
        record = b""
        if unsaved:
            texts = {str(f.path): f.data.decode() for f in unsaved}
            was = {str(f.path): _digest(self._disk.get(f.path, b"")) for f in unsaved}
            left = _Left(self._now(), texts, was)
            record = json.dumps(asdict(left), ensure_ascii=False).encode()
        self._kept.put(self._key, record)
        self.safe = (self._kept.get(self._key) or b"") == record

    def _left_before(self) -> _Left | None:
        record = self._kept.get(self._key)
        if not record:
            return None
        left = _Left(**json.loads(record))
        here = {str(f.path): f.data for f in self.draft.files}
        texts = {f: t for f, t in left.texts.items() if f in here and here[f] != t.encode()}
        return replace(left, texts=texts) if texts else None


def _settled(ours: FileText, theirs: FileText, mine: Mapping[int, bool]) -> FileText:
    here = {page.uid: page for page in ours.pages}
    there = {page.uid for page in theirs.pages}
    kept = [
        here[page.uid] if mine.get(page.uid) and page.uid in here else page for page in theirs.pages
    ]
    new = [page for page in ours.pages if page.uid not in there and mine.get(page.uid, True)]
    return replace(theirs, pages=(*kept, *new))


def _name(page: PageText) -> str:
    return str(page_values(page.text).get("name", ""))


def _read(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except OSError:
        return None


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
