"""Documents being made: one at a time, with how far it is."""

from __future__ import annotations

import threading
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, TypeVar

from bookmaker.model import InputProblems
from bookmaker.place.tools import Maker, What

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Job:
    """A document: ``state`` is "making", "made" or "failed"; ``share`` how much of ``stage`` is
    done, 0 to 1; ``told`` why it failed."""

    number: int
    what: What
    state: str = "making"
    stage: str = ""
    share: float = 0.0
    file: Path | None = None
    told: tuple[str, ...] = ()


class Press:
    """Makes documents in a thread of its own."""

    def __init__(self, make: Maker) -> None:
        self._make = make
        self._jobs: dict[int, Job] = {}
        self._thread: threading.Thread | None = None

    @property
    def is_busy(self) -> bool:
        return self._thread is not None and self._thread.is_alive()

    def start(self, manifest: Path, what: What, paper: str | None) -> Job:
        """Begin a document; where one is being made, that one is given."""
        if self.is_busy:
            return self._jobs[max(self._jobs)]
        job = Job(len(self._jobs) + 1, what)
        self._jobs[job.number] = job
        arguments = (job.number, manifest, what, paper)
        self._thread = threading.Thread(target=self._run, args=arguments, daemon=True)
        self._thread.start()
        return job

    def find(self, number: int) -> Job:
        """Raises KeyError."""
        return self._jobs[number]

    def place(self, number: int) -> Path:
        """Where a finished document lies; raises KeyError."""
        file = self.find(number).file
        if file is None:
            raise KeyError(number)
        return file

    def _run(self, number: int, manifest: Path, what: What, paper: str | None) -> None:
        def watch(stage: str, things: Sequence[T], /) -> Iterator[T]:
            for place, thing in enumerate(things):
                self._now(number, stage=stage, share=place / max(len(things), 1))
                yield thing

        try:
            file = self._make(manifest, what, paper, watch)
        except InputProblems as found:
            told = tuple(f"{p.page}: {p.message}. {p.mend}" for p in found.problems)
            self._now(number, state="failed", told=told)
        except Exception as error:
            self._now(number, state="failed", told=(str(error),))
        else:
            self._now(number, state="made", share=1.0, file=file)

    def _now(self, number: int, **changes: object) -> None:
        self._jobs[number] = replace(self._jobs[number], **changes)  # type: ignore[arg-type]


def job_record(job: Job) -> dict[str, Any]:
    """A document as the browser is told of it."""
    return {
        "job": job.number,
        "what": job.what,
        "state": job.state,
        "stage": job.stage,
        "share": job.share,
        "file": job.file.name if job.file else None,
        "folder": str(job.file.parent.resolve()) if job.file else None,
        "told": list(job.told),
    }
