"""The picture under the marks: as large as it can be, whole in its trimmed part, spots inside."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.model import Box
from bookmaker.placement.art_place import fit_art
from bookmaker.placement.sizes import Sizes

FRAME = Box(14.0, 34.0, 186.0, 228.0)
WHOLE = Box(0.0, 0.0, 1.0, 1.0)
SIZES = Sizes.of("a4", 2)
NEAR = 1e-6

fractions = st.floats(0.0, 0.3)
per_cents = st.floats(0.0, 100.0)
trims = st.builds(
    lambda x, y, right, bottom: Box(x, y, 1 - x - right, 1 - y - bottom),
    fractions,
    fractions,
    fractions,
    fractions,
)
spots = st.lists(st.tuples(per_cents, per_cents), min_size=1, max_size=8)


def slack(scale: float, width: float, height: float, trim: Box, marks: list, frame: Box) -> float:  # type: ignore[type-arg]
    """How much room is left, mm, in the tighter direction, for a picture at this scale."""
    rooms = []
    for size, low, high, places, room in (
        (width * scale, trim.x, trim.right, [x for x, _ in marks], frame.width),
        (height * scale, trim.y, trim.bottom, [y for _, y in marks], frame.height),
    ):
        keeps = [(low, 0.02), (high, 0.02), *((at / 100, 10.62) for at in places)]
        left = max(keep - at * size for at, keep in keeps)
        right = min(room - keep - at * size for at, keep in keeps)
        rooms.append(right - left)
    return min(rooms)


@given(st.floats(0.2, 5.0), trims, spots)
def test_art_is_as_large_as_its_frame_and_its_spots_allow(
    aspect: float, trim: Box, marks: list[tuple[float, float]]
) -> None:
    place = fit_art(aspect, 1.0, trim, marks, FRAME, SIZES)
    assert place.box.width / place.box.height == pytest.approx(aspect)
    scale = place.box.height
    assert slack(scale, aspect, 1.0, trim, marks, FRAME) >= -NEAR
    assert slack(scale * 1.001, aspect, 1.0, trim, marks, FRAME) < NEAR


@given(st.floats(0.2, 5.0), trims, spots)
def test_every_outline_and_all_that_is_not_border_lies_inside(
    aspect: float, trim: Box, marks: list[tuple[float, float]]
) -> None:
    place = fit_art(aspect, 1.0, trim, marks, FRAME, SIZES)
    corners = [(trim.x * 100, trim.y * 100), (trim.right * 100, trim.bottom * 100)]
    for outline, keep in ((marks, SIZES.radius), (corners, 0.0)):
        for mark in outline:
            x, y = place.at(*mark)
            assert FRAME.x + keep - NEAR <= x <= FRAME.right - keep + NEAR
            assert FRAME.y + keep - NEAR <= y <= FRAME.bottom - keep + NEAR
    window = place.window
    assert window.x >= FRAME.x - NEAR and window.right <= FRAME.right + NEAR
    assert window.x >= place.box.x - NEAR and window.bottom <= place.box.bottom + NEAR


def test_upright_art_fills_the_height_and_landscape_art_the_width() -> None:
    upright = fit_art(300, 500, WHOLE, [(50, 50)], FRAME, SIZES).box
    assert upright.height == pytest.approx(FRAME.height, abs=0.1)
    assert upright.x + upright.width / 2 == pytest.approx(FRAME.x + FRAME.width / 2)
    landscape = fit_art(500, 300, WHOLE, [(50, 50)], FRAME, SIZES).box
    assert landscape.width == pytest.approx(FRAME.width, abs=0.1)


def test_a_blank_border_hangs_out_and_is_cut_off() -> None:
    trim = Box(0.2, 0.2, 0.6, 0.6)
    place = fit_art(186, 228, trim, [(50, 50)], FRAME, SIZES)
    assert place.box.width > FRAME.width * 1.6
    assert place.box.x < FRAME.x
    assert place.window.width == pytest.approx(FRAME.width)
    assert place.at(50, 50) == pytest.approx((FRAME.x + 93, FRAME.y + 114))


def test_a_picture_one_pixel_wide_still_has_a_place() -> None:
    box = fit_art(1, 1000, WHOLE, [(50, 10), (50, 90)], FRAME, SIZES).box
    assert 0 < box.width < 1
    assert box.height <= FRAME.height


@pytest.mark.parametrize("size", [(0, 10), (10, 0), (-1, 10)])
def test_a_picture_without_area_is_an_error(size: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="no area"):
        fit_art(*size, WHOLE, [(50, 50)], FRAME, SIZES)
