"""Moving spots: enough, and no more than enough."""

from __future__ import annotations

import math
import random
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bookmaker.model import Box
from bookmaker.placement import spot_moves as moving
from bookmaker.placement.curves import straight, ways
from bookmaker.placement.refine import Field
from bookmaker.placement.sizes import Sizes

SIZES = Sizes.of("a4", 2)
ROOM = Box(0.0, 0.0, 200.0, 200.0)
GAP = SIZES.spot + SIZES.spot_gap

places = st.lists(
    st.tuples(st.floats(20, 180), st.floats(20, 180)), min_size=2, max_size=6, unique=True
)


def shift(one, other) -> float:  # type: ignore[no-untyped-def]
    return sum(math.dist(a, b) ** 2 for a, b in zip(one, other, strict=True))


def test_two_spots_that_are_too_close_part_by_half_of_what_is_missing_each() -> None:
    settled = moving.settle([(90, 100), (110, 100)], [moving.gaps(SIZES)], 6.0, ROOM)
    assert settled.worst is None
    assert settled.places[0] == pytest.approx((87.5, 100))
    assert settled.places[1] == pytest.approx((112.5, 100))


def test_what_the_edge_does_not_let_one_move_the_other_moves() -> None:
    settled = moving.settle([(1, 100), (21, 100)], [moving.gaps(SIZES)], 6.0, ROOM)
    assert settled.worst is None
    # Left spot: one millimetre to the edge. The rest is the right one's.
    assert settled.places[0][0] == pytest.approx(0.0, abs=0.01)
    assert settled.places[1][0] == pytest.approx(25.0, abs=0.02)


@settings(max_examples=60, deadline=None)
@given(places)
def test_settled_spots_keep_every_gap_and_stay_in_reach(wanted: list[tuple[float, float]]) -> None:
    settled = moving.settle(wanted, [moving.gaps(SIZES)], 6.0, ROOM)
    assume(settled.worst is None)
    for i, a in enumerate(settled.places):
        assert math.dist(a, wanted[i]) <= 6.0 + moving.SLACK
        for b in settled.places[:i]:
            assert math.dist(a, b) >= GAP - moving.SLACK


@settings(max_examples=40, deadline=None)
@given(places, st.integers(0, 10**6))
def test_no_small_change_of_settled_spots_moves_them_less(
    wanted: list[tuple[float, float]], seed: int
) -> None:
    settled = moving.settle(wanted, [moving.gaps(SIZES)], 6.0, ROOM)
    assume(settled.worst is None)
    chance = random.Random(seed)
    least = shift(settled.places, wanted)
    for _ in range(200):
        size = chance.choice([0.02, 0.2, 1.0])
        other = [(x + chance.gauss(0, size), y + chance.gauss(0, size)) for x, y in settled.places]
        if all(math.dist(a, b) >= GAP for i, a in enumerate(other) for b in other[:i]):
            assert shift(other, wanted) >= least - 0.05


@given(st.floats(-math.pi, math.pi))
def test_the_least_length_of_a_straight_link_has_room_for_its_tag_and_no_more(turn: float) -> None:
    far = moving.straight_length(turn, SIZES)
    assert seated(turn, far + 0.2)
    assert not seated(turn, far - 0.2)


def seated(turn: float, far: float) -> bool:
    ends = ((100.0, 100.0), (100 + far * math.cos(turn), 100 + far * math.sin(turn)))
    page = Field(ends, ((0, 1),), Box(0, 0, 200, 200), SIZES)
    return len(page.fits([straight()]).ways.link) == 1


def test_linked_spots_are_pushed_apart_until_their_tag_has_room() -> None:
    wanted = [(80.0, 100.0), (113.0, 100.0)]
    rule = moving.lengths([((0, 1), math.inf)], SIZES)
    settled = moving.settle(wanted, [rule], 6.0, ROOM)
    # 20 mm of spots, 15 of tag and 3 to be seen on each side of it.
    assert math.dist(*settled.places) == pytest.approx(41.0, abs=0.05)


def test_what_cannot_be_had_is_told_and_the_spots_stay_near() -> None:
    settled = moving.settle([(100, 100), (105, 100)], [moving.gaps(SIZES)], 6.0, ROOM)
    assert settled.worst is not None
    assert settled.worst.short > 1.0
    assert all(math.dist(at, (100, 100)) < 60 for at in settled.places)


def test_every_rule_is_quiet_where_all_is_well() -> None:
    far = [(30.0, 30.0), (170.0, 60.0), (60.0, 170.0)]
    edges = [(0, 1), (0, 2)]
    rules = [
        moving.gaps(SIZES),
        moving.lengths([(edge, math.inf) for edge in edges], SIZES),
    ]
    assert [row for rule in rules for row in rule(far) if row.short > 0] == []
    assert shift(moving.settle(far, rules, 6.0, ROOM).places, far) < 1e-9
    assert ways(far, edges, [straight()] * 2, SIZES).cost.tolist() == [0.0, 0.0]


@given(st.floats(0, 3.1), st.floats(20, 40), st.integers(2, 8))
def test_a_zigzag_leaves_a_line_on_either_side_in_turn(turn: float, step: float, n: int) -> None:
    along = (math.cos(turn), math.sin(turn))
    line = [(100 + along[0] * step * k, 100 + along[1] * step * k) for k in range(n)]
    moved = moving.zigzag(line, 3.0)
    off = [
        (x - a) * -along[1] + (y - b) * along[0] for (x, y), (a, b) in zip(moved, line, strict=True)
    ]
    assert shift(moved, line) == pytest.approx(9 * n)
    assert [abs(each) for each in off] == pytest.approx([3.0] * n)
    assert all(one * other < 0 for one, other in pairwise(off))
