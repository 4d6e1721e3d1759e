"""The table of sizes, as the design has it."""

from __future__ import annotations

import pytest

from bookmaker.layout.tree import Sizes

# paper, characters -> spot, tag width, tag height, reach (design: the page, sizes)
TABLE = [
    ("a4", 2, 20, 15, 12, 6),
    ("letter", 1, 20, 15, 12, 6),
    ("a3", 2, 20, 15, 12, 6),
    ("board", 2, 20, 15, 12, 6),
    ("a5", 2, 16, 13, 11, 4),
    ("half-letter", 2, 16, 13, 11, 4),
    ("a4", 3, 22, 18, 12, 6),
    ("a5", 4, 22, 18, 12, 4),
]


@pytest.mark.parametrize(("paper", "characters", "spot", "width", "height", "reach"), TABLE)
def test_sizes_follow_the_table(
    paper: str, characters: int, spot: float, width: float, height: float, reach: float
) -> None:
    sizes = Sizes.of(paper, characters)
    assert (sizes.spot, sizes.tag_width, sizes.tag_height) == (spot, width, height)
    assert sizes.reach == reach
    gaps = (sizes.spot_gap, sizes.link_gap, sizes.tag_gap, sizes.visible, sizes.angle)
    assert gaps == (5, 3, 2, 3, 25)


def test_a_class_edition_moves_no_spot() -> None:
    assert Sizes.of("a4", 2, class_edition=True).reach == 0


def test_large_print_has_larger_spots_and_tags() -> None:
    sizes = Sizes.of("A4", 2, large=True)
    assert (sizes.spot, sizes.tag_width, sizes.tag_height) == pytest.approx((28, 21, 16.8))
