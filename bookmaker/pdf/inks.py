"""Inks: what each role looks like. Colours are of earth, bark and leaf; white is paper."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from bookmaker.colour import grey as grey_of
from bookmaker.colour import under_paper

BARK = "#2e241b"
LOAM = "#5b4a3a"
MOSS = "#3f4d2b"
REED = "#8a8a55"
CLAY = "#9c4a26"
PAPER = "#ffffff"
PALE = "#cfc6b4"
HEATHER = "#f0c8f6"
"""Of drawing sheets: pale enough to vanish afterwards (``edition.sheet`` says why this one)."""
FADED: Final = 0.5
"""Paper over ornaments and over the worked example, in light ink: as over the demo's pictures."""
BLACK = "#000000"
"""For what a machine is to read."""


@dataclass(frozen=True, slots=True)
class Paint:
    """Fill and stroke as ``#rrggbb`` or None; ``width`` and ``dash`` in millimetres."""

    fill: str | None = None
    stroke: str | None = None
    width: float = 0.0
    dash: tuple[float, ...] = ()
    round: bool = True

    @lru_cache(maxsize=512)  # noqa: B019 - paints are few, frozen and live as long as the program
    def scaled(self, scale: float) -> Paint:
        """The paint for a smaller picture: strokes thinner, but never too thin to print.

        In a larger one they stay as they are: gaps are reckoned with the widest of them.
        """
        return replace(
            self,
            width=max(self.width * min(scale, 1.0), min(self.width, 0.25)),
            dash=tuple(length * scale for length in self.dash),
        )


@dataclass(frozen=True, slots=True)
class Ink:
    """One way of inking a book: ``paints`` and ``words`` by role.

    ``kept`` is the share of its own ink that every picture keeps, so that pictures stay as strong
    beside each other as they are; ``cover`` is what they may cover on average, 0 to 1.
    ``grey`` says whether pictures are printed without colour. ``ornaments`` is how much paper lies
    over an ornament at least: the white about it would leave it stronger than the pictures.
    """

    name: str
    paints: Mapping[str, Paint]
    words: Mapping[str, str]
    kept: float = 1.0
    cover: float = 1.0
    grey: bool = False
    ornaments: float = 0.0

    def over(self, covers: Collection[float]) -> Ink:
        """This ink for a book whose pictures have these ``covers``: all fade alike, as far as
        brings them to ``cover`` on average."""
        inked = [cover for cover in covers if cover]
        if self.cover == 1.0 or not inked:
            return self
        return replace(self, kept=min(1.0, self.cover * len(inked) / sum(inked)))

    def fade(self, paled: float = 0.0, ornament: bool = False) -> float:
        """How much paper lies over a picture: 0 none, 1 all; ``paled`` is how much at least."""
        return max(1 - self.kept, paled, self.ornaments if ornament else 0.0)


