"""Homography and bend, against closed forms and a camera."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from bookmaker.scanning.sheet_plan import sheet_plan
from bookmaker.scanning.warp import (
    fit_bend,
    fit_homography,
    flat_warp,
    flatten,
    mesh_step,
    project,
    terms,
)
from tests.scanning.camera import Eye, any_shot
from tests.scanning.trial import frame_points

PLAN = sheet_plan("a4")
SIZE = (PLAN.width, PLAN.height)
BEADS = np.array([(bead.x, bead.y) for bead in PLAN.beads])
corner = st.floats(-0.3, 0.3)


def square_to_quad(quad: np.ndarray) -> np.ndarray:
    """Heckbert, Fundamentals of Texture Mapping and Image Warping (1989), section 2.2.3."""
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = quad
    dx1, dx2, sx = x1 - x2, x3 - x2, x0 - x1 + x2 - x3
    dy1, dy2, sy = y1 - y2, y3 - y2, y0 - y1 + y2 - y3
    below = dx1 * dy2 - dx2 * dy1
    g, h = (sx * dy2 - dx2 * sy) / below, (dx1 * sy - sx * dy1) / below
    return np.array(
        [
            [x1 - x0 + g * x1, x3 - x0 + h * x3, x0],
            [y1 - y0 + g * y1, y3 - y0 + h * y3, y0],
            [g, h, 1],
        ]
    )


@given(st.tuples(*[corner] * 8))
def test_four_corners_give_the_homography_of_the_textbook(moved: tuple[float, ...]) -> None:
    square = np.array([(0.0, 0.0), (1, 0), (1, 1), (0, 1)])
    quad = square + np.reshape(moved, (4, 2))
    inside = np.random.default_rng(0).uniform(0, 1, (20, 2))
    ours = project(fit_homography(square, quad), inside)
    assert np.allclose(ours, project(square_to_quad(quad), inside), atol=1e-7)


def bent_and_fitted(seed: int) -> tuple[float, float]:
    """How far the fitted bend is out inside the frame at most, and the size of the true one."""
    rng = np.random.default_rng(seed)
    homography = np.array([[8.0, 0.3, 100], [-0.2, 8.1, 50], [1e-4, 2e-4, 1]])
    bend = rng.normal(0, 0.3, (terms(BEADS, SIZE, 4).shape[1], 2))
    points = frame_points(PLAN)

    def seen(at: np.ndarray) -> np.ndarray:
        return project(homography, at + terms(at, SIZE, 4) @ bend)

    warp = fit_bend(homography, SIZE, BEADS, seen(BEADS), np.ones(len(BEADS)), 4)
    out = np.abs(warp.bent(points) - points - terms(points, SIZE, 4) @ bend).max()
    return float(out), float(np.linalg.norm(bend, axis=0).max())


@settings(max_examples=20)
@given(st.integers(0, 10**6))
def test_marks_round_the_frame_fix_every_term_inside(seed: int) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("bookmaker.scanning.warp.HOLD", 0.0)
        assert bent_and_fitted(seed)[0] < 1e-9


@settings(max_examples=20)
@given(st.integers(0, 10**6))
def test_holding_higher_terms_back_costs_no_more_than_its_share_of_the_bend(seed: int) -> None:
    """Reference: the closed form of ridge regression's bias (Hoerl and Kennard 1970)."""
    inside, marks = (terms(points, SIZE, 4) for points in (frame_points(PLAN), BEADS))
    degrees = [i + j for total in range(5) for i, j in _terms_of(total)]
    held = np.diag([(0.05 * max(0, degree - 1)) ** 2 for degree in degrees])
    bias = inside @ np.linalg.solve(marks.T @ marks + held, held)
    out, size = bent_and_fitted(seed)
    # A mark that the hold puts off its place is trusted a little less, too: hence the quarter.
    assert out <= 1.25 * np.linalg.norm(bias, axis=1).max() * size


def _terms_of(total: int) -> list[tuple[int, int]]:
    return [(i, total - i) for i in range(total + 1) if min(i, total - i) <= 1][::-1]


