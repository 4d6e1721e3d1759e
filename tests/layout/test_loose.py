"""Loose sheets: tokens to the millimetre, a slip a rung, blank backs, all inside the margins."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import pairwise, product

import pytest

from bookmaker.cache import MemoryCache
from bookmaker.layout import PlacedPuzzle, Setting, lay_out
from bookmaker.layout.loose import TOKEN, Block, may_be_turned
from bookmaker.layout.order.loose_order import bind_loose
from bookmaker.layout.shares import measure_loose
from bookmaker.layout.slips import saying, slip_text
from bookmaker.model import (
    Blank,
    Box,
    Disc,
    Family,
    Line,
    Outline,
    PlacedPage,
    PlacedSpot,
    PlacedTag,
    Rule,
    Side,
    Slips,
    Tokens,
    Trial,
)
from bookmaker.teaching.example import worked_example
from bookmaker.teaching.hint_slips import hint_slips
from bookmaker.typeset import POINT, ascent
from bookmaker.typeset.paper import Sheet
from bookmaker.words import languages, load
from tests.layout.books import Shape, setting_of
from tests.layout.test_sides import faults

SHAPE = Shape(2, 3)


def loose(paper: str = "a4", language: str = "en", shape: Shape = SHAPE) -> Setting:
    setting = setting_of(shape, paper, language)
    ordered = setting.bound.ordered
    slips = hint_slips(ordered, MemoryCache(), 0)
    titles = dict.fromkeys(("test", "tokens", "slips", "family", "trial"), "title")
    shares = measure_loose(ordered, slips, setting.puzzles, setting.words)
    bound = bind_loose(ordered, shares, worked_example(ordered), titles)
    return replace(setting, bound=bound)


def wider(placed: PlacedPuzzle, spread: float, down: float | None = None) -> PlacedPuzzle:
    """The tree with its marks ``spread`` times as far apart, and as large as they were.

    ``down`` is the spread from above to below where it is another one.
    """
    tree, down = placed.tree, down or spread
    spots = tuple(replace(spot, x=spot.x * spread, y=spot.y * down) for spot in tree.spots)
    tags = tuple(
        replace(tag, box=replace(tag.box, x=tag.box.x * spread, y=tag.box.y * down))
        for tag in tree.tags
    )
    return replace(placed, tree=replace(tree, spots=spots, tags=tags))


def sides(setting: Setting, kind: type) -> list[tuple[Side, PlacedPage]]:
    return [(s, lay_out(s, setting)) for s in setting.bound.sides if isinstance(s.content, kind)]


@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "half-letter"])
@pytest.mark.parametrize("language", languages())
def test_loose_sheets_stay_inside_their_margins(paper: str, language: str) -> None:
    assert faults(loose(paper, language)) == []


@pytest.mark.parametrize("paper", ["a4", "a5"])
def test_tokens_of_25_mm_fill_their_side_with_sets_three_at_the_least(paper: str) -> None:
    setting = loose(paper)
    tokens = [page for _, page in sides(setting, Tokens)]
    numbers = Counter(
        item.text
        for page in tokens
        for item in page.items
        if isinstance(item, Line) and item.role == "number"
    )
    assert set(numbers) == {"1", "3", "5", "7"}
    assert len(set(numbers.values())) == 1
    assert numbers["1"] >= 3
    assert TOKEN == 25
    area = Sheet(paper, recto=True).area
    for page in tokens:
        squares = [i for i in page.items if isinstance(i, Line) and i.role == "number"]
        top = min(i.start[1] for i in page.items if isinstance(i, Rule) and i.role == "cut")
        room = area.width // 25 * ((area.bottom - 6 - top) // 25)
        assert len(squares) > room - 2 * area.width // 25, "less than two rows left over"
        cuts = [item for item in page.items if isinstance(item, Rule) and item.role == "cut"]
        across = sorted({cut.start[1] for cut in cuts if cut.start[1] == cut.end[1]})
        assert {round(b - a, 6) for a, b in pairwise(across)} == {25.0}


@pytest.mark.parametrize(("columns", "rows"), [(7, 9), (5, 5), (4, 5), (3, 2)])
@pytest.mark.parametrize("count", [3, 4, 7, 8, 12])
def test_a_set_of_tokens_is_one_block_of_squares(count: int, columns: int, rows: int) -> None:
    for block in (Block.lying(count, columns), Block.lying(count, rows).on_its_side()):
        places = {block.place(index) for index in range(count)}
        assert len(places) == count
        assert all(x < block.columns and y < block.rows for x, y in places)
        assert block.columns * block.rows - count < max(block.columns, block.rows)


def test_what_is_cut_apart_has_a_blank_back() -> None:
    setting = loose()
    cut = {
        place
        for place, s in enumerate(setting.bound.sides)
        if isinstance(s.content, Tokens | Slips)
    }
    for place in cut:
        assert setting.bound.sides[place].recto
        assert isinstance(setting.bound.sides[place + 1].content, Blank)


@pytest.mark.parametrize(
    ("text", "turned"),
    [("6", True), ("9", True), ("19", True), ("8", False), ("96", True), ("63", False)],
)
def test_numbers_that_read_upside_down_are_underlined(text: str, turned: bool) -> None:
    assert may_be_turned(text) == turned


def test_every_rung_is_a_slip_that_darkens_the_spot_it_speaks_of() -> None:
    setting = loose()
    slips = hint_slips(setting.bound.ordered, MemoryCache(), 0)
    placed = [slip for side, _ in sides(setting, Slips) for slip in side.content.slips]  # type: ignore[union-attr]
    assert placed == list(slips)
    dark = sum(
        isinstance(item, Disc) and item.role == "marked"
        for _, page in sides(setting, Slips)
        for item in page.items
    )
    assert dark == sum(bool(slip.spot) for slip in slips)


def test_slips_climb_to_the_certificates_solution() -> None:
    setting = loose()
    page = setting.bound.ordered.pages[0]
    for slip in hint_slips(setting.bound.ordered, MemoryCache(), 0):
        if slip.page is page and not slip.fact:
            told = f"Write {slip.numbers[0].text} in the dark spot."
            if slip.mirror:
                other, turn = (number.text for number in slip.mirror)
                told += f" (Or {other}: then take every hint from {turn}.)"
            assert saying(slip, load("en")) == told


def test_a_trial_sheet_of_a_small_tree_has_it_four_times_with_lines_for_each_link() -> None:
    setting = loose()
    puzzles = {name: wider(placed, 0.7) for name, placed in setting.puzzles.items()}
    setting = replace(setting, puzzles=puzzles)
    side, page = sides(setting, Trial)[0]
    assert isinstance(side.content, Trial)
    told = side.content.page
    assert sum(isinstance(item, PlacedSpot) for item in page.items) == 4 * len(told.spots)
    writing = [i for i in page.items if isinstance(i, Rule) and i.role == "write"]
    assert len(writing) == 1 + 4 * 3 * len(told.links)


@pytest.mark.parametrize("paper", ["a4", "letter", "a5"])
@pytest.mark.parametrize("spread", [0.7, 1.0, 1.4, 1.8])
def test_trees_have_lines_for_every_subtraction_or_for_none(paper: str, spread: float) -> None:
    """Two lines of five would look as if two subtractions were enough."""
    setting = loose(paper, shape=Shape(1, 1))
    puzzles = {name: wider(placed, spread) for name, placed in setting.puzzles.items()}
    for side, page in sides(replace(setting, puzzles=puzzles), Trial):
        assert isinstance(side.content, Trial)
        told = side.content.page
        trees = sum(isinstance(item, PlacedSpot) for item in page.items) / len(told.spots)
        writing = [i for i in page.items if isinstance(i, Rule) and i.role == "write"]
        assert trees in (1, 2, 4)
        assert len(writing) - 1 in (0, trees * 3 * len(told.links))


def test_a_tree_has_its_lines_beside_it_where_below_they_would_leave_it_no_room() -> None:
    setting = loose(shape=Shape(1, 1))
    puzzles = {name: wider(placed, 1.1, 1.0) for name, placed in setting.puzzles.items()}
    for side, page in sides(replace(setting, puzzles=puzzles), Trial):
        assert isinstance(side.content, Trial)
        links, spots = side.content.page.links, side.content.page.spots
        trees = [item for item in page.items if isinstance(item, PlacedSpot)]
        sums = [i for i in page.items if isinstance(i, Rule) and i.role == "write"][1:]
        assert len(trees) == 2 * len(spots)
        assert len(sums) == 2 * 3 * len(links)
        assert min(s.start[0] for s in sums) > max(spot.x + spot.radius for spot in trees)


@pytest.mark.parametrize("paper", ["a4", "a5"])
def test_where_a_side_has_no_room_for_four_trees_the_back_has_the_others(paper: str) -> None:
    setting = loose(paper, shape=Shape(1, 2))
    found = sides(setting, Trial)
    spots = [sum(isinstance(i, PlacedSpot) for i in page.items) for _, page in found]
    told = [side.content.page for side, _ in found if isinstance(side.content, Trial)]
    for page in dict.fromkeys(page.id for page in told):
        own = [n for n, each in zip(spots, told, strict=True) if each.id == page]
        assert len(own) == (1 if own[0] == 16 else 2)
    first = [side for side, _ in found if not side.name.endswith("-back")]
    assert all(side.recto for side in first)


@pytest.mark.parametrize("paper", ["a4", "a5"])
@pytest.mark.parametrize("spread", [1.0, 1.4, 1.8])
def test_trial_sheets_can_be_written_in(paper: str, spread: float) -> None:
    setting = loose(paper, shape=Shape(1, 1))
    # A tree whose marks are small in it, as those of many spots are, on a page of its own size.
    puzzles = {name: wider(placed, spread) for name, placed in setting.puzzles.items()}
    for _, page in sides(replace(setting, puzzles=puzzles), Trial):
        spots = [item for item in page.items if isinstance(item, PlacedSpot)]
        tags = [item.box for item in page.items if isinstance(item, PlacedTag)]
        assert min(2 * spot.radius for spot in spots) >= 11
        assert min(box.width for box in tags) >= 9
        assert min(box.height for box in tags) >= 7.5


def test_a_trial_sheet_prints_the_numbers_to_use() -> None:
    setting = loose()
    side, page = sides(setting, Trial)[0]
    assert isinstance(side.content, Trial)
    numbers = [i.text for i in page.items if isinstance(i, Line) and i.role == "number"]
    assert numbers == [number.text for number in side.content.page.numbers]


@pytest.mark.parametrize("paper", ["a4", "a5"])
def test_a_long_name_stays_clear_of_its_hint(paper: str) -> None:
    setting = loose(paper)
    sheet = Sheet(paper, recto=True)
    for slip in hint_slips(setting.bound.ordered, MemoryCache(), 0):
        name = ("the river " * 11)[:107]
        page = replace(slip.page, name=name)
        box = Box(0.0, 0.0, sheet.area.width, 0.0)
        lines, _ = slip_text(replace(slip, page=page), box, setting.words)
        heads = [line for line in lines if line.role == "heading"]
        said = [line for line in lines if line.role == "body"]
        assert {line.size for line in said} == {16.0}
        lowest = heads[-1].y + 0.25 * heads[-1].size * POINT
        assert said[0].y - ascent("text", 16.0) >= lowest + 1


def test_what_is_handed_out_is_a_leaf_of_its_own() -> None:
    """Its back is empty, or has the other trees of the same page."""
    bound = loose().bound
    leaves = [bound.sides[place : place + 2] for place in range(0, len(bound.sides), 2)]
    for leaf in leaves:
        front, *backs = (side.content for side in leaf)
        if isinstance(front, Family | Trial):
            assert all(back == front or isinstance(back, Blank) for back in backs)
        else:
            assert not any(isinstance(back, Family | Trial) for back in backs)


@pytest.mark.parametrize("paper", ["a4", "a5", "half-letter"])
def test_the_arrow_of_the_familys_example_stays_clear_of_what_is_said_above(paper: str) -> None:
    ((_, page),) = sides(loose(paper), Family)
    (arrow,) = [i for i in page.items if isinstance(i, Outline) and i.role == "swap"]
    highest = min(y for run in arrow.runs for _, y in run)
    above = [i for i in page.items if isinstance(i, Line) and i.y < highest and i.role == "body"]
    assert highest - max(line.y + 0.25 * line.size * POINT for line in above) >= 3


def test_the_test_print_has_a_rule_of_100_mm() -> None:
    setting = loose()
    page = lay_out(setting.bound.sides[0], setting)
    rule = next(i for i in page.items if isinstance(i, Rule) and i.role == "write")
    assert rule.end[0] - rule.start[0] == pytest.approx(100.0)


@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "half-letter"])
def test_the_test_print_marks_the_corners_of_what_is_printed_on(paper: str) -> None:
    """A cut-off corner is seen; nothing else of this side comes near the paper's edges."""
    setting = loose(paper)
    page = lay_out(setting.bound.sides[0], setting)
    area = Sheet(paper, recto=True).area
    ends = [i.start for i in page.items if isinstance(i, Rule) and i.role == "frame"]
    for corner in ((x, y) for x in (area.x, area.right) for y in (area.y, area.bottom)):
        assert ends.count(corner) == 2


@pytest.mark.parametrize("paper", ["a4", "a5"])
def test_a_hints_words_stand_in_the_middle_of_their_strip(paper: str) -> None:
    """Air over the heading's capitals and under the last line's letters, to half a millimetre."""
    for _, page in sides(loose(paper), Slips):
        rules = [i for i in page.items if isinstance(i, Rule) and i.role == "cut"]
        cuts = sorted(rule.start[1] for rule in rules if rule.start[1] == rule.end[1])
        lines = [i for i in page.items if isinstance(i, Line) and i.y > cuts[0]]
        columns = sorted({line.x for line in lines})
        for (top, bottom), x in product(pairwise(cuts), columns):
            own = [line for line in lines if top < line.y < bottom and line.x == x]
            if not own:
                continue
            above = min(line.y - ascent("strong", line.size) for line in own) - top
            below = bottom - max(line.y + 0.25 * line.size * POINT for line in own)
            assert above == pytest.approx(below, abs=0.5)
