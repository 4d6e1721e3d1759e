"""The trial of the class edition: photographs and scans with all that may befall them, and how well
intake did on each. The ordinary suite runs a few of it, tests/benchmarks/intake.py all."""

from __future__ import annotations

import functools
import io
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from PIL import Image

from bookmaker.scanning.codes import pairs, read_codes
from bookmaker.scanning.find import Refused, find_sheet
from bookmaker.scanning.sheet_plan import SheetPlan, sheet_plan
from bookmaker.scanning.take import Class, KnownSheet, Taken, take
from bookmaker.scanning.warp import fit_homography, flat_warp
from tests.scanning.camera import Photograph, any_scan, any_shot, photograph, scan
from tests.scanning.drawings import KINDS, drawing, frame_size, lay_on, scribble_over
from tests.scanning.prints import print_sheet, some_marks

CODE = "40718265"
OTHER_CODE = "93350417"
Case = Literal["plain", "hand", "coloured", "refuse"]
REFUSALS = (
    "no-marks",
    "other-class",
    "two-sheets",
    "older-format",
    "too-few-marks",
    "nothing-drawn",
    "unknown-sheet",
)
SHEETS = 12


@dataclass(frozen=True)
class Trial:
    """One picture of the trial and what should come of it."""

    name: str
    case: Case
    source: Literal["photograph", "scan"]
    picture: Photograph
    sheet: int
    reason: str = ""


@dataclass(frozen=True)
class Score:
    """What came of it. Errors in millimetres over the whole frame; ``colour`` is the mean CIE 1976
    difference from the clean drawing."""

    trial: str
    case: Case
    source: str
    outcome: str
    right: bool
    wrong_sheet: bool
    worst: float = np.nan
    middle: float = np.nan
    plain_worst: float = np.nan
    plain_middle: float = np.nan
    colour: float = np.nan


def the_class() -> Class:
    """Sheets 1 to SHEETS, odd ones on A4, even ones on letter."""
    return Class(CODE, {n: KnownSheet(_paper(n), marks_of(n)) for n in range(1, SHEETS + 1)})


