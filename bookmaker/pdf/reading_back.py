"""The content of a page read back: where its ink falls, and what it is tagged as.

Reads what ``operators`` writes and nothing else (numbers, names, strings in hexadecimal, parted by
white space): whatever is not known here is no fault of a stranger's but one of ours.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

Matrix = tuple[float, float, float, float, float, float]
_IDENTITY: Final[Matrix] = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
SAME: Final = 1e-6


class Malformed(Exception):
    """Something that is no content; the message says what, for after "page 3: "."""


@dataclass(frozen=True, slots=True)
class Font:
    """What is to be known of a font: letters and widths (of the size of 1) by code."""

    letters: Mapping[str, str]
    widths: Mapping[str, float]
    capital: float
    descent: float


@dataclass(frozen=True, slots=True)
class SetText:
    """A line of text as it is set: its letters, and its box in points from the bottom left.

    ``bottom`` is the baseline, ``top`` as high as a capital; ``depth`` is what may hang lower.
    """

    text: str
    left: float
    bottom: float
    right: float
    top: float
    depth: float


@dataclass(slots=True)
class PageInk:
    """Everything that is on a page: texts, corners of its shapes (left, bottom, right, top, in
    points), pieces of marked content by their numbers with their tags, colour operators, names."""

    texts: list[SetText] = field(default_factory=list)
    reach: tuple[float, float, float, float] = (math.inf, math.inf, -math.inf, -math.inf)
    pieces: dict[int, str] = field(default_factory=dict)
    used: set[str] = field(default_factory=set)
    named: set[str] = field(default_factory=set)


@dataclass(slots=True)
class _State:
    matrix: Matrix = _IDENTITY
    font: Font | None = None
    size: float = 0.0
    clipped: bool = False


OPERANDS: Final = frozenset("-.0123456789/<[]")
"""What numbers, names, strings and arrays begin with, or end."""
PATHS: Final = {"m": 2, "l": 2, "c": 6, "re": 4}
PAINTS: Final = frozenset({"f", "S", "B", "n"})
PLAIN: Final = {
    "g": 1,
    "G": 1,
    "rg": 3,
    "RG": 3,
    "w": 1,
    "J": 1,
    "j": 1,
    "h": 0,
    **dict.fromkeys(PAINTS, 0),
}
"""Operators that take numbers and move nothing, by how many they take."""


def read_content(data: bytes, fonts: Mapping[str, Font]) -> PageInk:
    """What the operators in ``data`` leave on a page; raises Malformed."""
    reader = _Reader(fonts)
    try:
        reader.read(data.decode("ascii").split())
    except UnicodeDecodeError:
        raise Malformed("its content holds bytes that are no operators") from None
    reader.close()
    return reader.ink


class _Reader:
    """One page while it is read: operands that wait, states that are saved, tags that are open."""

    def __init__(self, fonts: Mapping[str, Font]) -> None:
        self.ink = PageInk()
        self._fonts = fonts
        self._waiting: list[str] = []
        self._at = (0.0, 0.0)
        self._saved: list[_State] = []
        self._tags: list[tuple[str, int]] = []
        self._now = _State()
        self._text: Matrix | None = None
        self._does: Mapping[str, Callable[[], None]] = {
            "q": self._save,
            "Q": self._restore,
            "cm": self._transform,
            "W": self._clip,
            "gs": self._graphics_state,
            "Do": self._show,
            "BT": self._begin_text,
            "ET": self._end_text,
            "Tf": self._choose_font,
            "Tm": self._place_text,
            "Tj": self._show_text,
            "d": self._dash,
            "BMC": self._begin_marked,
            "BDC": self._begin_marked,
            "EMC": self._end_marked,
        }

    def read(self, tokens: Sequence[str]) -> None:
        for token in tokens:
            if token[0] in OPERANDS or token[-1] == ">":
                self._waiting.append(token)
            else:
                self._do(token)

    def _do(self, operator: str) -> None:
        self.ink.used.add(operator)
        if operator in PATHS:
            self._points(self._numbers(PATHS[operator]), operator)
        elif operator in PLAIN:
            self._numbers(PLAIN[operator])
            if operator in PAINTS and operator != "n":
                self._inked(operator)
        elif operator in self._does:
            self._does[operator]()
        else:
            raise Malformed(f"{operator!r} is no operator")
        if self._waiting:
            raise Malformed(f"{operator} takes no {' '.join(self._waiting)}")

    def close(self) -> None:
        if self._waiting or self._saved or self._tags or self._text:
            raise Malformed("its content ends in the middle")

    def _numbers(self, count: int) -> list[float]:
        found, self._waiting = self._waiting, []
        try:
            values = list(map(float, found))
        except ValueError:
            values = []
        if len(values) != count or not all(map(math.isfinite, values)):
            raise Malformed(f"{' '.join(found) or 'nothing'} stands where {count} numbers belong")
        return values

    def _words(self, count: int) -> list[str]:
        found, self._waiting = self._waiting, []
        if len(found) != count:
            raise Malformed(f"{' '.join(found) or 'nothing'} stands where {count} words belong")
        return found

    def _points(self, values: list[float], operator: str) -> None:
        if operator == "re":
            x, y, width, height = values
            values = [x, y, x + width, y, x, y + height, x + width, y + height]
        a, b, c, d, e, f = self._now.matrix
        points = list(zip(values[::2], values[1::2], strict=True))
        across = [a * x + c * y + e for x, y in points]
        up = [b * x + d * y + f for x, y in points]
        start, self._at = self._at, (across[-1], up[-1])
        if operator == "c" and not self._within_reach(across, up):
            across = [across[-1], *_extremes(start[0], *across)]
            up = [up[-1], *_extremes(start[1], *up)]
        left, bottom, right, top = self.ink.reach
        self.ink.reach = (min(left, *across), min(bottom, *up), max(right, *across), max(top, *up))

    def _within_reach(self, across: Sequence[float], up: Sequence[float]) -> bool:
        left, bottom, right, top = self.ink.reach
        return left <= min(across) and max(across) <= right and bottom <= min(up) and max(up) <= top

    def _inked(self, operator: str) -> None:
        if len(self._tags) != 1:
            raise Malformed(f"{operator} stands under {len(self._tags)} tags")

    def _save(self) -> None:
        now = self._now
        self._saved.append(now)
        self._now = _State(now.matrix, now.font, now.size, now.clipped)

    def _restore(self) -> None:
        if not self._saved:
            raise Malformed("Q restores what was never saved")
        self._now = self._saved.pop()

    def _transform(self) -> None:
        self._now.matrix = _product(_matrix(self._numbers(6)), self._now.matrix)

    def _clip(self) -> None:
        self._now.clipped = True

    def _graphics_state(self) -> None:
        self.ink.named.update(self._words(1))

    def _dash(self) -> None:
        words, self._waiting = self._waiting, []
        self._waiting = " ".join(words).replace("[", "").replace("]", "").split()
        self._numbers(len(self._waiting))

    def _show(self) -> None:
        self.ink.named.update(self._words(1))
        self._inked("Do")
        if not self._now.clipped:
            self._points([0, 0, 1, 0, 0, 1, 1, 1], "l")

    def _begin_text(self) -> None:
        self._text = _IDENTITY

    def _end_text(self) -> None:
        self._text = None

    def _choose_font(self) -> None:
        if len(self._waiting) != 2 or self._waiting[0][1:] not in self._fonts:
            raise Malformed(f"{' '.join(self._waiting)} is no face of the page")
        name = self._waiting.pop(0)
        self._now.font = self._fonts[name[1:]]
        self._now.size = self._numbers(1)[0]

    def _place_text(self) -> None:
        self._text = _matrix(self._numbers(6))

    def _show_text(self) -> None:
        (string,) = self._words(1)
        font = self._now.font
        if self._text is None or font is None:
            raise Malformed("text stands outside of BT and ET, or has no face")
        self._inked("Tj")
        codes = [string[place : place + 4] for place in range(1, len(string) - 1, 4)]
        if not all(code in font.letters for code in codes):
            raise Malformed(f"{string} has a code that is no letter")
        self.ink.texts.append(self._set(codes, font, _product(self._text, self._now.matrix)))

    def _set(self, codes: list[str], font: Font, matrix: Matrix) -> SetText:
        text = "".join(font.letters[code] for code in codes).rstrip()
        wide = sum(font.widths[code] for code in codes[: len(text)]) * self._now.size
        a, b, c, d, x, y = matrix
        if max(abs(b), abs(c)) > SAME:
            raise Malformed(f"{text!r} does not stand upright")
        high, deep = font.capital * self._now.size * d, font.descent * self._now.size * d
        return SetText(text, x, y, x + wide * a, y + high, y + deep)

    def _begin_marked(self) -> None:
        words, self._waiting = " ".join(self._waiting).split(maxsplit=1), []
        if not words:
            raise Malformed("marked content has no tag")
        tag = words[0].removeprefix("/")
        number = "".join(words[1:]).removeprefix("<</MCID ").removesuffix(">>")
        if number.isdecimal():
            if int(number) in self.ink.pieces:
                raise Malformed(f"two pieces of marked content have the number {number}")
            self.ink.pieces[int(number)] = tag
        elif tag != "Artifact":
            raise Malformed(f"marked content under {tag} has no number")
        self._tags.append((tag, len(self._saved)))

    def _end_marked(self) -> None:
        if not self._tags or self._tags.pop()[1] != len(self._saved):
            raise Malformed("EMC ends what was not begun at that depth")


def _matrix(values: list[float]) -> Matrix:
    a, b, c, d, e, f = values
    return a, b, c, d, e, f


def _product(first: Matrix, then: Matrix) -> Matrix:
    """``first`` and after it ``then`` (ISO 32000-1, 8.3.4)."""
    a, b, c, d, e, f = first
    k, m, n, o, p, q = then
    return (
        a * k + b * n,
        a * m + b * o,
        c * k + d * n,
        c * m + d * o,
        e * k + f * n + p,
        e * m + f * o + q,
    )


def _extremes(start: float, one: float, two: float, end: float) -> list[float]:
    """Where a cubic Bezier turns back along one axis: its control points lie farther out."""
    a = end - 3 * two + 3 * one - start
    b = 2 * (two - 2 * one + start)
    c = one - start
    if abs(a) < SAME:
        roots = [-c / b] if abs(b) > SAME else []
    else:
        square = b * b - 4 * a * c
        root = math.sqrt(square) if square >= 0 else math.nan
        roots = [(-b - root) / (2 * a), (-b + root) / (2 * a)]
    return [
        (1 - t) ** 3 * start + 3 * (1 - t) ** 2 * t * one + 3 * (1 - t) * t * t * two + t**3 * end
        for t in roots
        if 0 < t < 1
    ]
