"""Where a page is tight: each kind of gap is marked, with its width in millimetres."""

from __future__ import annotations

import pytest

from bookmaker.layout.proof import tight_gaps
from bookmaker.layout.setting import PlacedPuzzle
from bookmaker.model import Box, Line, Number, PlacedLink, PlacedSpot, PlacedTag, Point
from bookmaker.placement.tree_placement import TreePlacement
from bookmaker.typeset.paper import Sheet
from tests.making import page_of

# Two rows far from each other: a and b above, c and d below, each linked.
PLACES: dict[str, Point] = {"a": (40, 60), "b": (100, 60), "c": (40, 160), "d": (100, 160)}
CURVES: dict[str, tuple[Point, Point]] = {
    "a-b": ((50, 60), (90, 60)),
    "c-d": ((50, 160), (90, 160)),
}
TAGS: dict[str, Point] = {"a-b": (62.5, 54), "c-d": (62.5, 154)}

# what stands elsewhere -> the widths that are marked, in millimetres, by hand
TIGHT = {
    "nothing": ({}, []),
    "two spots": ({"d": (40, 187)}, ["7.0"]),
    "a link and a spot": ({"d": (70, 46.5), "tag a-b": (72, 60.5)}, ["3.5"]),
    "two links": ({"link c-d": ((50, 64), (55, 64))}, ["4.0"]),
    "two tags": ({"tag c-d": (62.5, 69)}, ["3.0"]),
    "a tag and a spot": ({"tag c-d": (62.5, 88), "d": (70, 113)}, ["3.0"]),
    "a tag and a link": ({"tag c-d": (62.5, 63)}, ["3.0"]),
    "a link beside its tag": ({"tag a-b": (54, 54)}, ["4.0"]),
}


@pytest.mark.parametrize(("moved", "widths"), TIGHT.values(), ids=TIGHT)
def test_what_is_tight_is_marked_with_its_width(
    moved: dict[str, tuple[float, float]], widths: list[str]
) -> None:
    items = tight_gaps(placed(moved), page_of("newt", LINKS, *NUMBERS))
    marked = [item.text for item in items if isinstance(item, Line)]
    assert set(widths) <= set(marked)
    assert widths or not marked


LINKS = [("a", "b"), ("b", "c"), ("c", "d")]
NUMBERS = (Number.parse("1"), Number.parse("2"))


def placed(moved: dict) -> PlacedPuzzle:  # type: ignore[type-arg]
    tree = TreePlacement(
        tuple(PlacedSpot(name, *moved.get(name, at), 10.0) for name, at in PLACES.items()),
        tuple(PlacedLink(name, moved.get(f"link {name}", at)) for name, at in CURVES.items()),
        tuple(
            PlacedTag(name, Box(*moved.get(f"tag {name}", at), 15, 12)) for name, at in TAGS.items()
        ),
    )
    return PlacedPuzzle(Sheet("a4", True), (), None, tree, (), Box(14, 34, 186, 228))