@pytest.mark.parametrize("seed", range(20))
def test_beads_in_their_true_places_leave_little_more_than_a_tenth_of_a_millimetre(
    seed: int,
) -> None:
    eye = Eye(PLAN, any_shot(seed))
    homography = fit_homography(BEADS, eye.place(BEADS))
    warp = fit_bend(homography, SIZE, BEADS, eye.place(BEADS), np.ones(len(BEADS)), 4)
    points = frame_points(PLAN)
    flat = eye.place(points) - project(homography, points)
    bent = eye.place(points) - warp.to_picture(points)
    scale = warp.scale_at(points)
    assert (np.hypot(*bent.T) / scale).max() < 0.15
    assert np.abs(bent).max() < np.abs(flat).max()


def test_beads_in_wrong_places_do_not_bend_the_sheet() -> None:
    eye = Eye(PLAN, any_shot(3))
    homography, seen = fit_homography(BEADS, eye.place(BEADS)), eye.place(BEADS)
    seen[::8] += np.random.default_rng(1).uniform(-30, 30, seen[::8].shape)
    warp = fit_bend(homography, SIZE, BEADS, seen, np.ones(len(BEADS)), 4)
    points = frame_points(PLAN)
    miss = np.hypot(*(eye.place(points) - warp.to_picture(points)).T) / warp.scale_at(points)
    assert miss.max() < 0.15


def test_the_scale_is_that_of_the_coarser_direction() -> None:
    warp = flat_warp(np.diag([6.0, 9.0, 1.0]), SIZE)
    assert warp.scale_at(np.array([[100.0, 100.0]])) == pytest.approx([6.0])


def test_a_flat_picture_is_flattened_to_itself() -> None:
    pixels = np.random.default_rng(2).integers(0, 256, (120, 100, 3)).astype(np.uint8)
    warp = flat_warp(np.diag([2.0, 2.0, 1.0]), SIZE)
    whole = flatten(Image.fromarray(pixels), warp, (0, 0, 50, 60), 2.0)
    assert np.abs(whole.astype(int) - pixels).max() <= 1
    part = flatten(Image.fromarray(pixels), warp, (10, 20, 30, 20), 2.0)
    assert np.abs(part.astype(int) - pixels[40:80, 20:80]).max() <= 1


@pytest.mark.parametrize("seed", range(8))
def test_a_mesh_is_as_wide_as_keeps_its_pieces_near_the_warp(seed: int) -> None:
    """A piece is bilinear between its corners, as Pillow's documentation of a mesh has it."""
    eye, box = Eye(PLAN, any_shot(seed)), PLAN.frame
    homography = fit_homography(BEADS, eye.place(BEADS))
    warp = fit_bend(homography, SIZE, BEADS, eye.place(BEADS), np.ones(len(BEADS)), 4)
    step = mesh_step(warp, (box.x, box.y, box.width, box.height), 0.04)
    across, down = np.meshgrid(np.arange(0, box.width - step, step), np.arange(0, 180, step))
    at = np.stack([across + box.x, down + box.y], -1).reshape(-1, 2)
    corners = [
        warp.to_picture(at + step * np.array(way)) for way in ((0, 0), (1, 0), (0, 1), (1, 1))
    ]
    worst = 0.0
    for u, v in np.random.default_rng(seed).uniform(0, 1, (40, 2)):
        parts = ((1 - u) * (1 - v), u * (1 - v), (1 - u) * v, u * v)
        piece = sum(part * corner for part, corner in zip(parts, corners, strict=True))
        out = np.hypot(*(warp.to_picture(at + step * np.array([u, v])) - piece).T)
        worst = max(worst, float((out / warp.scale_at(at)).max()))
    assert 0.02 < worst < 0.05


def test_a_sheet_that_lies_flat_needs_few_pieces() -> None:
    assert mesh_step(flat_warp(np.diag([8.0, 8.0, 1.0]), SIZE), (0, 0, 180, 200), 0.04) == 60
