"""Galleries: as few sides as can be, pictures as large as can be, names alike."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bookmaker.layout import lay_out
from bookmaker.layout.gallery import LEAST_ROW, Gallery, Rooms, common_row, share_out
from bookmaker.model import Contents, Line, Opener, PlacedArt, PlacedPage, PlacedSpot, Record
from bookmaker.typeset import Sheet
from tests.layout.books import Shape, ordered_book, setting_of


def contents_of(shape: Shape, paper: str = "a4") -> list[PlacedPage]:
    setting = setting_of(shape, paper)
    return [lay_out(s, setting) for s in setting.bound.sides if isinstance(s.content, Contents)]


def captions(pages: list[PlacedPage], name: str) -> list[Line]:
    return [i for page in pages for i in page.items if isinstance(i, Line) and name in i.text]


@pytest.mark.parametrize("tail", [0.0, 25.0])
@pytest.mark.parametrize("chapters", [1, 3, 8, 14])
@pytest.mark.parametrize("paper", ["a4", "a5", "board"])
def test_every_page_hangs_once_and_no_row_gets_too_low(
    paper: str, chapters: int, tail: float
) -> None:
    ordered = ordered_book(Shape(chapters, 3), paper)
    sheet = Sheet(paper, recto=True)
    rooms = Rooms(sheet.area.height - 30, sheet.area.height - 7, tail)
    gallery = Gallery.of(sheet, ordered, rooms)
    sides = share_out(ordered, gallery, rooms)
    hung = [page.id for side in sides for entry in side for page in entry.pages]
    assert hung == [page.id for page in ordered.pages]
    assert common_row(sides, gallery, rooms) >= LEAST_ROW


def test_a_short_book_has_larger_pictures_than_a_long_one() -> None:
    def largest(chapters: int, pages: int) -> float:
        shown = contents_of(Shape(chapters, pages))
        return max(i.window.height for p in shown for i in p.items if isinstance(i, PlacedArt))

    assert largest(1, 6) > 1.5 * largest(10, 6)


def test_chapters_stand_beside_each_other_where_there_is_room_for_it() -> None:
    """Eight chapters of three take two sides of a board, as two rows of two chapters fit."""
    assert len(contents_of(Shape(8, 3), "board")) == 2


def test_all_names_have_one_size() -> None:
    """One of three words that go into two lines, and others that would go into one."""
    shown = contents_of(Shape(2, 3, name="Newt {} of the"), "a5")
    assert len({line.size for line in captions(shown, "Newt")}) == 1


@pytest.mark.parametrize("paper", ["a5", "half-letter"])
def test_a_name_of_one_word_is_not_torn_and_all_keep_one_size(paper: str) -> None:
    shown = captions(contents_of(Shape(2, 3, name="Salamander {}"), paper), "Salamander")
    assert len(shown) == 6
    assert len({line.size for line in shown}) == 1
    assert shown[0].size >= 12


def test_a_long_name_takes_more_lines_rather_than_smaller_type() -> None:
    shown = contents_of(Shape(1, 6, name="Hedgehog {}, found behind the bicycle shed"))
    assert min(line.size for line in captions(shown, "Hedgehog")) >= 14


@pytest.mark.parametrize("kind", [Contents, Record])
def test_a_page_without_a_picture_shows_its_tree(kind: type) -> None:
    setting = setting_of(Shape(1, 3))
    first, *others = setting.bound.ordered.chapters[0].pages
    bare = replace(first, art=None)
    entries = (replace(setting.bound.ordered.chapters[0], pages=(bare, *others)),)
    side = next(s for s in setting.bound.sides if isinstance(s.content, kind))
    told = replace(side, content=replace(side.content, entries=entries))  # type: ignore[type-var]
    page = lay_out(told, setting)
    spots = [item for item in page.items if isinstance(item, PlacedSpot)]
    art = [item.window for item in page.items if isinstance(item, PlacedArt)]
    name = captions([page], first.name)[0]
    assert [spot.name for spot in spots] == [spot.name for spot in first.spots]
    assert len(art) == 2
    assert max(spot.y + spot.radius for spot in spots) < name.y
    right = max(spot.x + spot.radius for spot in spots)
    assert all(right < window.x or name.y < window.y for window in art)


@pytest.mark.parametrize(("pages", "least"), [(1, 0.9), (2, 0.4), (3, 0.29), (7, 0.29)])
def test_an_opener_without_an_ornament_is_filled_by_its_creatures(pages: int, least: float) -> None:
    setting = setting_of(Shape(1, pages))
    page = lay_out(next(s for s in setting.bound.sides if isinstance(s.content, Opener)), setting)
    art = [item.window for item in page.items if isinstance(item, PlacedArt)]
    area = Sheet("a4", recto=True).area
    assert len(art) == min(pages, 3)
    assert min(window.width for window in art) >= least * area.width or (
        min(window.height for window in art) >= 0.5 * area.height
    )
