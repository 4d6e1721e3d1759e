"""What the solver says of a page, and books whose pages are certified and in their order."""

from __future__ import annotations

from dataclasses import dataclass, fields
from fractions import Fraction
from math import hypot, sqrt
from typing import Any, Literal

from bookmaker.model.book import BANDS, Band, Book, Chapter, Page
from bookmaker.model.numbers import Number, difference

BAND_FLOORS = (0, 15, 40, 70)
"""Least work of each band, in subtractions."""

Strategy = Literal["trying", "building"]

EASY_TO_BUILD = 2
"""Subtractions for each link, at most, where an attempt at building mostly succeeds."""

HARD_TO_TRY = 50
"""Subtractions for each link, at least, where nobody in a class gets there by trying."""

DIGITS = 9
"""Significant digits of work: those behind them differ from one numpy to another."""


def band_of(work: float) -> Band:
    """The band of a page that takes ``work`` expected subtractions."""
    return [band for band, floor in zip(BANDS, BAND_FLOORS, strict=True) if work >= floor][-1]


@dataclass(frozen=True, slots=True)
class Estimate:
    """A mean, and one standard error of it (0: the mean is exact)."""

    mean: float
    error: float = 0.0

    @property
    def rounded(self) -> Estimate:
        """To ``DIGITS`` significant digits."""
        return Estimate(_significant(self.mean), _significant(self.error))

    @property
    def printed(self) -> int:
        """Subtractions as they are printed: whole, and to two digits where they are estimated."""
        return round(float(f"{self.mean:.2g}") if self.error and self.mean >= 100 else self.mean)


@dataclass(frozen=True, slots=True)
class Certificate:
    """A solution and the counts that go with it.

    ``solution[i]`` is the number at vertex i. ``shape`` is the tree's canonical form. Counts
    are None where they are beyond counting. ``trying`` and ``building`` are the subtractions to
    expect of two pupils, of one who tries and swaps and of one who builds from the largest
    difference down.
    """

    shape: str
    solution: tuple[Fraction, ...]
    solutions: int | None
    distinct_solutions: int | None
    one_in: float | None
    trying: Estimate
    building: Estimate

    @property
    def work(self) -> float:
        """The geometric mean of the two pupils' subtractions."""
        return _significant(sqrt(self.trying.mean * self.building.mean))

    @property
    def work_error(self) -> float:
        """One standard error of ``work``, to first order, the two estimates being independent."""
        means = (self.trying, self.building)
        parts = [each.error / each.mean for each in means if each.mean]
        return _significant(self.work * hypot(*parts) / 2)

    @property
    def band(self) -> Band:
        return band_of(self.work)

    @property
    def easier_for(self) -> Strategy | None:
        """The pupil to whom the page is much easier than to the other, if there is one."""
        links = len(self.solution) - 1
        easy_to_build = self.building.mean <= EASY_TO_BUILD * links
        if easy_to_build and self.trying.mean >= HARD_TO_TRY * links:
            return "building"
        return "trying" if self.trying.mean < self.building.mean else None


def _significant(value: float) -> float:
    return float(f"{value:.{DIGITS}g}")


@dataclass(frozen=True, slots=True, kw_only=True)
class CertifiedPage(Page):
    """A page with its certificate."""

    certificate: Certificate

    @classmethod
    def of(cls, page: Page, certificate: Certificate) -> CertifiedPage:
        """``page`` as it is, certified."""
        return cls(**{**fields_of(page), "certificate": certificate})

    @property
    def solution(self) -> dict[str, Number]:
        """The number at each spot, by name."""
        text = {number.value: number for number in self.numbers}
        values = self.certificate.solution
        return {name: text[value] for name, value in zip(self.spot_names, values, strict=True)}

    @property
    def differences(self) -> dict[str, Number]:
        """The difference on each link, by the link's name."""
        at = self.solution
        return {link.name: difference(at[link.a], at[link.b]) for link in self.links}

    @property
    def letters(self) -> dict[str, str]:
        """The key's letter of each spot: A, B, ... Z, AA, AB, ... in the manifest's order."""
        return {name: letter(i) for i, name in enumerate(self.spot_names)}


@dataclass(frozen=True, slots=True)
class OrderedChapter(Chapter):
    """A chapter with its certified pages in the order of the book."""

    pages: tuple[CertifiedPage, ...]

    @classmethod
    def of(cls, chapter: Chapter, pages: tuple[CertifiedPage, ...]) -> OrderedChapter:
        """``chapter`` with ``pages`` in place of its own."""
        return cls(**{**fields_of(chapter), "pages": pages})


@dataclass(frozen=True, slots=True)
class OrderedBook(Book):
    """A certified book in its order, or a part of it.

    ``has_own_cover`` says whether the cover's picture is that of none of the whole book's pages.
    """

    chapters: tuple[OrderedChapter, ...]
    has_own_cover: bool = False

    @classmethod
    def of(cls, book: Book, chapters: tuple[OrderedChapter, ...]) -> OrderedBook:
        """``book`` with ``chapters`` in place of its own."""
        own = book.cover is not None and all(page.art != book.cover for page in book.pages)
        return cls(**{**fields_of(book), "chapters": chapters, "has_own_cover": own})

    @property
    def pages(self) -> tuple[CertifiedPage, ...]:
        return tuple(page for chapter in self.chapters for page in chapter.pages)


def fields_of(whole: Book | Chapter | Page) -> dict[str, Any]:
    """The fields by their names, as they are (``asdict`` would take inner ones apart, too)."""
    return {field.name: getattr(whole, field.name) for field in fields(whole)}


def letter(index: int) -> str:
    """``0 -> "A"``, ``25 -> "Z"``, ``26 -> "AA"``."""
    last = chr(ord("A") + index % 26)
    return last if index < 26 else letter(index // 26 - 1) + last
