"""Spots proposed for a scene: on the creature, apart, off its eyes, the same every time."""

from __future__ import annotations

import math
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest
from scipy.sparse.csgraph import dijkstra
from scipy.spatial.distance import cdist

from bookmaker.linking.looking import look_over
from bookmaker.linking.paths import BESIDE, OVER_GROUND, distances
from bookmaker.linking.propose import Room, propose
from bookmaker.linking.scene import Scene
from bookmaker.model import Box
from tests.linking.animals import animal, png
from tests.pictures.makers import picture

WHOLE = Box(0.0, 0.0, 1.0, 1.0)
ROOM = Room(180.0, 135.0, 10.0, 47.0)


def scene(figure: np.ndarray, detail: np.ndarray | None = None) -> Scene:
    high, wide = figure.shape
    seen = np.zeros((high, wide), np.uint8) if detail is None else detail
    return Scene(WHOLE, wide, high, figure.astype(np.uint8).tobytes(), seen.tobytes())


def ellipse(high: int = 72, wide: int = 96) -> np.ndarray:
    down, across = np.ogrid[:high, :wide]
    found: np.ndarray = ((down - 36) / 30) ** 2 + ((across - 48) / 42) ** 2 <= 1
    return found


def on(found: Scene, place: tuple[float, float]) -> bool:
    column, row = int(place[0] / 100 * found.width), int(place[1] / 100 * found.height)
    return bool(found.rows(found.figure)[row, column])


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("count", [5, 6, 7])
def test_spots_lie_on_the_creature_and_have_room_for_links(
    seed: int, count: int, tmp_path: Path
) -> None:
    found = look_over(picture(tmp_path, png(animal(seed)), "animal.png"))
    assert found.told
    spots = propose(found, ROOM, count)
    assert len(spots) == count
    assert all(on(found, place) for place in spots)
    millimetres = [(x * 1.8, y * 1.35) for x, y in spots]
    assert min(math.dist(a, b) for a, b in combinations(millimetres, 2)) > 20


def test_ways_are_those_that_dijkstra_finds() -> None:
    """Reference: scipy.sparse.csgraph, on the same neighbours and the same straight jumps."""
    places = np.argwhere(ellipse()[::6, ::6]).astype(np.int32)[:, ::-1] * 60 + 30
    apart = cdist(places, places)
    lengths = np.rint(np.where(apart <= BESIDE * 60, apart, OVER_GROUND * np.rint(apart)))
    np.fill_diagonal(lengths, 0)
    assert (distances(places, 60) == dijkstra(lengths)).all()


def test_a_way_over_ground_counts_three_times() -> None:
    places = np.array([[0, 0], [600, 0]], dtype=np.int32)
    assert distances(places, 60)[0, 1] == 1800


def test_no_spot_covers_the_one_thing_that_stands_out() -> None:
    body = ellipse()
    bare = propose(scene(body), ROOM, 5)
    for x, y in bare:
        row, column = int(y / 100 * 72), int(x / 100 * 96)
        detail = np.zeros((72, 96), np.uint8)
        detail[row, column] = 200
        spots = propose(scene(body, detail), ROOM, 5)
        away = [math.dist((a * 1.8, b * 1.35), (x * 1.8, y * 1.35)) for a, b in spots]
        assert min(away) > ROOM.spot - 2.5


def test_faint_detail_moves_nothing() -> None:
    detail = np.zeros((72, 96), np.uint8)
    detail[36, 48] = 9
    assert propose(scene(ellipse(), detail), ROOM, 5) == propose(scene(ellipse()), ROOM, 5)


def test_a_mirrored_creature_has_as_good_a_choice() -> None:
    body = ellipse()
    body[:, 70:] &= np.arange(72)[:, None] > 40
    one, other = (propose(scene(shape), ROOM, 6) for shape in (body, body[:, ::-1]))
    assert len(one) == len(other) == 6


def test_the_first_spot_is_the_topmost() -> None:
    spots = propose(scene(ellipse()), ROOM, 6)
    assert spots[0][1] == min(y for _, y in spots)


def test_a_creature_of_few_pixels_has_few_spots_and_none_has_none() -> None:
    few = np.zeros((72, 96), bool)
    few[10, 10:13] = True
    assert len(propose(scene(few), ROOM, 7)) == 3
    assert propose(scene(np.zeros((72, 96), bool)), ROOM, 7) == ()


def test_the_same_scene_always_has_the_same_spots(tmp_path: Path) -> None:
    found = look_over(picture(tmp_path, png(animal(3)), "animal.png"))
    assert propose(found, ROOM, 6) == propose(found, ROOM, 6)
    assert look_over(picture(tmp_path, png(animal(3)), "animal.png")) == found
