"""A content stream as it grows (ISO 32000-1, 8 and 9): millimetres from the page's top left."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from functools import lru_cache

from bookmaker.colour import channels
from bookmaker.model import Box, Point
from bookmaker.pdf.inks import Paint
from bookmaker.pdf.units import MM

ROUND = 4 / 3 * math.tan(math.pi / 8)
"""How far a quarter circle's control points lie from its ends, in radii."""


class Content:
    """Operators of one page. What is set already is not set again."""

    def __init__(self, height: float) -> None:
        """``height`` of the page in millimetres: a PDF's own units are points from the bottom."""
        self._pieces = [f"{decimals(MM, 6)} 0 0 {decimals(-MM, 6)} 0 {decimals(height * MM, 6)} cm"]
        self._set: dict[str, str] = {}

    def __bytes__(self) -> bytes:
        return "\n".join([*self._pieces, ""]).encode("ascii")

    def write(self, operators: str) -> None:
        self._pieces.append(operators)

    @contextmanager
    def marked(self, opening: str) -> Iterator[None]:
        """Marked content (14.6) opened by ``opening``, an operator with what it takes."""
        self.write(opening)
        yield
        self.write("EMC")

    @contextmanager
    def saved(self) -> Iterator[None]:
        """Whatever is set inside does not hold behind it."""
        before = dict(self._set)
        self.write("q")
        yield
        self.write("Q")
        self._set = before

    def rectangle(self, box: Box) -> None:
        self.write(f"{numbers((box.x, box.y, box.width, box.height))} re")

    def rounded(self, box: Box, corner: float) -> None:
        """A rectangle whose corners are quarter circles of radius ``corner``."""
        near = corner * (1 - ROUND)
        left, top, right, bottom = box.x, box.y, box.right, box.bottom
        self.move((left + corner, top))
        self.line((right - corner, top))
        self.curve((right - near, top), (right, top + near), (right, top + corner))
        self.line((right, bottom - corner))
        self.curve((right, bottom - near), (right - near, bottom), (right - corner, bottom))
        self.line((left + corner, bottom))
        self.curve((left + near, bottom), (left, bottom - near), (left, bottom - corner))
        self.line((left, top + corner))
        self.curve((left, top + near), (left + near, top), (left + corner, top))
        self.close()

    def move(self, point: Point) -> None:
        self.write(f"{numbers(point)} m")

    def line(self, point: Point) -> None:
        self.write(f"{numbers(point)} l")

    def curve(self, *points: Point) -> None:
        self.write(f"{numbers(value for point in points for value in point)} c")

    def close(self) -> None:
        self.write("h")

    def paint(self, paint: Paint) -> None:
        """Fill and stroke the path that has been written, as ``paint`` says."""
        if paint.fill:
            self.fill_colour(paint.fill)
        if paint.stroke:
            self._stroke(paint, paint.stroke)
        self.write({(1, 1): "B", (1, 0): "f", (0, 1): "S"}.get(_both(paint), "n"))

    def fill_colour(self, colour: str) -> None:
        self._once("fill", _colour(colour, "g", "rg"))

    def _stroke(self, paint: Paint, colour: str) -> None:
        self._once("stroke", _colour(colour, "G", "RG"))
        self._once("width", f"{decimals(paint.width)} w")
        self._once("cap", f"{int(paint.round)} J")
        self._once("join", "1 j")
        self._once("dash", f"[{numbers(paint.dash)}] 0 d")

    def text(self, at: Point, face: str, size: float, string: str) -> None:
        """Show ``string``, in hexadecimal, from ``at`` on; ``size`` in millimetres."""
        self.write("BT")
        self._once("face", f"/{face} {decimals(size, 4)} Tf")
        self.write(f"1 0 0 -1 {numbers(at)} Tm <{string}> Tj\nET")

    def _once(self, what: str, operator: str) -> None:
        if self._set.get(what) != operator:
            self._set[what] = operator
            self.write(operator)


def numbers(values: Iterable[float], places: int = 3) -> str:
    return " ".join([decimals(value, places) for value in values])


@lru_cache(maxsize=8192)
def decimals(value: float, places: int = 3) -> str:
    """``value`` as a PDF writes numbers (7.3.3); raises ValueError where it is none."""
    if not math.isfinite(value):
        raise ValueError(f"{value} can't be printed")
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _both(paint: Paint) -> tuple[int, int]:
    return int(paint.fill is not None), int(paint.stroke is not None)


@lru_cache(maxsize=256)
def _colour(colour: str, grey: str, rgb: str) -> str:
    levels: Sequence[float] = channels(colour)
    if len(set(levels)) == 1:
        return f"{decimals(levels[0], 4)} {grey}"
    return f"{' '.join(decimals(level, 4) for level in levels)} {rgb}"
