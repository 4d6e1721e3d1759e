"""The map of the river: a place for each creature, room for a ring, two halves that meet."""

from __future__ import annotations

import re
import tomllib
from itertools import combinations
from math import dist

import pytest
from PIL import Image, ImageChops, ImageStat

from art.kit import gallery
from art.kit.river_map import HEIGHT, ROOM, WIDTH, places
from tests.art.pictures import ART, by_cairo

PLACES = places()


def test_each_creature_has_one_place() -> None:
    assert sorted(PLACES) == sorted(name.replace("_", "-") for name in gallery.names())


def test_each_half_holds_the_creatures_of_four_chapters() -> None:
    table = tomllib.loads((ART / "map.toml").read_text("utf-8"))
    chapters = {
        half: {gallery.creature(name.replace("-", "_")).CHAPTER for name in rows}
        for half, rows in table.items()
    }
    assert chapters["left"] == {"spring", "brook", "mill pond", "river meadow"}
    assert chapters["right"] == {"reed bed", "salt marsh", "estuary", "open sea"}


@pytest.mark.parametrize("name", sorted(PLACES))
def test_a_ring_lies_inside_its_half(name: str) -> None:
    x, y = PLACES[name][0] % WIDTH, PLACES[name][1]
    assert ROOM <= x <= WIDTH - ROOM
    assert ROOM <= y <= HEIGHT - ROOM


def test_no_two_rings_touch() -> None:
    near = min(
        (dist(PLACES[one], PLACES[other]), one, other) for one, other in combinations(PLACES, 2)
    )
    assert near[0] > 2 * ROOM, near


def test_the_halves_meet_at_the_fold() -> None:
    """The last column of one and the first of the other show the same, but for slopes."""
    left, right = (
        by_cairo((ART / f"map-{half}.svg").read_text("utf-8"), HEIGHT) for half in ("left", "right")
    )
    assert seam(left, right) < 4
    assert seam(right, left) > 20, "the wrong way round they would not"


def seam(left: Image.Image, right: Image.Image) -> float:
    """Mean difference of the columns that meet, of 255."""
    one = left.crop((WIDTH - 1, 0, WIDTH, HEIGHT))
    other = right.crop((0, 0, 1, HEIGHT))
    return sum(ImageStat.Stat(ImageChops.difference(one, other)).mean) / 3


@pytest.mark.parametrize("name", sorted(PLACES))
def test_nothing_small_lies_in_a_ring(name: str) -> None:
    """Ground and water run through it, but no cut, flower or reed begins there."""
    left = 0 if PLACES[name][0] < WIDTH else WIDTH
    place = (PLACES[name][0] - left, PLACES[name][1])
    begun = starts("right" if left else "left")
    assert len(begun) > 200
    assert [start for start in begun if dist(start, place) < ROOM] == []


def starts(half: str) -> list[tuple[float, float]]:
    """Where the shapes of a half begin, in its units: each with an absolute ``M``."""
    svg = (ART / f"map-{half}.svg").read_text("utf-8")
    found = re.findall(r"M(-?[0-9.]+) ?(-?[0-9.]+)", svg)
    return [(float(x), float(y)) for x, y in found]
