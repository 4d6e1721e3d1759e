"""Pieces of a mask, held against scipy's labels."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import ndimage

from bookmaker.linking.pieces import pieces


@pytest.mark.parametrize("seed", range(40))
def test_pieces_are_those_that_scipy_labels(seed: int) -> None:
    rng = np.random.default_rng(seed)
    mask = rng.random(tuple(rng.integers(1, 40, 2))) < rng.choice([0.3, 0.55, 0.6, 0.8])
    ours, theirs = pieces(mask), ndimage.label(mask)[0]
    assert ((ours > 0) == mask).all()
    pairs = set(zip(ours[mask].tolist(), theirs[mask].tolist(), strict=True))
    assert len(pairs) == len({a for a, _ in pairs}) == len({b for _, b in pairs})


def test_the_first_pixel_of_all_is_of_the_first_piece() -> None:
    assert pieces(np.array([[1, 0, 1], [1, 0, 1]], dtype=bool)).tolist() == [[1, 0, 2], [1, 0, 2]]


def test_nothing_has_no_pieces() -> None:
    assert not pieces(np.zeros((3, 4), dtype=bool)).any()
