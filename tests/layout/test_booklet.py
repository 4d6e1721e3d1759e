"""Booklet sheets: two pages side by side, in order, towards the fold, with their marks."""

from __future__ import annotations

import pytest

from bookmaker.layout import lay_out
from bookmaker.layout.booklet import booklet_size, lay_out_booklet
from bookmaker.layout.order.imposition import impose
from bookmaker.model import Frame, InternalLink, Line, PlacedPage, Rule
from bookmaker.model.picture import Box
from bookmaker.typeset import PAPERS
from bookmaker.words import load
from tests.layout.books import Shape, setting_of
from tests.layout.looking import box_of

WORDS = load("en")


def sheets_of(shape: Shape, paper: str) -> tuple[PlacedPage, ...]:
    setting = setting_of(shape, paper)
    pages = [lay_out(side, setting) for side in setting.bound.sides]
    return lay_out_booklet(pages, impose(len(pages)), paper, WORDS)


def numbered(count: int, paper: str) -> list[PlacedPage]:
    width, height = PAPERS[paper]
    return [
        PlacedPage(str(i), width, height, (Frame(Box(20, 20, 30, 30), str(i)),))
        for i in range(1, count + 1)
    ]


@pytest.mark.parametrize(
    ("paper", "size"),
    [
        ("a5", (297.0, 210.0)),  # ISO 216: A5 halves A4
        ("a4", (420.0, 297.0)),
        ("half-letter", (279.4, 215.9)),  # ANSI/ASME Y14.1: letter on its side
        ("letter", (431.8, 279.4)),
    ],
)
def test_a_sheet_is_the_doubled_paper(paper: str, size: tuple[float, float]) -> None:
    assert booklet_size(paper) == pytest.approx(size)


def test_each_page_stands_on_its_half_in_the_order_of_the_sheets() -> None:
    pages = numbered(8, "a5")
    placed = lay_out_booklet(pages, impose(8), "a5", WORDS)
    found = []
    for sheet in placed:
        frames = [item for item in sheet.items if isinstance(item, Frame)]
        found.append([int(f.role) for f in sorted(frames, key=lambda f: f.box.x)])
    assert found == [[8, 1], [2, 7], [6, 3], [4, 5]]


def test_inner_sheets_move_towards_the_fold() -> None:
    placed = lay_out_booklet(numbered(12, "a5"), impose(12, 0.2), "a5", WORDS)
    right = [
        max(item.box.x for item in sheet.items if isinstance(item, Frame)) for sheet in placed[::2]
    ]
    left = [
        min(item.box.x for item in sheet.items if isinstance(item, Frame)) for sheet in placed[::2]
    ]
    assert right == pytest.approx([right[0], right[0] - 0.2, right[0] - 0.4])
    assert left == pytest.approx([left[0], left[0] + 0.2, left[0] + 0.4])


@pytest.mark.parametrize("paper", ["a5", "half-letter", "a4"])
def test_nothing_crosses_the_fold_or_leaves_the_printable_sheet(paper: str) -> None:
    for sheet in sheets_of(Shape(3, 4), paper):
        middle = sheet.width / 2
        for item in sheet.items:
            box = box_of(item)
            if box is None or (isinstance(item, Rule) and item.role in ("fold", "staple")):
                continue
            if isinstance(item, Line) and item.tag == "" and item.text == WORDS("booklet.print"):
                assert box.bottom < sheet.height - 2
                continue
            assert box.right < middle - 9 or box.x > middle + 9
            assert box.x > 9.5
            assert box.right < sheet.width - 9.5


def test_marks_and_the_saying_stand_on_the_outermost_sheet_alone() -> None:
    first, second, *others = sheets_of(Shape(2, 4), "a5")
    marks = [item.role for item in first.items if isinstance(item, Rule)]
    assert marks.count("fold") == 2
    assert marks.count("staple") == 2
    assert WORDS("booklet.print") in [i.text for i in second.items if isinstance(i, Line)]
    for sheet in others:
        roles = {item.role for item in sheet.items if isinstance(item, Rule)}
        assert not roles & {"fold", "staple"}


def test_links_between_pages_are_left_out_on_paper() -> None:
    assert not any(
        isinstance(i, InternalLink) for sheet in sheets_of(Shape(1, 2), "a5") for i in sheet.items
    )
