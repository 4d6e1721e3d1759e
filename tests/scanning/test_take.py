"""A few pictures of the trial, from end to end; tests/benchmarks/intake.py takes all of them in."""

import io
from dataclasses import replace

import numpy as np
import pytest
from PIL import Image

from bookmaker.scanning.drawing_png import write_png
from bookmaker.scanning.find import Refused
from bookmaker.scanning.take import Class, Taken, take
from tests.scanning.camera import Shot, photograph
from tests.scanning.drawings import lay_on
from tests.scanning.prints import print_sheet
from tests.scanning.trial import (
    CODE,
    REFUSALS,
    Trial,
    finished,
    judge,
    layer,
    marks_of,
    photograph_trial,
    plan_of,
    scan_trial,
    the_class,
)

DPI = 150
WIDEST = 2048


def opened(trial: Trial) -> Image.Image:
    return Image.open(io.BytesIO(trial.picture.data))


@pytest.fixture(scope="module")
def known() -> Class:
    return the_class()


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_photograph_is_taken_in_and_every_spot_is_where_it_was(seed: int, known: Class) -> None:
    score = judge(photograph_trial(seed, "plain", DPI, WIDEST), known, DPI)
    assert score.right and not score.wrong_sheet
    assert score.worst < 0.5 and score.middle < 0.15
    assert score.worst < score.plain_worst
    assert score.colour < 4


@pytest.mark.parametrize("seed", [9])
def test_a_hand_over_a_corner_costs_a_word_and_no_place(seed: int, known: Class) -> None:
    score = judge(photograph_trial(seed, "hand", DPI, WIDEST), known, DPI)
    assert score.right and "corner-covered" in score.outcome
    assert score.worst < 0.5


def test_a_coloured_in_code_costs_a_word_and_no_place(known: Class) -> None:
    score = judge(photograph_trial(8, "coloured", DPI, WIDEST), known, DPI)
    assert score.right and score.worst < 0.5


@pytest.mark.parametrize("seed", [0, 2])
def test_a_scan_is_taken_in(seed: int, known: Class) -> None:
    score = judge(scan_trial(seed, "plain", DPI), known, DPI)
    assert score.right and score.worst < 0.3 and score.colour < 4


@pytest.mark.parametrize("seed", range(len(REFUSALS)))
def test_what_can_not_be_taken_is_refused_with_its_reason(seed: int, known: Class) -> None:
    trial = photograph_trial(seed, "refuse", DPI, WIDEST)
    got = take(opened(trial), known)
    assert isinstance(got, Refused) and got.reason == REFUSALS[seed]


def test_a_blank_side_is_told_from_a_page_of_something_else(known: Class) -> None:
    noise = np.random.default_rng(0).integers(244, 252, (900, 640, 3)).astype(np.uint8)
    assert take(Image.fromarray(noise), known) == Refused("blank")
    noise[100:400, 100:500] = 60
    assert take(Image.fromarray(noise), known) == Refused("no-marks")


def test_a_refusal_says_what_a_sentence_needs(known: Class) -> None:
    stranger = take(opened(scan_trial(1, "refuse", DPI)), known)
    assert stranger == Refused("other-class", (6,), "93350417")


@pytest.mark.parametrize("mode", ["L", "RGBA", "P", "I;16", "1", "CMYK"])
def test_every_kind_of_pixels_is_read(mode: str, known: Class) -> None:
    picture = finished(3, 150)
    if mode == "I;16":
        deep = np.asarray(picture.convert("L")).astype(np.uint16) * 257
        picture = Image.fromarray(deep)
    else:
        picture = picture.convert(mode)
    assert isinstance(take(picture, known), Taken)


def test_a_mirrored_picture_is_turned_right(known: Class) -> None:
    straight = take(finished(3, 150), known)
    mirrored = take(finished(3, 150).transpose(Image.Transpose.FLIP_LEFT_RIGHT), known)
    assert isinstance(straight, Taken) and isinstance(mirrored, Taken)
    size = straight.drawing.shape[1::-1]
    again = np.asarray(Image.fromarray(mirrored.drawing).resize(size), float)
    assert np.abs(again - straight.drawing).mean() < 2


def test_a_dark_and_blurred_photograph_says_so(known: Class) -> None:
    shot = Shot(5, 2560, 1920, turn=90, exposure=0.22, blur=3.2, noise=2.0)
    got = take(_photographed(3, shot), known)
    assert isinstance(got, Taken) and {"dark", "blurred"} <= set(got.faults)


