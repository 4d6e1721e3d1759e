"""The table of sizes. Values are the book's own decision; no source."""

from __future__ import annotations

import pytest

from bookmaker.placement.sizes import Sizes

# paper, characters -> spot, tag width, tag height, reach
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
