"""Numbers to use: in as few rows as can be, each in a box of its own."""

from __future__ import annotations

from itertools import pairwise

import pytest

from bookmaker.layout.tools import NumberRows
from bookmaker.model import Frame

ODD = tuple(str(number) for number in range(1, 16, 2))


@pytest.mark.parametrize(("measure", "rows"), [(150.0, 1), (103.6, 1), (95.0, 2)])
def test_boxes_close_up_where_that_saves_a_row_and_there_alone(measure: float, rows: int) -> None:
    wide = NumberRows(ODD, measure)
    close = wide.closed_up()
    assert close.rows == rows
    assert (close is wide) == (wide.rows == rows)


def test_boxes_that_have_closed_up_stay_apart_and_inside_their_measure() -> None:
    rows = NumberRows(ODD, 103.6).closed_up()
    boxes = [item.box for item in rows.at(10.0, 0.0) if isinstance(item, Frame)]
    assert all(right.x - left.right >= 1.5 for left, right in pairwise(boxes))
    assert boxes[0].x == 10.0
    assert boxes[-1].right <= 10.0 + 103.6
