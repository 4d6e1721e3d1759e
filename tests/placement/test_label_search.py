"""Seating tags together, against trying every seating."""

from __future__ import annotations

import random
from itertools import combinations, product

import numpy as np
import pytest

from bookmaker.placement.label_search import seat_all
from bookmaker.placement.sizes import Sizes

SIZES = Sizes.of("a4", 2)


def puzzle(seed: int):  # type: ignore[no-untyped-def]
    chance = random.Random(seed)
    tags, seats = chance.randint(2, 5), chance.randint(2, 5)
    room = chance.choice([25, 40, 60])
    centres = np.array(
        [
            [(chance.uniform(0, room), chance.uniform(0, room)) for _ in range(seats)]
            for _ in range(tags)
        ]
    )
    off = np.array([[chance.uniform(0, 20) for _ in range(seats)] for _ in range(tags)])
    free = np.array([[chance.random() < 0.8 for _ in range(seats)] for _ in range(tags)])
    free[:, 0] = True
    return centres, off, free


def best_by_trying(centres, off, free) -> float | None:  # type: ignore[no-untyped-def]
    best = None
    tags, seats = off.shape
    for choice in product(range(seats), repeat=tags):
        if not all(free[tag, seat] for tag, seat in enumerate(choice)):
            continue
        at = [centres[tag, seat] for tag, seat in enumerate(choice)]
        if all(apart(a, b) for a, b in combinations(at, 2)):
            cost = sum(off[tag, seat] for tag, seat in enumerate(choice))
            best = cost if best is None else min(best, cost)
    return best


def apart(a, b) -> bool:  # type: ignore[no-untyped-def]
    dx, dy = max(abs(a[0] - b[0]) - 15, 0), max(abs(a[1] - b[1]) - 12, 0)
    return bool(dx * dx + dy * dy >= 2.0**2)


@pytest.mark.parametrize("seed", range(80))
def test_no_seating_has_a_lesser_sum_of_distances(seed: int) -> None:
    centres, off, free = puzzle(seed)
    found, clashing = seat_all(centres, off, free, SIZES)
    best = best_by_trying(centres, off, free)
    if best is None:
        assert found is None and clashing
    else:
        assert found is not None
        rows = np.arange(len(off))
        assert free[rows, found].all()
        assert off[rows, found].sum() == pytest.approx(best)


def test_the_puzzles_are_of_both_kinds() -> None:
    answers = [best_by_trying(*puzzle(seed)) is None for seed in range(80)]
    assert 5 < sum(answers) < 75
