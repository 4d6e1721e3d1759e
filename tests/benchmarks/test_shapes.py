"""The table of shapes and its measure of agreement."""

from __future__ import annotations

import pytest

from tests.benchmarks.shapes import rows, tau


@pytest.mark.parametrize(
    ("pairs", "expected"),
    [
        ([(1, 1), (2, 2), (3, 3)], 1.0),
        ([(1, 3), (2, 2), (3, 1)], -1.0),
        # By hand: five pairs agree and one differs, of six.
        ([(1, 1), (2, 2), (3, 4), (4, 3)], 4 / 6),
        # By hand: two agree, one is tied in the first ranking: 2 / sqrt(2 * 3).
        ([(1, 1), (1, 2), (2, 3)], 2 / 6**0.5),
    ],
)
def test_kendalls_tau_is_what_counting_by_hand_gives(pairs, expected: float) -> None:
    assert tau(pairs) == pytest.approx(expected)


def test_there_are_forty_six_shapes_of_three_to_eight_spots() -> None:
    # OEIS A000055: 1 + 2 + 3 + 6 + 11 + 23.
    table = list(rows())
    assert len({row.certificate.shape for row in table}) == len(table) == 46
    works = [(row.spots, row.certificate.work) for row in table]
    assert works == sorted(works)
