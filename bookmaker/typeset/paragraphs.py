"""Runs of text set into lines, for the sides that hold more than a puzzle."""

from __future__ import annotations

from bookmaker.model import Anchor, Face, Line
from bookmaker.typeset.faces import POINT
from bookmaker.typeset.wrapping import wrap

LEADING = 1.35
"""Distance of baselines in sizes of the type."""


def paragraph(
    text: str,
    at: tuple[float, float],
    measure: float,
    size: float,
    face: Face = "text",
    role: str = "body",
) -> tuple[tuple[Line, ...], float]:
    """Set ``text`` from the baseline ``at`` down; gives its lines and the next free baseline.

    ``measure`` is in millimetres, ``size`` in points.
    """
    step = size * POINT * LEADING
    lines = tuple(
        Line(at[0], at[1] + place * step, line, size, face, "start", role, "P", place > 0)
        for place, line in enumerate(wrap(text, face, size, measure))
    )
    return lines, at[1] + len(lines) * step


def heading(
    lines: tuple[str, ...], at: tuple[float, float], size: float, anchor: Anchor = "start"
) -> tuple[tuple[Line, ...], float]:
    """A title of one or more lines; gives its lines and how far down it reaches."""
    step = size * POINT * 1.15
    placed = tuple(
        Line(at[0], at[1] + place * step, line, size, "title", anchor, "title", "H1", place > 0)
        for place, line in enumerate(lines)
    )
    return placed, at[1] + (len(lines) - 1) * step
