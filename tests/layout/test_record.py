"""The record shows marks to colour in, and pictures where a page has no mark."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from bookmaker.layout import Setting, lay_out
from bookmaker.layout.gallery import TO_COLOUR
from bookmaker.model import (
    Box,
    Contents,
    Drawn,
    Handout,
    Line,
    OrderedBook,
    Picture,
    PlacedArt,
    Record,
    Side,
)
from bookmaker.words import load
from tests.layout.books import PICTURES, Shape, bound_book, ordered_book

MARK = Picture("svg", 600.0, 600.0, Box(0, 0, 1, 1), b"<svg/>", "m" * 64, cover=0.2)


def setting_with_a_mark() -> Setting:
    """A book of two pages, the first of which has a mark."""
    ordered = ordered_book(Shape(chapters=1, pages=2))
    (chapter,) = ordered.chapters
    first = replace(chapter.pages[0], mark=Path("mark.svg"))
    marked = OrderedBook.of(ordered, (replace(chapter, pages=(first, *chapter.pages[1:])),))
    pictures = {**PICTURES, Path("mark.svg"): MARK}
    return Setting("a4", load("en"), bound_book(marked), pictures, {})


def shown_on(kind: type, setting: Setting) -> list[str]:
    """Digests of the small pictures on the side of ``kind``."""
    side = next(side for side in setting.bound.sides if isinstance(side.content, kind))
    items = lay_out(side, setting).items
    return [item.picture for item in items if isinstance(item, PlacedArt)]


def test_the_record_shows_a_pages_mark_and_else_its_picture() -> None:
    picture = PICTURES[Path("upright.svg")].digest
    assert shown_on(Record, setting_with_a_mark()) == [MARK.digest, picture]


def test_the_contents_keep_to_the_pictures() -> None:
    picture = PICTURES[Path("upright.svg")].digest
    assert shown_on(Contents, setting_with_a_mark())[:2] == [picture, picture]


def test_what_has_no_mark_is_printed_pale_to_be_coloured_in() -> None:
    setting = setting_with_a_mark()
    side = next(side for side in setting.bound.sides if isinstance(side.content, Record))
    art = [item for item in lay_out(side, setting).items if isinstance(item, PlacedArt)]
    assert [item.paled for item in art] == [0.0, TO_COLOUR]


def test_a_childs_drawing_keeps_more_of_its_colours_than_what_is_to_be_coloured_in() -> None:
    setting = setting_with_a_mark()
    (chapter,) = setting.bound.ordered.chapters
    first, second = chapter.pages
    drawn = replace(second, drawn=Drawn(180, 210, (), (), ()))
    ordered = OrderedBook.of(setting.bound.ordered, (replace(chapter, pages=(first, drawn)),))
    side = Side("record", "1", True, Record(ordered.chapters, True))
    art = [item for item in lay_out(side, setting).items if isinstance(item, PlacedArt)]
    assert 0 < art[1].paled < TO_COLOUR


def test_the_pictures_of_the_contents_keep_their_colours() -> None:
    setting = setting_with_a_mark()
    side = next(side for side in setting.bound.sides if isinstance(side.content, Contents))
    art = [item for item in lay_out(side, setting).items if isinstance(item, PlacedArt)]
    assert not any(item.paled for item in art)


def test_a_handout_of_one_chapter_says_its_title_once() -> None:
    setting = setting_with_a_mark()
    (chapter,) = setting.bound.ordered.chapters
    side = Side("record", "1", True, Handout(chapter.title, (chapter,)))
    bound = replace(setting.bound, sides=(side,))
    items = lay_out(side, replace(setting, bound=bound)).items
    told = " ".join(item.text for item in items if isinstance(item, Line))
    assert told.count(chapter.title) == 1


def test_broad_pictures_of_a_handout_stand_close_under_their_title() -> None:
    """Two broad pictures have room for upright ones; none of it is left above them."""
    ordered = ordered_book(Shape(chapters=1, pages=2, wide=True))
    setting = Setting("a4", load("en"), bound_book(ordered), PICTURES, {})
    side = Side("record", "1", True, Handout("Week 3", ordered.chapters))
    items = lay_out(side, replace(setting, bound=replace(setting.bound, sides=(side,)))).items
    title = next(i for i in items if isinstance(i, Line) and i.text == ordered.chapters[0].title)
    tops = {round(item.window.y - title.y, 1) for item in items if isinstance(item, PlacedArt)}
    assert len(tops) == 1
    assert 0 < tops.pop() < 5
