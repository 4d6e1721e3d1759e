"""A creature that its spots hide is told; one that can still be seen is not."""

from __future__ import annotations

from pathlib import Path

import pytest
from shapely.geometry import Point, box
from shapely.ops import unary_union

from bookmaker.cli.exits import run
from bookmaker.linking.figure import Figure
from bookmaker.linking.hiding import hidden_share
from bookmaker.model import Box, PlacedSpot

WHOLE = Box(0.0, 0.0, 1.0, 1.0)


@pytest.mark.parametrize("middles", [[(30, 40)], [(30, 40), (36, 44)], [(200, 200)], []])
def test_the_share_under_spots_is_the_one_shapely_finds(middles: list[tuple[int, int]]) -> None:
    wide, high = 120, 96
    mask = bytes(
        30 <= column < 90 and 24 <= row < 72 for row in range(high) for column in range(wide)
    )
    figure, place = Figure(WHOLE, wide, high, mask), Box(10.0, 20.0, 60.0, 48.0)
    spots = [PlacedSpot(str(n), x, y, 9.0) for n, (x, y) in enumerate(middles)]
    creature = box(10 + 15, 20 + 12, 10 + 45, 20 + 36)
    discs = unary_union([Point(spot.x, spot.y).buffer(9.0, 64) for spot in spots])
    expected = creature.intersection(discs).area / creature.area
    assert hidden_share(figure, place, spots) == pytest.approx(expected, abs=0.01)


@pytest.mark.parametrize(("radius", "told"), [(5, True), (20, False)])
def test_small_creatures_on_a_wide_ground_are_told(
    radius: int, told: bool, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    two = "".join(f'<circle cx="{x}" cy="50" r="{radius}" fill="#742"/>' for x in (25, 75))
    art = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100"><rect width="100" '
        f'height="100" fill="#bcd"/>{two}</svg>'
    )
    (tmp_path / "newt.svg").write_text(art, "utf-8")
    (tmp_path / "one.toml").write_text(
        'title = "x"\n[[page]]\nname = "Newt"\nart = "newt.svg"\nlinks = ["a-b"]\n'
        "[page.spots]\na = [25, 50]\nb = [75, 50]\n",
        "utf-8",
    )
    assert run(["check", str(tmp_path / "one.toml"), "--paper", "a5"]) == 0
    assert ("the spots hide about" in capsys.readouterr().err) == told