def photograph_trial(seed: int, case: Case, dpi: float = 300, widest: int = 4000) -> Trial:
    """A photograph of some sheet, no wider than ``widest`` pixels."""
    sheet, name = seed % SHEETS + 1, f"photograph-{seed}"
    shot, plan = any_shot(seed), plan_of(sheet)
    if shot.width > widest:
        part = widest / shot.width
        height = round(shot.height * part)
        shot = replace(shot, width=widest, height=height, blur=shot.blur * part)
    if case == "hand":
        shot = replace(shot, hands=(seed // 5 % 4,))
    page, reason = finished(sheet, dpi), ""
    if case == "coloured":
        page = scribble_over(page, plan.codes[seed // 5 % 4], seed, dpi)
    if case == "refuse":
        reason = REFUSALS[seed % len(REFUSALS)]
        page, plan, shot = _spoilt(reason, sheet, dpi, shot)
    return Trial(name, case, "photograph", photograph(page, plan, shot), sheet, reason)


def scan_trial(seed: int, case: Case, dpi: float = 300) -> Trial:
    sheet, name = (seed * 5) % SHEETS + 1, f"scan-{seed}"
    plan, page, reason = plan_of(sheet), finished(sheet, dpi), ""
    if case == "coloured":
        page = scribble_over(page, plan.codes[seed // 5 % 4], seed, dpi)
    if case == "refuse":
        reason = ("blank", "other-class", "no-marks", "older-format")[seed % 4]
        if reason == "blank":
            page = Image.new("RGB", page.size, (251, 250, 248))
        else:
            page, plan, _ = _spoilt(reason, sheet, dpi, any_shot(seed))
    return Trial(name, case, "scan", scan(page, plan, any_scan(seed)), sheet, reason)


def judge(trial: Trial, known: Class, dpi: float = 300) -> Score:
    """Take the picture in and compare with the truth; ``dpi`` is that of the printed sheet."""
    picture = Image.open(io.BytesIO(trial.picture.data))
    picture.load()
    got = take(picture, known)
    wrong = not isinstance(got, Refused) and (got.sheet != trial.sheet or bool(trial.reason))
    outcome = got.reason if isinstance(got, Refused) else " ".join(got.faults) or "good"
    score = Score(trial.name, trial.case, trial.source, outcome, False, wrong)
    if isinstance(got, Refused) or trial.reason:
        return replace(score, right=bool(trial.reason) and outcome == trial.reason)
    return replace(_measured(score, trial, picture.convert("RGB"), got, dpi), right=not wrong)


def frame_points(plan: SheetPlan) -> np.ndarray:
    """(n, 2) millimetres: where a spot's middle may stand, all over the frame."""
    frame = plan.frame
    xs = np.linspace(frame.x + 10, frame.right - 10, 9)
    ys = np.linspace(frame.y + 10, frame.bottom - 10, 11)
    return np.stack(np.meshgrid(xs, ys), -1).reshape(-1, 2)


def misplaced(warp, picture: Photograph, plan: SheetPlan) -> np.ndarray:  # type: ignore[no-untyped-def]
    """(n,) millimetres on the paper by which ``warp`` misses where the camera truly saw it."""
    points, tiny = frame_points(plan), 1e-3
    true = picture.place(points)
    x = (picture.place(points + np.array([tiny, 0])) - true) / tiny
    y = (picture.place(points + np.array([0, tiny])) - true) / tiny
    miss = warp.to_picture(points) - true
    area = x[:, 0] * y[:, 1] - x[:, 1] * y[:, 0]
    along = (miss[:, 0] * y[:, 1] - miss[:, 1] * y[:, 0]) / area
    across = (x[:, 0] * miss[:, 1] - x[:, 1] * miss[:, 0]) / area
    return np.hypot(along, across)


def colour_error(got: Taken, sheet: int, dpi: float = 300) -> float:
    """Mean CIE 1976 difference over the frame at 3 pixels a millimetre."""
    clean = Image.fromarray((layer(sheet, dpi) * 255).astype(np.uint8))
    plan = plan_of(sheet)
    size = (round(plan.frame.width * 3), round(plan.frame.height * 3))
    wanted = np.asarray(clean.resize(size, Image.Resampling.BOX))
    seen = np.asarray(Image.fromarray(got.drawing).resize(size, Image.Resampling.BOX))
    return float(np.sqrt(((lab(wanted) - lab(seen)) ** 2).sum(-1)).mean())


def lab(pixels: np.ndarray) -> np.ndarray:
    """sRGB bytes (IEC 61966-2-1) to CIE 1976 L*a*b* under D65 (ISO/CIE 11664-4)."""
    part = np.arange(256, dtype=np.float32) / 255
    steps = np.where(part <= 0.04045, part / 12.92, ((part + 0.055) / 1.055) ** 2.4)
    linear = steps[pixels]
    to_xyz = np.array(
        [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]], np.float32
    )
    x = linear @ to_xyz.T / np.array([0.9505, 1, 1.089], np.float32)
    f = np.where(x > (6 / 29) ** 3, np.cbrt(x), x / (3 * (6 / 29) ** 2) + 4 / 29)
    a, b, c = f[..., 0], f[..., 1], f[..., 2]
    return np.stack([116 * b - 16, 500 * (a - b), 200 * (b - c)], -1)


def table(scores: Iterable[Score]) -> str:
    """The trial's table: one row a kind of picture, then what was to be refused."""
    scores = list(scores)
    head = f"{'pictures':24}{'n':>5}{'taken':>8}{'worst':>8}{'median':>8}"
    lines = [head + f"{'4-corner worst':>16}{'median':>8}{'colour':>8}{'wrong sheet':>13}"]
    for source in ("photograph", "scan"):
        for case in ("plain", "hand", "coloured"):
            rows = [s for s in scores if (s.source, s.case) == (source, case)]
            if rows:
                lines.append(_row(f"{source}, {case}", rows))
    refused = [s for s in scores if s.case == "refuse"]
    right = sum(s.right for s in refused)
    lines.append(f"to be refused: {len(refused)}, with the right reason: {right}")
    lines += [f"  {s.trial}: {s.case}: {s.outcome}" for s in scores if not s.right]
    return "\n".join(lines)


def _row(name: str, rows: list[Score]) -> str:
    taken = sum(s.right for s in rows) / len(rows)
    wrong = sum(s.wrong_sheet for s in rows)
    worst, middle = _most(s.worst for s in rows), _mid(s.middle for s in rows)
    plain = f"{_most(s.plain_worst for s in rows):>16.2f}{_mid(s.plain_middle for s in rows):>8.2f}"
    start = f"{name:24}{len(rows):>5}{taken:>8.1%}{worst:>8.2f}{middle:>8.2f}"
    return start + plain + f"{_mid(s.colour for s in rows):>8.2f}{wrong:>13}"


def _most(values: Iterable[float]) -> float:
    return max((value for value in values if value == value), default=np.nan)


def _mid(values: Iterable[float]) -> float:
    kept = [value for value in values if value == value]
    return float(np.median(kept)) if kept else np.nan


def _measured(score: Score, trial: Trial, picture, got: Taken, dpi: float) -> Score:  # type: ignore[no-untyped-def]
    plan = plan_of(trial.sheet)
    found = find_sheet(picture, CODE, lambda number: plan)
    assert not isinstance(found, Refused)
    miss = misplaced(found.warp, trial.picture, plan)
    plain = _four_corners(picture, trial, plan)
    return replace(
        score,
        worst=float(miss.max()),
        middle=float(np.median(miss)),
        plain_worst=float(plain.max()),
        plain_middle=float(np.median(plain)),
        colour=colour_error(got, trial.sheet, dpi),
    )


def _four_corners(picture, trial: Trial, plan: SheetPlan) -> np.ndarray:  # type: ignore[no-untyped-def]
    """The same by a plain homography through the corners of the codes, nothing more."""
    import zxingcpp

    codes = read_codes(np.asarray(picture.convert("L")), zxingcpp.Binarizer.LocalAverage)
    if len(codes) < 2:
        return np.array([np.nan])
    homography = fit_homography(*pairs(codes, plan))
    return misplaced(flat_warp(homography, (plan.width, plan.height)), trial.picture, plan)


def _spoilt(reason: str, sheet: int, dpi: float, shot):  # type: ignore[no-untyped-def]
    plan = plan_of(sheet)
    if reason == "other-class":
        return finished(sheet, dpi, OTHER_CODE), plan, shot
    if reason == "older-format":
        return finished(sheet, dpi, format=0), plan, shot
    if reason == "unknown-sheet":
        return finished(sheet, dpi, number=sheet + 500), plan, shot
    if reason == "nothing-drawn":
        return print_sheet(plan, CODE, sheet, marks_of(sheet), dpi), plan, shot
    if reason == "too-few-marks":
        return finished(sheet, dpi), plan, replace(shot, hands=((0, 1), (1, 2), (2, 3))[sheet % 3])
    if reason == "no-marks":
        page = finished(sheet, dpi).copy()
        for box in plan.codes:
            corners = (box.x - 1, box.y - 1, box.right + 1, box.bottom + 1)
            page.paste("white", tuple(round(value * dpi / 25.4) for value in corners))
        return page, plan, shot
    wide = Image.new("RGB", (round(440 * dpi / 25.4), round(300 * dpi / 25.4)), (120, 96, 70))
    wide.paste(finished(1, dpi), (0, 0))
    wide.paste(finished(3, dpi), (round(225 * dpi / 25.4), 0))
    return wide, replace(plan, width=440.0, height=300.0), shot


def plan_of(sheet: int) -> SheetPlan:
    return sheet_plan(_paper(sheet))


def _paper(sheet: int) -> str:
    return "a4" if sheet % 2 else "letter"


@functools.cache
def marks_of(sheet: int):  # type: ignore[no-untyped-def]
    return some_marks(plan_of(sheet).frame, sheet)


@functools.lru_cache(SHEETS)
def layer(sheet: int, dpi: float) -> np.ndarray:
    size = frame_size(plan_of(sheet).frame, dpi)
    return drawing(KINDS[sheet % len(KINDS)], size, sheet, dpi)


@functools.lru_cache(SHEETS)
def finished(sheet: int, dpi: float, code: str = CODE, format: int = 1, number: int = 0):  # type: ignore[no-untyped-def]
    plan = plan_of(sheet)
    page = print_sheet(plan, code, number or sheet, marks_of(sheet), dpi, format=format)
    return lay_on(page, layer(sheet, dpi), plan.frame, dpi)