def test_a_photograph_from_too_far_is_refused(known: Class) -> None:
    small = finished(3, 150).resize((460, 650), Image.Resampling.LANCZOS)
    got = take(small, known)
    assert isinstance(got, Refused) and got.reason in ("too-coarse", "no-marks", "too-few-marks")


def test_a_photograph_out_of_focus_is_refused(known: Class) -> None:
    got = take(_photographed(3, Shot(5, 2560, 1920, turn=90, blur=7.0)), known)
    assert isinstance(got, Refused)
    assert got.reason in ("too-blurred", "no-marks", "too-few-marks", "not-flat")


def test_a_sheet_with_codes_of_another_in_sight_is_not_guessed_at(known: Class) -> None:
    page = finished(3, DPI).copy()
    code = plan_of(1).codes[0]
    scale = DPI / 25.4
    corner = finished(1, DPI).crop(tuple(round(v * scale) for v in (8, 8, 26, 26)))
    page.paste(corner, (round((code.x + 60) * scale), round(100 * scale)))
    got = take(page, known)
    assert got == Refused("two-sheets", (1, 3))


def test_a_second_sheet_is_seen_where_codes_are_too_fine_for_the_first_look(known: Class) -> None:
    one, other = finished(1, 122), finished(3, 80)
    wide = Image.new("RGB", (one.width + other.width + 60, one.height + 40), (120, 96, 70))
    wide.paste(one, (20, 20))
    wide.paste(other, (one.width + 40, 20))
    assert take(wide, known) == Refused("two-sheets", (1, 3))


def test_the_pale_marks_are_gone_and_a_pencil_line_over_them_stays(known: Class) -> None:
    plan, marks = plan_of(2), marks_of(2)
    bare = print_sheet(plan, CODE, 2, marks, 200)
    page = lay_on(bare, layer(2, 200), plan.frame, 200)
    got = take(page, known)
    assert isinstance(got, Taken)
    clean = Image.fromarray((layer(2, 200) * 255).astype(np.uint8))
    wanted = np.asarray(clean.resize(got.drawing.shape[1::-1], Image.Resampling.BOX), float)
    miss = np.abs(wanted - got.drawing)
    ring = _ring(marks.spots[0], got)
    assert miss[ring].mean() < 6
    assert miss.mean() < 3


def test_a_free_sheet_has_no_pale_marks_to_drop(known: Class) -> None:
    free = replace(known, sheets={3: replace(known.sheets[3], marks=type(marks_of(3))())})
    got = take(finished(3, 150), free)
    assert isinstance(got, Taken)


def test_a_drawing_carries_pixels_and_nothing_else(known: Class) -> None:
    out = io.BytesIO()
    exif = Image.Exif()
    exif[0x0110] = "Somebody's telephone"
    exif.get_ifd(0x8825)[1] = "N"
    note = b"somebody was here"
    finished(3, 150).save(out, "JPEG", quality=90, exif=exif, comment=note)
    got = take(Image.open(io.BytesIO(out.getvalue())), known)
    assert isinstance(got, Taken)
    png = write_png(got.drawing, got.scale)
    assert chunks(png) == {b"IHDR", b"pHYs", b"IDAT", b"IEND"}
    again = Image.open(io.BytesIO(png))
    assert np.array_equal(np.asarray(again), got.drawing)
    assert again.info["dpi"][0] == pytest.approx(got.scale * 25.4, abs=0.1)


def chunks(png: bytes) -> set[bytes]:
    """The kinds of chunk of a PNG (ISO/IEC 15948, clause 5)."""
    at, found = 8, set()
    while at < len(png):
        found.add(png[at + 4 : at + 8])
        at += 12 + int.from_bytes(png[at : at + 4], "big")
    return found


def _photographed(sheet: int, shot: Shot) -> Image.Image:
    return Image.open(io.BytesIO(photograph(finished(sheet, DPI), plan_of(sheet), shot).data))


def _ring(spot, got: Taken) -> np.ndarray:  # type: ignore[no-untyped-def]
    y, x = np.indices(got.drawing.shape[:2]) / got.scale
    return np.abs(np.hypot(x - spot.x, y - spot.y) - spot.radius) < 1
