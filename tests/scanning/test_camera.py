"""The simulated camera is itself held to what it claims."""

import numpy as np
import pytest

from bookmaker.scanning.sheet_plan import sheet_plan
from tests.scanning.camera import Eye, Shot, any_shot

PLAN = sheet_plan("a4")
POINTS = np.random.default_rng(1).uniform((0, 0), (210, 297), (200, 2))


@pytest.mark.parametrize("seed", range(12))
def test_what_the_eye_sees_lies_where_it_looks_from(seed: int) -> None:
    eye = Eye(PLAN, any_shot(seed))
    assert np.abs(eye.back(eye.place(POINTS)) - POINTS).max() < 0.01


@pytest.mark.parametrize("seed", range(12))
def test_the_whole_sheet_is_in_the_picture(seed: int) -> None:
    shot = any_shot(seed)
    seen = Eye(PLAN, shot).place(np.array([(0.0, 0.0), (210, 0), (210, 297), (0, 297)]))
    assert (seen > 0).all() and (seen < [shot.width, shot.height]).all()


def test_a_bulge_of_two_millimetres_shifts_the_middle_as_much_as_it_should() -> None:
    # At 35 degrees a height of 2 mm hides 2 * tan 35 = 1.4 mm of what lies behind it.
    flat = Eye(PLAN, Shot(1, tilt=35, tilt_towards=0))
    bent = Eye(PLAN, Shot(1, tilt=35, tilt_towards=0, curl=2, curl_along=90))
    middle = np.array([[105.0, 148.5]])
    shift = np.hypot(*(flat.back(bent.place(middle)) - middle)[0])
    assert shift == pytest.approx(1.4, abs=0.3)
