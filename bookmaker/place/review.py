"""The counter for a class: its drawings looked through, each yes and no written at once.

Nothing waits to be saved here: what is said goes into ``review.csv`` as a spreadsheet would write
it, into the table as it is by then.
"""

from __future__ import annotations

import threading
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from bookmaker.cache import BorrowedCache
from bookmaker.classroom.review import Reviewed
from bookmaker.place.asked import NotUnderstood
from bookmaker.place.drawings import SAID, Drawings, rings_from
from bookmaker.place.edits import Refused
from bookmaker.place.faces import face
from bookmaker.place.making import Press, job_record
from bookmaker.place.pictures import Pictures, Sent
from bookmaker.place.screen_words import screen_words
from bookmaker.place.tools import Tools
from bookmaker.words import load

Record = dict[str, Any]
Asked = Mapping[str, Any]


class ReviewCounter:
    """Answers what the screen for a class asks, one question at a time."""

    def __init__(self, manifest: Path, tools: Tools) -> None:
        self._tools, self._manifest = tools, manifest
        self._drawings = Drawings(manifest, BorrowedCache(tools.cache), tools.seed)
        self._pictures = Pictures(BorrowedCache(tools.cache))
        self._press = Press(tools.make)
        self._lock = threading.Lock()
        self._done: list[tuple[str, Record, Record]] = []
        self._undone: list[tuple[str, Record, Record]] = []
        self._seen: dict[str, str] = {}
        self.language = self._drawings.book.language
        self.kind = "class"

    def fault(self, error: Exception) -> None:
        self._tools.fault(error)

    def say(self, key: str, **values: object) -> str:
        return load(self.language)(key, **values)

    def words(self) -> Record:
        return screen_words(load(self.language), self._tools.made)

    def drawings(self) -> Record:
        """The row of drawings."""
        with self._lock:
            return {
                "title": self._manifest_title(),
                "drawings": self._drawings.rows(),
                "state": self._state(),
            }

    def drawing(self, drawing: str) -> Record:
        with self._lock:
            return self._show(drawing)

    def said(self, asked: Asked) -> Record:
        """A yes, a no, or nothing said yet."""
        drawing, use = asked.get("drawing"), asked.get("use")
        if not isinstance(drawing, str) or use not in SAID:
            raise NotUnderstood("use")
        with self._lock:
            seen = self._seen.get(drawing)
            return self._written(drawing, {"use": use} | ({"seen": seen} if seen else {}))

    def rings(self, asked: Asked) -> Record:
        """The rings of a free sheet put right."""
        drawing = asked.get("drawing")
        if not isinstance(drawing, str):
            raise NotUnderstood("drawing")
        with self._lock:
            count = len(self._drawings.find(drawing).rings)
            rings = rings_from(asked.get("rings"), count)
            if rings is None:
                raise NotUnderstood("rings")
            return self._written(drawing, {"rings": rings})

    def undo(self, asked: Asked) -> Record:
        with self._lock:
            return self._step(self._done, self._undone, 1)

    def redo(self, asked: Asked) -> Record:
        with self._lock:
            return self._step(self._undone, self._done, 2)

    def make(self, asked: Asked) -> Record:
        what = next((each for each in self._tools.made if each == asked.get("what")), None)
        if what is None:
            raise NotUnderstood("what")
        return job_record(self._press.start(self._manifest, what, None))

    def making(self, number: int) -> Record:
        return job_record(self._press.find(number))

    def made(self, number: int) -> Path:
        return self._press.place(number)

    def face(self, name: str) -> bytes:
        return face(name, self._tools.cache)

    def shown(self, digest: str) -> Sent:
        return self._pictures.shown(digest, keep=False)

    def little(self, drawing: str) -> Sent:
        """A drawing for the row, by its number; nothing of it is kept."""
        with self._lock:
            _, pictures = self._drawings.show(drawing)
        self._pictures.know(pictures)
        if not pictures:
            raise KeyError(drawing)
        return self._pictures.little(pictures[0].digest, keep=False)

    def _written(self, drawing: str, said: Record) -> Record:
        before = self._drawings.write(drawing, **said)
        self._done.append((drawing, _of(before, said), said))
        self._undone.clear()
        return {"drawing": self._show(drawing), "state": self._state()}

    def _step(
        self,
        source: list[tuple[str, Record, Record]],
        target: list[tuple[str, Record, Record]],
        side: int,
    ) -> Record:
        if not source:
            raise Refused("place.refused.nothing")
        step = source.pop()
        target.append(step)
        self._drawings.write(step[0], **(step[1] if side == 1 else step[2]))
        return {"drawing": self._show(step[0]), "state": self._state()}

    def _show(self, drawing: str) -> Record:
        record, pictures = self._drawings.show(drawing)
        self._pictures.know(pictures)
        self._seen[drawing] = self._drawings.find(drawing).seen
        return record

    def _state(self) -> Record:
        return {"revision": 0, "undo": bool(self._done), "redo": bool(self._undone)}

    def _manifest_title(self) -> str:
        return self._drawings.shelf().classroom.title


def _of(before: Reviewed, said: Record) -> Record:
    return {key: getattr(before, key) for key in said}
