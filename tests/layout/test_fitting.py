"""Pages placed on their paper: what is said where a picture is coarse."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from bookmaker.cache import MemoryCache
from bookmaker.classroom.drawn_page import drawn_page, free_page
from bookmaker.classroom.sheet_page import FREE
from bookmaker.layout import tree_for_sheet
from bookmaker.layout.fitting import fit_book
from bookmaker.model import (
    Box,
    CertifiedPage,
    Link,
    OrderedBook,
    OrderedChapter,
    Page,
    Picture,
    Pupil,
    SheetEntry,
    Spot,
)
from bookmaker.scanning.pale import PaleMarks, write_pale
from bookmaker.scanning.sheet_plan import sheet_plan
from bookmaker.typeset import Sheet
from bookmaker.words import load
from tests.ordering.pages import book, page

WORDS = load("en")
ART = Path("1.png")
FRAME = sheet_plan("a4").frame
PLACES = [(50.0, 12.0), (18.0, 38.0), (50.0, 45.0), (82.0, 50.0)]


def star() -> CertifiedPage:
    made = page("newt", 5)
    spots = tuple(Spot(f"s{i}", x, y) for i, (x, y) in enumerate(PLACES))
    links = tuple(Link("s2", f"s{i}") for i in (0, 1, 3))
    return replace(made, spots=spots, links=links, art=ART)


def on_its_sheet(certified: CertifiedPage) -> Page:
    tree = tree_for_sheet(certified, (FRAME.width, FRAME.height), Sheet("a4", True), WORDS)
    marks = write_pale(PaleMarks(tree.spots, tree.links, tree.tags))
    row = SheetEntry(7, "Bruno", "newt", "a4", "12345678", marks, 1)
    made = drawn_page(certified, row, Pupil("Bruno"), ART, WORDS)
    assert isinstance(made, Page)
    return made


def drawn_first(certified: CertifiedPage) -> Page:
    """A free sheet's page, with links as they would be chosen."""
    rings = tuple((x / 100 * FRAME.width, y / 100 * FRAME.height) for x, y in PLACES)
    row = SheetEntry(7, "Bruno", f"{FREE}:4", "a4", "12345678", write_pale(PaleMarks()), 1)
    made = free_page(certified, row, Pupil("Bruno"), (ART, rings), WORDS)
    assert isinstance(made, Page)
    return replace(made, links=tuple(Link("ring3", f"ring{i}") for i in (1, 2, 4)))


def said(of: Page, dots: float) -> list[str]:
    """What mends are told where the picture has so many dots an inch of a drawing sheet's frame."""
    wide, high = (round(side / 25.4 * dots) for side in (FRAME.width, FRAME.height))
    picture = Picture("png", wide, high, Box(0, 0, 1, 1), b"", "0" * 64)
    certified = CertifiedPage.of(of, star().certificate)
    made = book([certified])
    ordered = OrderedBook.of(made, (OrderedChapter.of(made.chapters[0], (certified,)),))
    sheets = [Sheet("a4", recto=True)]
    problems = fit_book(ordered, {ART: picture}, WORDS, sheets, MemoryCache()).problems
    assert {problem.code for problem in problems} <= {"art-too-coarse"}
    return [problem.mend for problem in problems]


def test_a_coarse_picture_of_the_book_s_own_is_to_be_a_larger_one() -> None:
    (mend,) = said(star(), 100)
    assert "larger picture" in mend
    assert "300 dots an inch" in mend


@pytest.mark.parametrize("made", [on_its_sheet, drawn_first])
def test_a_coarse_drawing_of_a_pupil_is_to_be_scanned_again(
    made: Callable[[CertifiedPage], Page],
) -> None:
    of = made(star())
    (mend,) = said(of, 100)
    assert mend == "Scan sheet 7 again at 300 dots an inch, or photograph it from nearer."
    assert said(of, 300) == []
