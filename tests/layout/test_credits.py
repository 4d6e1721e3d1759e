"""The side that says who made the pictures ends the children's book with an ornament."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from bookmaker.layout import Setting, lay_out
from bookmaker.model import Box, Credits, Line, PlacedArt, PlacedPage
from bookmaker.typeset.paper import Sheet
from tests.layout.books import PICTURES, Shape, picture, setting_of

ORNAMENT = Path("ornament.svg")
LOW = replace(picture(wide=True), height=300.0, digest="o" * 64)


def ending(shape: Shape, paper: str, ornament: bool = True) -> list[PlacedPage]:
    """The sides of the credits, of a book whose last chapter has an ornament or none."""
    setting = setting_of(shape, paper)
    ordered = setting.bound.ordered
    last = replace(ordered.chapters[-1], ornament=ORNAMENT if ornament else None)
    ordered = replace(
        ordered,
        chapters=(*ordered.chapters[:-1], last),
    )
    bound = replace(setting.bound, ordered=ordered)
    setting = Setting(
        paper, setting.words, bound, {**PICTURES, ORNAMENT: LOW}, setting.puzzles, 1.0
    )
    return [lay_out(s, setting) for s in bound.sides if isinstance(s.content, Credits)]


def art(page: PlacedPage) -> list[Box]:
    return [item.window for item in page.items if isinstance(item, PlacedArt)]


@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "half-letter"])
def test_the_last_chapters_ornament_stands_under_the_credits(paper: str) -> None:
    (page,) = ending(Shape(), paper)
    (window,) = art(page)
    assert window.width == pytest.approx(Sheet(paper, recto=True).area.width)
    folio = max(item.y for item in page.items if isinstance(item, Line))
    said = max(item.y for item in page.items if isinstance(item, Line) and item.y < folio)
    assert said + 5 < window.y
    assert window.bottom < folio - 5


def test_without_an_ornament_or_room_there_is_none() -> None:
    assert [art(page) for page in ending(Shape(), "a4", ornament=False)] == [[]]
    full = ending(Shape(9, 9, name="The creature of the river, the ninth of those {}"), "a5")
    assert all(art(page) == [] for page in full[:-1])
    for page in full:
        for window in art(page):
            below = [i.y for i in page.items if isinstance(i, Line) and i.y > window.y - 3]
            assert len(below) == 1, "the number of the side alone"
