"""The worked example's snail: papers without holes, inside of their bounds."""

from __future__ import annotations

from shapely import Polygon, box

from bookmaker.layout.snail import BOUNDS, SPOTS, snail
from bookmaker.model import Outline


def papers() -> list[Outline]:
    return [item for item in snail() if isinstance(item, Outline)]


def test_the_runs_of_a_paper_all_go_round_the_same_way() -> None:
    """Else two that overlap cut a hole into each other, by the nonzero rule of PDF and SVG.

    The signed area is shapely's.
    """
    for paper in papers():
        ways = {Polygon(run).exterior.is_ccw for run in paper.runs}
        assert len(ways) == 1, paper.role


def test_the_snail_keeps_within_its_bounds_but_for_the_tips_of_its_shadows() -> None:
    bounds = box(BOUNDS.x, BOUNDS.y, BOUNDS.right, BOUNDS.bottom).buffer(0.5)
    for paper in papers():
        if paper.role not in ("snail-shadow", "snail-shade"):
            assert all(bounds.contains(Polygon(run).envelope) for run in paper.runs), paper.role


def test_every_spot_of_the_example_lies_on_the_snail() -> None:
    skin = [paper for paper in papers() if paper.role in ("snail-body", "snail-shell")]
    for name, (x, y) in SPOTS.items():
        spot = box(x - 3, y - 3, x + 3, y + 3)
        assert any(Polygon(run).buffer(0).intersects(spot) for p in skin for run in p.runs), name
