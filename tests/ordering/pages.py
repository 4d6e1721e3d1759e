"""Made-up certified pages for tests of order: what counts is their work, spots and shape."""

from __future__ import annotations

from fractions import Fraction

from bookmaker.model import (
    Book,
    Certificate,
    CertifiedPage,
    Chapter,
    Estimate,
    Link,
    Number,
    Page,
    Spot,
)


def page(
    name: str, work: float, shape: str = "", spots: int = 4, position: int | None = None
) -> CertifiedPage:
    """A page of a path of ``spots`` spots that is said to take ``work``."""
    places = tuple(Spot(f"s{i}", 10.0 * i, 50.0) for i in range(spots))
    links = tuple(Link(f"s{i}", f"s{i + 1}") for i in range(spots - 1))
    numbers = tuple(Number(Fraction(2 * i + 1), str(2 * i + 1)) for i in range(spots))
    told = Page(
        name, name, "one", "one.toml", 3, None, "", "", places, links, numbers, position=position
    )
    solution = tuple(number.value for number in numbers)
    pupil = Estimate(work)
    return CertifiedPage.of(told, Certificate(shape or name, solution, 4, 2, 6.0, pupil, pupil))


def book(*chapters: list[CertifiedPage], optional: tuple[int, ...] = (), **said: object) -> Book:
    """A book of these chapters; ``optional`` names chapters by place."""
    made = tuple(
        Chapter(f"c{i}", f"Chapter {i}", "", "one.toml", i in optional, tuple(p for p in pages))
        for i, pages in enumerate(chapters)
    )
    facts: dict[str, object] = {
        "name": "book", "title": "Book", "file": "book.toml", "grade": "3", "paper": "a4",
        "order": "ramp", "language": "en", "weeks": 12, "climb_to": "steep",
    }  # fmt: skip
    return Book(**(facts | said), chapters=made)  # type: ignore[arg-type]