_PAINTS: Final[Mapping[str, Paint]] = {
    "ring": Paint(PAPER, BARK, 1.1),
    "link-stroke": Paint(None, BARK, 1.2),
    "link-stroke-edge": Paint(None, PAPER, 3.0),
    "tag": Paint(PAPER, BARK, 0.7),
    "rule": Paint(None, PALE, 0.35),
    "write": Paint(None, LOAM, 0.6, round=False),
    "frame": Paint(None, LOAM, 0.6),
    "number-box": Paint(PAPER, LOAM, 0.6),
    "step-on": Paint(MOSS, None),
    "step-off": Paint(PAPER, MOSS, 0.6),
    "shape": Paint(MOSS, None),
    "disc": Paint(MOSS, None),
    "axis": Paint(None, LOAM, 0.3),
    "dot": Paint(CLAY, PAPER, 0.3),
    "dot-open": Paint(PAPER, CLAY, 0.7, round=False),
    "climb": Paint(None, REED, 0.5),
    "letter-disc": Paint(MOSS, PAPER, 0.3),
    "tick-ring": Paint(PAPER, BARK, 0.6),
    "own-frame": Paint(PAPER, LOAM, 0.8, (0.1, 2.4)),
    "snail-ground": Paint("#84944a", None),
    "snail-blades": Paint("#ccd6b0", None),
    "snail-shadow": Paint("#c3bbab", None),
    "snail-shade": Paint("#9a9181", None),
    "snail-sole": Paint("#626a6c", None),
    "snail-body": Paint("#b3ac9b", None),
    "snail-slits": Paint("#626a6c", None),
    "snail-shell": Paint("#dfc07a", None),
    "snail-whorl": Paint("#dc9f2e", None),
    "snail-seam": Paint("#5b3a2a", None),
    "snail-cuts": Paint("#bf5b2b", None),
    "clash": Paint(None, CLAY, 1.1),
    "clash-edge": Paint(None, PAPER, 2.6),
    "swap": Paint(None, CLAY, 1.1),
    "swap-edge": Paint(PAPER, PAPER, 1.5),
    "swap-line-edge": Paint(None, PAPER, 2.6),
    "marked": Paint(BARK, None),
    "underline": Paint(None, BARK, 0.9),
    "fold": Paint(None, LOAM, 0.25, (1.0, 1.0), round=False),
    "staple": Paint(None, LOAM, 0.35, round=False),
    "cut": Paint(None, LOAM, 0.3, (2.0, 1.5), round=False),
    "swap-head": Paint(CLAY, None),
    "grid": Paint(None, BARK, 0.2, round=False),
    "grid-fine": Paint(None, BARK, 0.08, round=False),
    "grid-strong": Paint(None, BARK, 0.5, round=False),
    "grid-edge": Paint(None, PAPER, 0.9, round=False),
    "tight": Paint(None, CLAY, 0.7),
    "tight-edge": Paint(None, PAPER, 1.6),
    "pale-ring": Paint(PAPER, HEATHER, 0.8),
    "pale-link-stroke": Paint(None, HEATHER, 0.8, round=False),
    "pale-tag": Paint(PAPER, HEATHER, 0.8),
    "sheet-frame": Paint(None, BARK, 0.5),
    "bead": Paint(BLACK, None),
    "code": Paint(BLACK, None),
}

_WORDS: Final[Mapping[str, str]] = {
    "title": MOSS,
    "heading": MOSS,
    "body": BARK,
    "quiet": LOAM,
    "number": BARK,
    "given": BARK,
    "solved": CLAY,
    "difference": LOAM,
    "letter": PAPER,
    "accent": CLAY,
    "example": BARK,
}


def _faded_paint(paint: Paint) -> Paint:
    """A paper under as much white as an ornament."""
    return replace(paint, fill=under_paper(paint.fill, FADED) if paint.fill else None)


def _grey_paint(role: str, paint: Paint) -> Paint:
    """Without colour; what a copier must keep is black."""
    if role.startswith("snail-"):
        return replace(paint, fill=grey_of(paint.fill) if paint.fill else None)
    return replace(paint, fill=_black(paint.fill), stroke=_black(paint.stroke))


def _black(colour: str | None) -> str | None:
    """Black for every ink, pale ones aside; paper stays paper."""
    if colour is None or colour in (PAPER, PALE, HEATHER):
        return grey_of(colour) if colour else None
    return BLACK


_LIGHT: Final[Mapping[str, Paint]] = {
    role: _faded_paint(paint) if role.startswith("snail-") else paint
    for role, paint in _PAINTS.items()
}
_GREY_WORDS: Final[Mapping[str, str]] = {
    role: colour if colour == PAPER else BLACK for role, colour in _WORDS.items()
}


def _grey(paints: Mapping[str, Paint]) -> Mapping[str, Paint]:
    return {role: _grey_paint(role, paint) for role, paint in paints.items()}


_SAVING: Final = Ink("light", _LIGHT, _WORDS, kept=FADED, cover=0.15, ornaments=FADED)
INKS: Final[Mapping[str, Ink]] = {
    "full": Ink("full", _PAINTS, _WORDS),
    "light": _SAVING,
    "grey": Ink("grey", _grey(_PAINTS), _GREY_WORDS, grey=True),
    "light-grey": replace(
        _SAVING, name="light-grey", paints=_grey(_LIGHT), words=_GREY_WORDS, grey=True
    ),
}
"""By their names; "light-grey" is both at once, for a copier with little toner."""
