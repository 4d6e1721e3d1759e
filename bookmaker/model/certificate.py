"""What the solver says of a page, and the page it says it of."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from bookmaker.model.book import BANDS, Band, Page
from bookmaker.model.numbers import Number, difference

BAND_FLOORS = (0, 20, 70, 250)
"""Least work of each band, in subtractions."""


def band_of(work: float) -> Band:
    """The band of a page that takes ``work`` expected subtractions."""
    return [band for band, floor in zip(BANDS, BAND_FLOORS, strict=True) if work >= floor][-1]


@dataclass(frozen=True, slots=True)
class Certificate:
    """A solution and the counts that go with it.

    ``solution[i]`` is the number at vertex i. ``shape`` is the tree's canonical form. Counts
    are None where they are beyond counting; ``work`` is in subtractions, ``work_error`` one
    standard error (0: exact).
    """

    shape: str
    solution: tuple[Fraction, ...]
    solutions: int | None
    distinct_solutions: int | None
    one_in: float | None
    work: float
    work_error: float

    @property
    def band(self) -> Band:
        return band_of(self.work)


@dataclass(frozen=True, slots=True)
class CertifiedPage:
    """A page and its certificate."""

    page: Page
    certificate: Certificate

    @property
    def solution(self) -> dict[str, Number]:
        """The number at each spot, by name."""
        text = {number.value: number for number in self.page.numbers}
        values = self.certificate.solution
        return {name: text[value] for name, value in zip(self.page.spot_names, values, strict=True)}

    @property
    def differences(self) -> dict[str, Number]:
        """The difference on each link, by the link's name."""
        at = self.solution
        return {link.name: difference(at[link.a], at[link.b]) for link in self.page.links}

    @property
    def letters(self) -> dict[str, str]:
        """The key's letter of each spot: A, B, ... Z, AA, AB, ... in the manifest's order."""
        return {name: letter(i) for i, name in enumerate(self.page.spot_names)}


def letter(index: int) -> str:
    """``0 -> "A"``, ``25 -> "Z"``, ``26 -> "AA"``."""
    last = chr(ord("A") + index % 26)
    return last if index < 26 else letter(index // 26 - 1) + last
