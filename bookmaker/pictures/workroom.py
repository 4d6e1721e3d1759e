"""Where strangers' SVG is drawn: a child process that may be lost without harm."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import asdict
from pathlib import Path
from types import TracebackType

from bookmaker.model import Picture
from bookmaker.pictures.limits import Limits, Unfit
from bookmaker.pictures.packing import unpack

_START_SECONDS = 60.0
_PATIENCE = 2.5
_OUT_OF_TIME = 24
"""SIGXCPU, where there is one: more processor time than RLIMIT_CPU allows."""


class RendererMissing(RuntimeError):
    """The library that draws SVG can't be loaded: cairo, or cairosvg, is not installed."""


class Workroom:
    """Draws one SVG after the other in one child process, started when it is first needed.

    A picture that outlasts its time, or takes the child down with it, is refused; the next
    picture gets a fresh child.
    """

    def __init__(self, limits: Limits) -> None:
        self._limits = limits
        self._child: subprocess.Popen[bytes] | None = None

    def __enter__(self) -> Workroom:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._close()

    def draw(self, data: bytes) -> Picture:
        """The SVG in ``data``, screened and drawn; raises Unfit or RendererMissing."""
        child = self._child or self._start()
        with self._watched(child, _PATIENCE * self._limits.seconds) as late:
            answer = _ask(child, data)
        if answer is None:
            self._close()
            raise _lost(late.is_set() or child.returncode == -_OUT_OF_TIME, self._limits)
        head, packed = answer
        if "reason" in head:
            raise Unfit(head["reason"], head["mend"], head["code"])
        return unpack(packed)

    def _start(self) -> subprocess.Popen[bytes]:
        child = subprocess.Popen(
            [sys.executable, "-m", "bookmaker.pictures.worker", json.dumps(asdict(self._limits))],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env=_environment(),
        )
        self._child = child
        with self._watched(child, _START_SECONDS):
            ready = _receive(child)
        if ready is None or "missing" in ready[0]:
            self._close()
            why = ready[0]["missing"] if ready else "the process that draws did not start"
            raise RendererMissing(why)
        return child

    @contextmanager
    def _watched(self, child: subprocess.Popen[bytes], seconds: float) -> Iterator[threading.Event]:
        """Kill the child after ``seconds``; the event tells that it came to that."""
        late = threading.Event()

        def kill() -> None:
            late.set()
            child.kill()

        timer = threading.Timer(seconds, kill)
        timer.start()
        try:
            yield late
        finally:
            timer.cancel()

    def _close(self) -> None:
        child, self._child = self._child, None
        if child is None:
            return
        child.kill()
        child.wait()
        for pipe in (child.stdin, child.stdout):
            if pipe:
                with suppress(OSError):  # what could not be sent to a dead child
                    pipe.close()


def _environment() -> dict[str, str]:
    """This process's own, with the package in reach whatever the current folder is."""
    environment = dict(os.environ)
    here = str(Path(__file__).resolve().parents[2])
    behind = environment.get("PYTHONPATH")
    environment["PYTHONPATH"] = os.pathsep.join([here, behind] if behind else [here])
    return environment


def _ask(child: subprocess.Popen[bytes], data: bytes) -> tuple[dict[str, str], bytes] | None:
    assert child.stdin is not None
    try:
        child.stdin.write(len(data).to_bytes(8, "big") + data)
        child.stdin.flush()
    except OSError:
        return None
    return _receive(child)


def _receive(child: subprocess.Popen[bytes]) -> tuple[dict[str, str], bytes] | None:
    """What the child says: a line of JSON and a number of bytes; None if it is gone."""
    assert child.stdout is not None
    line = child.stdout.readline()
    if not line.endswith(b"\n"):
        return None
    head = json.loads(line)
    body = child.stdout.read(head.pop("length", 0))
    return head, body


def _lost(late: bool, limits: Limits) -> Unfit:
    why = (
        f"takes more than {limits.seconds:g} seconds" if late else "takes more memory than allowed"
    )
    return Unfit(
        why + " to draw",
        "Simplify the drawing (fewer copies, patterns and points), or save it as PNG.",
        "art-too-large",
    )
