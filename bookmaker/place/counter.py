"""The counter: each question of the browser answered from the desk and the bench, one at a time.

Every method takes what was in the JSON and gives what goes out as JSON.
"""

from __future__ import annotations

import threading
from collections.abc import Mapping
from dataclasses import asdict
from pathlib import Path
from typing import Any

from bookmaker.place.adding import put_beside, with_picture
from bookmaker.place.asked import Asking, NotUnderstood, done
from bookmaker.place.bench import Bench
from bookmaker.place.desk import Desk
from bookmaker.place.draft import Draft
from bookmaker.place.faces import face
from bookmaker.place.loosely import arts_named
from bookmaker.place.making import Press, job_record
from bookmaker.place.overview import overview
from bookmaker.place.pictures import Sent
from bookmaker.place.record import page_record
from bookmaker.place.screen_words import screen_words
from bookmaker.place.tools import NearCache, Tools
from bookmaker.typeset import PAPERS
from bookmaker.words import Words, load

Record = dict[str, Any]
Asked = Mapping[str, Any]


class Dropped(Exception):
    """A newer question came from the same window: this one needs no answer."""


class Counter:
    """All questions; ``ask`` answers the newest of each window alone."""

    def __init__(self, manifest: Path, tools: Tools) -> None:
        self._tools, self.kind = tools, "book"
        self._cache = NearCache(tools.cache)
        self._desk = Desk(manifest, tools.kept, tools.now)
        self._bench = Bench(self._cache, tools.seed)
        self._press = Press(tools.make)
        self._lock = threading.Lock()
        self._newest: dict[str, int] = {}
        self._overview: tuple[Draft, Record] | None = None
        self._bench.pictures.allow(arts_named(self._desk.draft.files))
        self.language = str(self._book()["language"])

    def fault(self, error: Exception) -> None:
        """A fault of our own: whoever runs us is told."""
        self._tools.fault(error)

    def say(self, key: str, **values: object) -> str:
        return self._words()(key, **values)

    def words(self) -> Record:
        return screen_words(self._words(), self._tools.made)

    def state(self) -> Record:
        with self._lock:
            return self._state()

    def book(self) -> Record:
        """The row of pages, with the state that it is of."""
        with self._lock:
            return {**self._book(), "state": self._state()}

    def page(self, uid: int) -> Record:
        with self._lock:
            return self._page(self._desk.draft, uid)

    def theirs(self, uid: int) -> Record:
        """The page as it is in the file on the disk."""
        with self._lock:
            theirs = self._desk.theirs()
            self._bench.pictures.allow(arts_named(theirs.files))
            return self._page(theirs, uid)

    def ask(self, asked: Asked) -> Record:
        """The page as it would be with a change that is not made yet. Raises Dropped."""
        window, turn = str(asked.get("window"))[:80], asked.get("turn")
        if not isinstance(turn, int):
            raise NotUnderstood("turn")
        self._newest[window] = max(turn, self._newest.get(window, turn))
        with self._lock:
            if self._newest[window] > turn:
                raise Dropped
            self._desk.check(_revision(asked))
            uid = _uid(asked)
            return self._page(done(self._asking(uid, asked)), uid)

    def change(self, asked: Asked) -> Record:
        """A change made: the page after it, and the state."""
        with self._lock:
            self._desk.check(_revision(asked))
            uid = _uid(asked)
            draft = done(self._asking(uid, asked))
            self._desk.take(draft, uid, goes_on=asked.get("goesOn") is True)
            return self._answer(uid)

    def undo(self, asked: Asked) -> Record:
        with self._lock:
            self._desk.check(_revision(asked))
            return self._answer(self._desk.undo())

    def redo(self, asked: Asked) -> Record:
        with self._lock:
            self._desk.check(_revision(asked))
            return self._answer(self._desk.redo())

    def save(self, asked: Asked) -> Record:
        """Everything written; raises ChangedElsewhere, OutputFault."""
        with self._lock:
            self._desk.check(_revision(asked))
            names = self._desk.save()
            return {"saved": list(names), "state": self._state()}

    def settle(self, asked: Asked) -> Record:
        """Which pages are to be as on the screen, where files were changed elsewhere."""
        mine = asked.get("mine")
        if not isinstance(mine, dict) or not all(str(key).isdigit() for key in mine):
            raise NotUnderstood("mine")
        with self._lock:
            self._bench.pictures.allow(arts_named(self._desk.theirs().files))
            self._desk.settle({int(uid): said is True for uid, said in mine.items()})
            return {"state": self._state()}

    def left(self, asked: Asked) -> Record:
        """What was left unsaved the last time: taken up again, or let go."""
        with self._lock:
            if asked.get("take") is True:
                self._desk.take_up()
                self._bench.pictures.allow(arts_named(self._desk.draft.files))
            else:
                self._desk.let_go()
            return {"state": self._state()}

    def folder(self, chapter: str) -> Path:
        """Where pictures for ``chapter`` go: beside its file."""
        return self._desk.draft.files[self._chapter(chapter)].path.parent

    def add(self, waiting: Path, name: str, chapter: str) -> Record:
        """A picture that was received made a page of."""
        picture = put_beside(waiting, name, self._cache)
        with self._lock:
            self._bench.pictures.allow([picture])
            uid = self._desk.next_uid()
            draft = with_picture(self._desk.draft, self._chapter(chapter), picture, uid)
            self._desk.take(draft, uid)
            return self._answer(uid)

    def make(self, asked: Asked) -> Record:
        """A document begun; what is unsaved has to be saved before."""
        paper = asked.get("paper")
        what = next((each for each in self._tools.made if each == asked.get("what")), None)
        if what is None or paper not in (None, *PAPERS):
            raise NotUnderstood("what")
        with self._lock:
            job = self._press.start(self._desk.manifest, what, paper)
        return self.making(job.number)

    def making(self, number: int) -> Record:
        return job_record(self._press.find(number))

    def made(self, number: int) -> Path:
        return self._press.place(number)

    def face(self, name: str) -> bytes:
        return face(name, self._cache)

    def shown(self, digest: str) -> Sent:
        return self._bench.pictures.shown(digest)

    def little(self, digest: str) -> Sent:
        return self._bench.pictures.little(digest)

    def _asking(self, uid: int, asked: Asked) -> Asking:
        wants = asked.get("change")
        if not isinstance(wants, dict):
            raise NotUnderstood("change")
        return Asking(self._desk.draft, uid, self._bench, wants)

    def _answer(self, uid: int | None) -> Record:
        draft = self._desk.draft
        shown = uid if uid in set(draft.uids()) else None
        page = self._page(draft, shown) if shown is not None else None
        return {"page": page, "state": self._state()}

    def _page(self, draft: Draft, uid: int) -> Record:
        on = self._bench.put(draft, uid)
        return page_record(on, draft, load(on.language))

    def _state(self) -> Record:
        desk = self._desk
        return {
            "revision": desk.revision,
            "undo": desk.can_undo,
            "redo": desk.can_redo,
            "unsaved": [file.path.name for file in desk.unsaved],
            "safe": desk.safe,
            "left": asdict(desk.offer) if desk.offer else None,
            "elsewhere": self._elsewhere(),
        }

    def _elsewhere(self) -> list[Record]:
        """The pages that are not as they are in files that were changed elsewhere."""
        if not self._desk.elsewhere():
            return []
        here = {p.uid for f in self._desk.draft.files for p in f.pages}
        return [
            {"page": uid, "where": where, "here": uid in here}
            for uid, where in self._desk.differences().items()
        ]

    def _book(self) -> Record:
        draft = self._desk.draft
        if self._overview is None or self._overview[0] != draft:
            self._overview = (draft, overview(draft, self._bench))
        return self._overview[1]

    def _chapter(self, stem: str) -> int:
        files = self._desk.draft.files
        chapters = range(1, len(files)) if self._desk.draft.is_book else range(len(files))
        return next((i for i in chapters if files[i].path.stem == stem), chapters[-1])

    def _words(self) -> Words:
        return load(self.language)


def _revision(asked: Asked) -> int:
    revision = asked.get("revision")
    if not isinstance(revision, int):
        raise NotUnderstood("revision")
    return revision


def _uid(asked: Asked) -> int:
    uid = asked.get("page")
    if not isinstance(uid, int):
        raise NotUnderstood("page")
    return uid
