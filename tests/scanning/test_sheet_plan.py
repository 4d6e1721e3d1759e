"""The drawing sheet as data: what it says, where it stands, what colour its pale lines are."""

import math
from itertools import combinations

import numpy as np
import pytest
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.model import Box
from bookmaker.scanning import sheet_plan as sheet
from bookmaker.scanning.sheet_plan import (
    Payload,
    code_modules,
    luhn,
    new_class_code,
    read_payload,
    sheet_plan,
    write_payload,
)
from tests.scanning.drawings import CRAYONS

payloads = st.builds(
    Payload,
    class_code=st.integers(0, 10**8 - 1).map("{:08d}".format),
    sheet=st.integers(1, 9999),
    mark=st.integers(0, 3),
    format=st.integers(0, 99),
)
papers = pytest.mark.parametrize("paper", ["a4", "letter"])


@given(payloads)
def test_a_payload_is_read_back_as_it_was_written(payload: Payload) -> None:
    assert read_payload(write_payload(payload)) == payload


@given(payloads, st.integers(0, 15), st.integers(1, 9))
def test_a_payload_with_one_wrong_digit_is_no_payload(
    payload: Payload, place: int, more: int
) -> None:
    text = write_payload(payload)
    wrong = text[:place] + str((int(text[place]) + more) % 10) + text[place + 1 :]
    assert read_payload(wrong) is None


def test_the_check_digit_is_that_of_the_standard() -> None:
    # ISO/IEC 7812-1, annex B; the number is the usual worked example (from memory).
    assert luhn("7992739871") == 3


@pytest.mark.parametrize("text", ["", "hello", "1" * 15, "１" * 16, "9" * 17])
def test_what_other_codes_say_is_no_payload(text: str) -> None:
    assert read_payload(text) is None


@pytest.mark.parametrize(
    "payload", [Payload("1234", 1, 0), Payload("12345678", 0, 0), Payload("12345678", 10_000, 0)]
)
def test_a_payload_that_has_no_room_is_refused(payload: Payload) -> None:
    with pytest.raises(ValueError, match=r"digits"):
        write_payload(payload)


@given(payloads)
def test_a_code_has_the_border_of_a_data_matrix(payload: Payload) -> None:
    # ISO/IEC 16022: a solid L at the left and below, alternating modules above and at the right.
    dark = np.array(code_modules(payload))
    assert dark.shape == (14, 14)
    assert dark[:, 0].all() and dark[-1].all()
    assert (dark[0] == (np.arange(14) % 2 == 0)).all()
    assert (dark[:, -1] == (np.arange(14) % 2 == 1)).all()


@given(payloads)
def test_a_code_says_its_payload_to_a_reader(payload: Payload) -> None:
    pixels = np.where(np.array(code_modules(payload)), 0, 255).astype(np.uint8)
    big = np.pad(np.kron(pixels, np.ones((5, 5), np.uint8)), 15, constant_values=255)
    (code,) = zxingcpp.read_barcodes(big)
    assert code.format == zxingcpp.BarcodeFormat.DataMatrix
    assert read_payload(code.text) == payload


def test_class_codes_are_eight_digits_and_hardly_ever_the_same() -> None:
    codes = {new_class_code() for _ in range(20)}
    assert all(len(code) == 8 and code.isdigit() for code in codes)
    assert len(codes) > 15


@papers
def test_everything_on_a_sheet_keeps_the_margin(paper: str) -> None:
    plan = sheet_plan(paper)
    for box in (plan.frame, *plan.codes, *_word_boxes(plan), *_bead_boxes(plan)):
        assert min(box.x, box.y) >= 10 - 1e-9
        assert box.right <= plan.width - 10 + 1e-9
        assert box.bottom <= plan.height - 10 + 1e-9


@papers
def test_nothing_on_a_sheet_touches_anything_else(paper: str) -> None:
    plan = sheet_plan(paper)
    boxes = (plan.frame, *plan.codes, *_word_boxes(plan), *_bead_boxes(plan))
    for one, other in combinations(boxes, 2):
        assert _gap(one, other) >= 1.0 - 1e-9, (one, other)


@papers
def test_codes_keep_more_than_the_quiet_zone_of_the_standard(paper: str) -> None:
    # ISO/IEC 16022 asks for one module on every side.
    plan = sheet_plan(paper)
    others = (plan.frame, *_word_boxes(plan), *_bead_boxes(plan))
    for code in plan.codes:
        assert min(_gap(code, other) for other in others) >= 2 * sheet.MODULE - 1e-9


@papers
def test_beads_go_all_round_the_frame(paper: str) -> None:
    plan = sheet_plan(paper)
    frame = plan.frame
    for bead, following in zip(plan.beads, (*plan.beads[1:], plan.beads[0]), strict=True):
        assert 12 < math.hypot(bead.x - following.x, bead.y - following.y) < 17
        inside = frame.x < bead.x < frame.right and frame.y < bead.y < frame.bottom
        assert not inside


@papers
def test_the_sheet_has_room_for_its_words(paper: str) -> None:
    # The name's line is 80 mm long with 12 mm clear above it; four lines of 16 pt, one of 11 pt.
    plan = sheet_plan(paper)
    assert plan.name_strip.width >= 80 and plan.name_strip.height >= 14
    assert plan.instructions.height >= 4 * 16 * 1.2 * 25.4 / 72
    assert plan.notice.height >= 11 * 1.2 * 25.4 / 72


def test_the_pale_ink_is_told_from_pencil_and_from_every_crayon() -> None:
    ink = _takes(sheet.PALE_INK)
    assert _angle(ink, np.ones(3)) > 35
    assert _angle(ink, _takes(CRAYONS["yellow"])) > 60
    for name, colour in CRAYONS.items():
        assert _angle(ink, _takes(colour)) > 20, name


def test_the_pale_ink_is_the_best_of_the_pale_tints() -> None:
    tints = {"sky": (200, 228, 250), "mint": (200, 240, 220), "peach": (255, 222, 200)}
    crayons = [np.ones(3), *map(_takes, CRAYONS.values())]

    def nearest(ink: np.ndarray) -> float:
        return min(_angle(ink, colour) for colour in crayons)

    ours = nearest(_takes(sheet.PALE_INK))
    assert all(nearest(_takes(tint)) < ours for tint in tints.values())


def _takes(colour: tuple[int, int, int]) -> np.ndarray:
    """The light that a colour takes from white paper, by channel."""
    return 255 - np.array(colour, float)


def _angle(one: np.ndarray, other: np.ndarray) -> float:
    cosine = one @ other / (np.linalg.norm(one) * np.linalg.norm(other))
    return math.degrees(math.acos(min(1.0, cosine)))


def _word_boxes(plan: sheet.SheetPlan) -> tuple[Box, ...]:
    return plan.name_strip, plan.number, plan.instructions, plan.notice


def _bead_boxes(plan: sheet.SheetPlan) -> tuple[Box, ...]:
    return tuple(
        Box(b.x - b.radius, b.y - b.radius, 2 * b.radius, 2 * b.radius) for b in plan.beads
    )


def _gap(one: Box, other: Box) -> float:
    across = max(one.x - other.right, other.x - one.right)
    down = max(one.y - other.bottom, other.y - one.bottom)
    return max(across, down)
