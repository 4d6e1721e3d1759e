"""What the sides of a book have in common: where titles hang, where numbers stand."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from bookmaker.model import Anchor, Box, Item, Line, Picture, PlacedArt, Rule, Side
from bookmaker.typeset import POINT, Sheet, ascent, fit_size, heading, width

TITLE_SIZES: Final = (32.0, 28.0, 25.0, 22.0, 20.0, 18.0, 16.0, 14.0, 12.0, 10.0)
PUPIL_SIZE: Final = 16.0
"""Pupils' text, in points."""
NAME_SIZES: Final = (16.0, 14.0, 13.0, 12.0, 11.0, 10.0, 9.0, 8.0)
ONE_LINE: Final = 0.68
"""How much smaller a title may get to stay on one line."""
FOLIO_SIZE: Final = 13.0
MOST_CUT: Final = 0.12
FOOT: Final = 7.0
"""Height of the lowest row of a side, which holds its number."""
HEAD_GAP: Final = 7.0
"""From a title's last baseline to what stands under it."""


def head(sheet: Sheet, text: str) -> tuple[tuple[Line, ...], float]:
    """A side's title where all titles hang; gives its lines and where the rest may begin."""
    area = sheet.area
    size, lines = fit_title(text, TITLE_SIZES, area.width)
    placed, last = heading(lines, (area.x, area.y + 1.5 + ascent("title", size)), size)
    return placed, last + HEAD_GAP


def fit_title(text: str, sizes: tuple[float, ...], measure: float) -> tuple[float, tuple[str, ...]]:
    """Size and lines of a title: on one line if that can be nearly as large, else on two."""
    size, lines = fit_size(text, "title", sizes, measure, 2)
    alone, line = fit_size(text, "title", sizes, measure, 1)
    return (alone, line) if len(line) == 1 and alone >= ONE_LINE * size else (size, lines)


def folio(side: Side, sheet: Sheet) -> Line:
    """The side's number, in its outer lower corner; not read out, as it is no part of the text."""
    area = sheet.area
    x = area.right if side.recto else area.x
    anchor: Anchor = "end" if side.recto else "start"
    return Line(x, area.bottom - 1.2, side.label, FOLIO_SIZE, "strong", anchor, "quiet", "Footer")


def to_write(label: str, at: tuple[float, float], length: float) -> tuple[Item, ...]:
    """``label`` from the baseline ``at`` on, and a line of ``length`` millimetres behind it."""
    x, base = at
    start = x + label_width(label)
    line = Rule((start, base + 0.6), (start + length, base + 0.6), "write")
    return (Line(x, base, label, PUPIL_SIZE, "text", "start", "quiet", "Header"), line)


def label_width(label: str) -> float:
    """How far right of its start the line behind ``label`` begins."""
    return width(label, "text", PUPIL_SIZE) + 2


def contained(
    picture: Picture,
    frame: Box,
    alt: str = "",
    small: bool = False,
    align: tuple[float, float] = (0.5, 0.5),
) -> PlacedArt:
    """The trimmed picture as large as ``frame`` allows.

    ``align`` says where it stands in room that is left: (0, 0) top left, (1, 1) bottom right.
    """
    trim = picture.trim
    wide, high = picture.width * trim.width, picture.height * trim.height
    scale = min(frame.width / wide, frame.height / high)
    window = Box(
        frame.x + (frame.width - wide * scale) * align[0],
        frame.y + (frame.height - high * scale) * align[1],
        wide * scale,
        high * scale,
    )
    box = Box(
        window.x - trim.x * picture.width * scale,
        window.y - trim.y * picture.height * scale,
        picture.width * scale,
        picture.height * scale,
    )
    return PlacedArt(picture.digest, box, window, alt, small)


def filling(picture: Picture, frame: Box, alt: str = "") -> PlacedArt:
    """The trimmed picture over the whole of ``frame``, where little of it is cut off for that.

    It loses its top, where a scene has sky, or both sides alike. Where more would be lost than
    ``MOST_CUT``, the whole picture stands at the top left.
    """
    trim = picture.trim
    shape = (picture.width * trim.width) / (picture.height * trim.height)
    wanted = frame.width / frame.height
    if min(shape, wanted) / max(shape, wanted) < 1 - MOST_CUT:
        return contained(picture, frame, alt, align=(0.0, 0.0))
    wide = max(frame.width, frame.height * shape)
    high = wide / shape
    whole = Box(frame.x + (frame.width - wide) / 2, frame.bottom - high, wide, high)
    return replace(contained(picture, whole, alt), window=frame)


def row_height(size: float) -> float:
    """The height that a line of ``size`` points takes, in millimetres."""
    return size * POINT * 1.2
