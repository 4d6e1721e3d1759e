"""A tree goes to the drawing sheet and comes back to the page at its own places, cleanly."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookmaker.layout import has_moved, place_drawn, tree_for_sheet
from bookmaker.model import Box, CertifiedPage, Drawn, Link, Picture, Spot
from bookmaker.placement import NoCleanLayout
from bookmaker.placement.finished import faults
from bookmaker.placement.sizes import Sizes
from bookmaker.placement.tree_placement import TreePlacement
from bookmaker.scanning.sheet_plan import PAPERS as SHEETS
from bookmaker.scanning.sheet_plan import sheet_plan
from bookmaker.typeset import Sheet
from bookmaker.words import load
from tests.ordering.pages import page

WORDS = load("en")
WHOLE = Box(0, 0, 1, 1)
PICTURE = Picture("png", 1800, 2100, WHOLE, b"", "0" * 64)
PLACES = {
    "star": ([(50, 12), (18, 38), (50, 45), (82, 50)], [(2, 0), (2, 1), (2, 3)]),
    "edge": ([(1, 1), (99, 30), (50, 50), (2, 99)], [(2, 0), (2, 1), (2, 3)]),
    "row": ([(10, 50), (37, 52), (63, 50), (90, 52)], [(0, 1), (1, 2), (2, 3)]),
}


def a_page(places: list[tuple[float, float]], edges: list[tuple[int, int]]) -> CertifiedPage:
    made = page("Newt", 5, spots=len(places))
    spots = tuple(Spot(f"s{i}", x, y) for i, (x, y) in enumerate(places))
    links = tuple(Link(f"s{a}", f"s{b}") for a, b in edges)
    return replace(made, spots=spots, links=links)


def frame_of(sheet: str) -> tuple[float, float]:
    frame = sheet_plan(sheet).frame
    return frame.width, frame.height


def as_drawn(made: CertifiedPage, drawn: Drawn, name: str = "Newt") -> CertifiedPage:
    return replace(made, drawn=drawn, name=name, fixed=True)


@pytest.mark.parametrize("kind", PLACES)
@pytest.mark.parametrize("sheet", sorted(SHEETS))
@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "half-letter", "a3"])
@pytest.mark.parametrize("title", ["Newt", "The great river serpent of the lower water meadows"])
def test_what_a_sheet_shows_comes_back_to_its_own_places(
    kind: str, sheet: str, paper: str, title: str
) -> None:
    made = a_page(*PLACES[kind])
    drawn = tree_for_sheet(made, frame_of(sheet), Sheet(paper, True), WORDS)
    assert all(spot.radius <= spot.x <= drawn.width - spot.radius for spot in drawn.spots)
    assert all(spot.radius <= spot.y <= drawn.height - spot.radius for spot in drawn.spots)
    placed = place_drawn(as_drawn(made, drawn, title), PICTURE, Sheet(paper, True), WORDS)
    assert placed.art is not None
    box = placed.art.box
    scale = box.width / drawn.width
    assert box.height == pytest.approx(drawn.height * scale)
    for spot, there in zip(placed.tree.spots, drawn.spots, strict=True):
        assert spot.x == pytest.approx(box.x + there.x * scale, abs=0.01)
        assert spot.y == pytest.approx(box.y + there.y * scale, abs=0.01)
    for link, there_link in zip(placed.tree.links, drawn.links, strict=True):
        assert len(link.curve) == len(there_link.curve)
    least = Sizes.of(paper, 2)
    assert placed.tree.spots[0].radius >= least.radius - 0.03
    assert not faults(placed.tree, box, replace(least, spot=2 * placed.tree.spots[0].radius))


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0, 100), st.floats(0, 100)), min_size=2, max_size=6),
    st.sampled_from(sorted(SHEETS)),
)
def test_a_tree_is_clean_on_its_sheet_or_refused(
    places: list[tuple[float, float]], sheet: str
) -> None:
    made = a_page(places, [(i, i + 1) for i in range(len(places) - 1)])
    try:
        drawn = tree_for_sheet(made, frame_of(sheet), Sheet("a4", True), WORDS)
    except NoCleanLayout:
        return
    tree = TreePlacement(drawn.spots, drawn.links, drawn.tags)
    scale = drawn.spots[0].radius / 10
    sizes = Sizes.of("a4", 2)
    full = replace(
        sizes,
        spot=20 * scale,
        tag_width=15 * scale,
        tag_height=12 * scale,
        spot_gap=5 * scale,
        link_gap=3 * scale,
        tag_gap=2 * scale,
        visible=3 * scale,
        cord_gap=3 * scale,
    )
    assert not faults(tree, Box(0, 0, drawn.width, drawn.height), full)


def test_smaller_paper_keeps_the_spots_and_arranges_the_rest_or_refuses() -> None:
    made = a_page(*PLACES["star"])
    drawn = tree_for_sheet(made, frame_of("a4"), Sheet("a4", True), WORDS)
    placed = place_drawn(as_drawn(made, drawn), PICTURE, Sheet("a5", True), WORDS)
    assert placed.art is not None
    scale = placed.art.box.width / drawn.width
    assert placed.tree.spots[0].radius == 8
    assert placed.tree.spots[0].x == pytest.approx(placed.art.box.x + drawn.spots[0].x * scale)
    crowded = a_page([(10, 10), (25, 15), (40, 10), (10, 30)], [(0, 1), (1, 2), (0, 3)])
    drawn = tree_for_sheet(crowded, frame_of("a4"), Sheet("a4", True), WORDS)
    with pytest.raises(NoCleanLayout):
        place_drawn(as_drawn(crowded, drawn), PICTURE, Sheet("a5", True), WORDS)


@pytest.mark.parametrize(("shift", "says"), [(0, False), (2, False), (12, True)])
def test_spots_that_moved_far_are_noticed(shift: float, says: bool) -> None:
    places, edges = PLACES["star"]
    made = a_page(places, edges)
    drawn = tree_for_sheet(made, frame_of("a4"), Sheet("a4", True), WORDS)
    now = a_page([*places[:-1], (places[-1][0] - shift, places[-1][1])], edges)
    assert has_moved(now, drawn, Sheet("a4", True), WORDS) is says


def test_a_spot_by_another_name_is_a_change() -> None:
    made = a_page(*PLACES["star"])
    drawn = tree_for_sheet(made, frame_of("a4"), Sheet("a4", True), WORDS)
    spots = (Spot("nose", 50, 12), *made.spots[1:])
    other = replace(made, spots=spots)
    assert has_moved(other, drawn, Sheet("a4", True), WORDS)
