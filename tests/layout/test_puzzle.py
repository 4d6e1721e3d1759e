"""The puzzle page: what hangs where, what is printed beforehand, and what never is."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bookmaker.layout import Setting, lay_out, place_puzzle
from bookmaker.layout.puzzle import in_words
from bookmaker.model import (
    Answers,
    BoundBook,
    Description,
    Frame,
    HowTo,
    InternalLink,
    Line,
    Number,
    PlacedArt,
    PlacedPage,
    PlacedSpot,
    PlacedTag,
    Puzzle,
    Rule,
    Side,
)
from bookmaker.typeset import Sheet, ascent, width
from bookmaker.words import languages, load
from tests.layout.books import ONE, PICTURES, TWO, Shape, setting_of
from tests.making import book_of, page_of

STAR = (("a", "b"), ("a", "c"), ("a", "d"))


def puzzle_pages(setting: Setting) -> list[PlacedPage]:
    return [lay_out(s, setting) for s in setting.bound.sides if isinstance(s.content, Puzzle)]


def placed_alone(given: dict[str, Number], paper: str = "a4", language: str = "en") -> PlacedPage:
    page = page_of("newt", STAR, ONE, TWO, given)
    words = load(language)
    puzzle = place_puzzle(page, None, Sheet(paper, recto=True), words)
    side = Side("newt", "1", True, Puzzle(page))
    bound = BoundBook(book_of([page]), (side,))
    return lay_out(side, Setting(paper, words, bound, {}, {"newt": puzzle}))


def texts(page: PlacedPage) -> list[str]:
    return [item.text for item in page.items if isinstance(item, Line)]


def test_a_wide_picture_hangs_under_the_title_with_its_numbers_close() -> None:
    page = puzzle_pages(setting_of(Shape(1, 1, wide=True)))[0]
    art = next(item for item in page.items if isinstance(item, PlacedArt))
    title = next(item for item in page.items if isinstance(item, Line) and item.tag == "H1")
    boxes = [i.box for i in page.items if isinstance(i, Frame) and i.role == "number-box"]
    assert art.window.y - title.y < 12
    assert 2 < min(box.y for box in boxes) - art.window.bottom < 12


@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "half-letter"])
def test_the_height_that_a_low_picture_leaves_lies_above_and_below_it(paper: str) -> None:
    """Two fifths above, as a mount has it; the rest, to work in, below."""
    above, below = left_over(paper, wide=True)
    assert above == pytest.approx(2 / 3 * below, abs=0.1)


@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "half-letter"])
def test_titles_of_pictures_that_nearly_fill_the_page_stand_at_one_height(paper: str) -> None:
    above, below = left_over(paper, wide=False)
    assert above == pytest.approx(0, abs=0.1)
    assert below < 25


def left_over(paper: str, wide: bool) -> tuple[float, float]:
    """The height above the title and below the numbers that nothing needs."""
    page = puzzle_pages(setting_of(Shape(1, 1, wide=wide), paper))[0]
    title = next(item for item in page.items if isinstance(item, Line) and item.tag == "H1")
    boxes = [i.box for i in page.items if isinstance(i, Frame) and i.role == "number-box"]
    under_the_name = 10 + 5 + 6 + ascent("title", title.size)
    above = title.y - under_the_name
    return above, page.height - 10 - 9.5 - max(box.bottom for box in boxes)


@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "half-letter"])
def test_the_line_for_the_name_ends_before_the_margin_in_large_print(paper: str) -> None:
    """80 mm long (design: the page, sizes), 112 where all is enlarged and there is room."""
    page = puzzle_pages(setting_of(Shape(1, 1), paper, scale=1.4))[0]
    lines = [i for i in page.items if isinstance(i, Rule) and i.role == "write"]
    area = Sheet(paper, recto=True, scale=1.4).area
    assert max(line.end[0] for line in lines) <= area.right * 1.4 + 0.01
    assert max(line.end[0] - line.start[0] for line in lines) >= 80


@pytest.mark.parametrize(
    ("paper", "scale"),
    [("a4", 1.0), ("letter", 1.0), ("a5", 1.0), ("half-letter", 1.0), ("a4", 1.4), ("letter", 1.4)],
)
def test_title_and_numbers_stand_in_line_with_their_picture(paper: str, scale: float) -> None:
    """On letter and A5 the picture is a few millimetres narrower than the page."""
    page = puzzle_pages(setting_of(Shape(1, 1), paper, scale=scale))[0]
    window = next(item.window for item in page.items if isinstance(item, PlacedArt))
    title = next(item for item in page.items if isinstance(item, Line) and item.tag == "H1")
    frames = [item for item in page.items if isinstance(item, Frame)]
    boxes = [frame.box for frame in frames if frame.role == "number-box"]
    steps = [frame.box for frame in frames if frame.role.startswith("step-")]
    lines = [i for i in page.items if isinstance(i, Rule) and i.role == "write"]
    assert title.x == pytest.approx(window.x)
    assert min(box.x for box in boxes) == pytest.approx(window.x)
    assert max(box.right for box in steps) == pytest.approx(window.right, abs=1.2)
    assert max(line.end[0] for line in lines) == pytest.approx(window.right)
    assert max(box.right for box in boxes) < min(box.x for box in steps)


@pytest.mark.parametrize("scale", [1.0, 1.4])
@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "half-letter"])
def test_the_number_of_a_side_keeps_off_the_numbers_to_use(paper: str, scale: float) -> None:
    page = puzzle_pages(setting_of(Shape(1, 1), paper, scale=scale))[0]
    boxes = [i.box for i in page.items if isinstance(i, Frame) and i.role == "number-box"]
    lines = (item for item in page.items if isinstance(item, Line))
    folio = max(lines, key=lambda line: (line.y, line.size))
    top = folio.y - ascent(folio.face, folio.size)
    assert top - max(box.bottom for box in boxes) > 4.5 * scale


def test_the_numbers_of_a_low_picture_are_larger() -> None:
    """At least 20 points in boxes of 10 mm."""

    def box(wide: bool) -> float:
        page = puzzle_pages(setting_of(Shape(1, 1, wide=wide)))[0]
        return next(
            i.box.height for i in page.items if isinstance(i, Frame) and i.role == "number-box"
        )

    assert box(wide=True) > box(wide=False) >= 10


def test_an_upright_picture_fills_half_of_the_paper() -> None:
    page = puzzle_pages(setting_of(Shape(1, 1)))[0]
    art = next(item for item in page.items if isinstance(item, PlacedArt))
    assert art.window.width * art.window.height >= 0.5 * page.width * page.height


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "half-letter"])
def test_the_line_for_a_name_is_long_enough_and_has_air_above(paper: str, language: str) -> None:
    """80 mm long, 12 mm clear above."""
    page = puzzle_pages(setting_of(Shape(1, 1), paper, language))[0]
    lines = [item for item in page.items if isinstance(item, Rule) and item.role == "write"]
    name = min(lines, key=lambda line: (line.start[1], line.start[0]))
    assert name.end[0] - name.start[0] >= 80 - 1e-6
    above = [
        item
        for item in page.items
        if isinstance(item, Line)
        and name.start[1] - 12 < item.y < name.start[1] - 1
        and item.x < name.end[0]
        and item.x + width(item.text, item.face, item.size) > name.start[0]
    ]
    assert not above
    assert name.start[1] >= 12


def test_given_numbers_are_printed_in_their_spots_and_nothing_else_is() -> None:
    three = Number.parse("3")
    page = placed_alone({"b": three})
    spot = next(i for i in page.items if isinstance(i, PlacedSpot) and i.name == "b")
    given = [i for i in page.items if isinstance(i, Line) and i.role == "given"]
    assert [(line.text, line.x) for line in given] == [("3", spot.x)]


def test_numbers_take_the_decimal_mark_of_the_language() -> None:
    start, step = Number.parse("0.3"), Number.parse("0.4")
    page = page_of("newt", STAR, start, step)
    words = load("fr")
    puzzle = place_puzzle(page, None, Sheet("a4", recto=True), words)
    shown = [item.text for item in puzzle.foot if isinstance(item, Line)]
    assert shown[:4] == ["0,3", "0,7", "1,1", "1,5"]


@pytest.mark.parametrize("paper", ["a4", "a5", "board"])
def test_no_pupils_page_writes_a_number_into_a_spot_or_a_tag(paper: str) -> None:
    """Only the worked example may, and it is no page of the book (tests/steps/test_example.py)."""
    setting = setting_of(Shape(2, 3), paper)
    for side in setting.bound.sides:
        if isinstance(side.content, HowTo | Answers):
            continue
        page = lay_out(side, setting)
        spots = [item for item in page.items if isinstance(item, PlacedSpot)]
        tags = [item.box for item in page.items if isinstance(item, PlacedTag)]
        for line in (item for item in page.items if isinstance(item, Line)):
            assert line.role not in ("solved", "difference", "letter", "example")
            assert not any((line.x - s.x) ** 2 + (line.y - s.y) ** 2 < s.radius**2 for s in spots)
            assert not any(
                box.x < line.x < box.right and box.y < line.y < box.bottom for box in tags
            )


def test_a_screen_reader_hears_spots_and_links_but_no_solution() -> None:
    page = page_of("newt", STAR, ONE, TWO)
    told = in_words(page, load("en"))
    assert told == "Newt. 4 spots. Joined are a and b, a and c, a and d."


def test_a_page_without_a_picture_is_told_in_words_as_well() -> None:
    told = [item.text for item in placed_alone({}).items if isinstance(item, Description)]
    assert told == ["Newt. 4 spots. Joined are a and b, a and c, a and d."]


def test_what_marks_a_low_picture_moves_with_it() -> None:
    """Proofs and the key read the placed puzzle: it holds the places that are printed."""
    setting = setting_of(Shape(1, 1, wide=True))
    placed = setting.puzzles["creature-1"]
    page = puzzle_pages(setting)[0]
    printed = {i.name: i.y for i in page.items if isinstance(i, PlacedSpot)}
    assert printed == {spot.name: pytest.approx(spot.y) for spot in placed.tree.spots}
    art = next(item for item in page.items if isinstance(item, PlacedArt))
    assert placed.art
    assert art.window.y == pytest.approx(placed.art.window.y)


def test_the_pages_number_leads_to_its_answer_where_there_is_one() -> None:
    setting = setting_of(Shape(1, 2))
    side = next(s for s in setting.bound.sides if isinstance(s.content, Puzzle))
    assert isinstance(side.content, Puzzle)
    answer = Side("key-1", "A1", True, Answers((side.content.page,)))
    bound = replace(setting.bound, sides=(*setting.bound.sides, answer))
    with_key = lay_out(side, replace(setting, bound=bound))
    assert [i.target for i in with_key.items if isinstance(i, InternalLink)] == ["key-1"]
    assert not [i for i in lay_out(side, setting).items if isinstance(i, InternalLink)]


def test_the_picture_is_laid_down_before_links_tags_and_spots() -> None:
    page = puzzle_pages(setting_of(Shape(1, 1)))[0]
    kinds = [type(item).__name__ for item in page.items]
    order = [kinds.index(k) for k in ("PlacedArt", "PlacedLink", "PlacedTag", "PlacedSpot")]
    assert order == sorted(order)
    assert PICTURES
