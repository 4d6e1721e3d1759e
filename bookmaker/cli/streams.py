"""What is said on stdout and stderr: no letter, no sign and no lost reader stops a command."""

from __future__ import annotations

import contextlib
import errno
import io
import os
import re
import sys
from collections.abc import Iterator
from typing import Any, TextIO

_HARMFUL = re.compile(
    r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]|\r(?!\n)"
)
"""Control characters, and those that turn the direction of writing (Unicode Standard Annex 9): out
of a stranger's file they would move the cursor, or show another name than the one that is there."""


@contextlib.contextmanager
def safe_streams() -> Iterator[None]:
    """Let stdout and stderr be ``Safe`` for as long as a command runs."""
    before = {name: getattr(sys, name) for name in ("stdout", "stderr")}
    safe = {name: Safe(stream, name == "stderr") for name, stream in before.items()}
    for name, stream in safe.items():
        setattr(sys, name, stream)
    try:
        yield
    finally:
        for name, stream in safe.items():
            if getattr(sys, name) is stream:
                setattr(sys, name, before[name])


class Safe:
    """A text stream that takes every letter.

    What its encoding lacks, and what would harm a terminal, is written as ``\\uXXXX`` (as JSON has
    it). Where its reader has gone nothing more is written, and no one is told; neither where it is
    ``deaf``, whatever its fault. A stream that the user has closed (None) holds nothing.
    """

    def __init__(self, stream: TextIO | None, deaf: bool) -> None:
        self.inner: TextIO = io.StringIO() if stream is None else stream
        self._deaf = deaf

    def write(self, text: str) -> int:
        said = _sayable(_HARMFUL.sub(_escaped, text), self.encoding)
        with self._forgiven():
            self.inner.write(said)
        return len(text)

    def flush(self) -> None:
        with self._forgiven():
            self.inner.flush()

    @property
    def encoding(self) -> str:
        return getattr(self.inner, "encoding", None) or "utf-8"

    @property
    def buffer(self) -> None:
        """None: whoever found the bytes behind it would write them unlooked at."""

    def __getattr__(self, name: str) -> Any:
        return getattr(self.inner, name)

    @contextlib.contextmanager
    def _forgiven(self) -> Iterator[None]:
        try:
            yield
        except OSError as error:
            if not self._deaf and error.errno not in (errno.EPIPE, errno.EINVAL):
                raise
            drop(self.inner)


def bare(stream: TextIO) -> TextIO:
    """The stream itself, for what moves the cursor on purpose."""
    return stream.inner if isinstance(stream, Safe) else stream


def drop(stream: TextIO) -> None:
    """Send what is still to come nowhere; Python must not complain about it at exit."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), bare(stream).fileno())


def _sayable(text: str, encoding: str) -> str:
    """``text`` with the letters escaped that ``encoding`` lacks."""
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        return "".join(sign if _fits(sign, encoding) else _escape(sign) for sign in text)
    return text


def _fits(sign: str, encoding: str) -> bool:
    try:
        sign.encode(encoding)
    except UnicodeEncodeError:
        return False
    return True


def _escaped(found: re.Match[str]) -> str:
    return _escape(found[0])


def _escape(sign: str) -> str:
    pairs = sign.encode("utf-16-be", "surrogatepass").hex()
    return "".join(f"\\u{pairs[at : at + 4]}" for at in range(0, len(pairs), 4))
