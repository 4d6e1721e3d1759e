"""Setting text into a measure: where lines break, which size fits."""

from __future__ import annotations

import re

from bookmaker.model import Face
from bookmaker.typeset.faces import width

_BREAKS = re.compile(r"[ \t\r\n\f\v]+")


def wrap(text: str, face: Face, size: float, measure: float) -> tuple[str, ...]:
    """Break ``text`` into lines no wider than ``measure`` millimetres.

    Words are kept whole; a word that is wider than the measure is broken where it must be.
    Line ends in ``text`` are kept. An empty text is no lines.
    """
    lines: list[str] = []
    for paragraph in text.splitlines():
        current = ""
        for word in _words(paragraph):
            for piece in _pieces(word, face, size, measure):
                joined = f"{current} {piece}" if current else piece
                if width(joined, face, size) <= measure:
                    current = joined
                else:
                    lines.append(current)
                    current = piece
        if current:
            lines.append(current)
    return tuple(lines)


def _words(text: str) -> list[str]:
    """What may part at a line's end: spaces that do not break, as before French marks, keep."""
    return _BREAKS.sub(" ", text).strip(" ").split(" ") if text.strip() else []


def _pieces(word: str, face: Face, size: float, measure: float) -> list[str]:
    pieces = []
    while len(word) > 1 and width(word, face, size) > measure:
        fitting = [n for n in range(1, len(word)) if _fits(word[:n], face, size, measure)]
        cut = max(fitting, default=1)
        pieces.append(word[:cut])
        word = word[cut:]
    return [*pieces, word]


def _fits(text: str, face: Face, size: float, measure: float) -> bool:
    return width(text, face, size) <= measure


def fit_size(
    text: str, face: Face, sizes: tuple[float, ...], measure: float, most_lines: int
) -> tuple[float, tuple[str, ...]]:
    """The largest of ``sizes`` (points) at which ``text`` takes at most ``most_lines`` lines.

    Gives that size and the lines. Where none is small enough the smallest is given with
    however many lines it takes: text is never cut.
    """
    lines: tuple[str, ...] = ()
    for size in sorted(sizes, reverse=True):
        lines = wrap(text, face, size, measure)
        unbroken = all(_fits(word, face, size, measure) for word in _words(text))
        if unbroken and len(lines) <= most_lines:
            return size, lines
    return min(sizes), lines
