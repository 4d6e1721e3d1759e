"""A booklet that is folded once: the order of its pages against the published rule."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.layout.order.imposition import Folded, impose

PUBLISHED = [
    # pages, (outside, inside) of each sheet from the outermost in
    (4, [((4, 1), (2, 3))]),
    (8, [((8, 1), (2, 7)), ((6, 3), (4, 5))]),
    (16, [((16, 1), (2, 15)), ((14, 3), (4, 13)), ((12, 5), (6, 11)), ((10, 7), (8, 9))]),
]
"""Printers' tables for saddle stitch, as in every handbook of the trade (from memory)."""


@pytest.mark.parametrize(("pages", "expected"), PUBLISHED)
def test_the_order_is_that_of_printers_tables(
    pages: int, expected: list[tuple[tuple[int, int], tuple[int, int]]]
) -> None:
    assert [(sheet.outside, sheet.inside) for sheet in impose(pages)] == expected


@given(st.integers(1, 400))
def test_pages_side_by_side_add_up_to_one_more_than_all(pages: int) -> None:
    sheets = impose(pages)
    total = 4 * len(sheets)
    assert all(sum(pair) == total + 1 for s in sheets for pair in (s.outside, s.inside))


@given(st.integers(1, 400))
def test_every_page_is_printed_once_and_blanks_are_fewer_than_a_sheet(pages: int) -> None:
    numbers = sorted(n for s in impose(pages) for n in (*s.outside, *s.inside))
    assert numbers == list(range(1, numbers[-1] + 1))
    assert 0 <= numbers[-1] - pages < 4


@given(st.integers(1, 400))
def test_folded_and_leafed_through_the_pages_follow_each_other(pages: int) -> None:
    assert leafed(impose(pages)) == list(range(1, 4 * len(impose(pages)) + 1))


def leafed(sheets: tuple[Folded, ...]) -> list[int]:
    """Fold the stack with the outermost sheet outside, and read every leaf, front then back.

    Of a sheet printed on both sides and flipped on its short edge, the left half of one side
    backs the right half of the other.
    """
    first = [(s.outside[1], s.inside[0]) for s in sheets]
    second = [(s.inside[1], s.outside[0]) for s in reversed(sheets)]
    return [page for leaf in first + second for page in leaf]


def test_inner_sheets_creep_by_the_thickness_of_those_around_them() -> None:
    assert [sheet.creep for sheet in impose(16, thickness=0.1)] == [0.0, 0.1, 0.2, 0.3]


def test_a_booklet_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="needs a page"):
        impose(0)
