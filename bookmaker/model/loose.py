"""Loose sheets: what is cut out or handed out singly, and not bound in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from bookmaker.model.certificate import CertifiedPage
from bookmaker.model.numbers import Number

FactKind = Literal["linked", "apart", "either", "barred", "try", "different"]
"""What a hint without a number can say: see ``puzzle.hints.Fact``."""


@dataclass(frozen=True, slots=True)
class Slip:
    """One hint to cut apart: ``step`` counts from 1 within its page.

    The first says a ``fact`` of its ``numbers`` (and ``spot``, where it is about one) if there is
    one; the others, without a fact, say which number goes into ``spot``. ``mirror`` holds, where
    the mirror solves the page as well, the number that may stand there instead, and the one from
    which the numbers of all later hints are then to be taken.
    """

    page: CertifiedPage
    step: int
    numbers: tuple[Number, ...]
    spot: str = ""
    fact: FactKind | None = None
    mirror: tuple[Number, Number] | None = None


TokenRows = tuple[tuple[Number | None, ...], ...]
"""Squares in rows; None where one stays empty."""


@dataclass(frozen=True, slots=True)
class PrintTest:
    """A rule to lay a ruler on, and a spot to write in."""


@dataclass(frozen=True, slots=True)
class Tokens:
    """Numbers to cut out, in rows of squares."""

    rows: TokenRows


@dataclass(frozen=True, slots=True)
class Slips:
    """A side of hint slips."""

    slips: tuple[Slip, ...]


@dataclass(frozen=True, slots=True)
class Trial:
    """A page's tree, blank, as often as it can be written in, with lines for subtractions."""

    page: CertifiedPage


@dataclass(frozen=True, slots=True)
class LooseShares:
    """What goes onto each side of the tokens and of the slips, and pages with the number of sides
    that their trial sheets take; measured by layout."""

    tokens: tuple[TokenRows, ...]
    slips: tuple[tuple[Slip, ...], ...]
    trials: tuple[tuple[CertifiedPage, int], ...] = ()
