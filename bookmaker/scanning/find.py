"""A sheet in a picture: pixels in, whose sheet it is and where every millimetre of it lies out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np
import zxingcpp
from PIL import Image

from bookmaker.scanning.beads import Beads, find_beads
from bookmaker.scanning.codes import FoundCode, find_missing, merge, pairs, read_codes
from bookmaker.scanning.sheet_plan import CODE_MODULES, FORMAT, SheetPlan
from bookmaker.scanning.warp import Picture, Warp, fit_bend, fit_homography, flat_warp

Reason = Literal[
    "no-picture",  # the file, or a page of it, holds none that can be read
    "blank",  # an empty page
    "no-marks",  # no code of a drawing sheet
    "too-few-marks",  # codes, but no two on a diagonal
    "two-sheets",  # codes of more than one sheet
    "other-class",
    "older-format",
    "newer-format",
    "unknown-sheet",  # not in the register
    "not-flat",  # the marks do not fit together
    "too-coarse",
    "too-blurred",
    "nothing-drawn",
]


@dataclass(frozen=True)
class Refused:
    """Why a picture is not taken in. ``sheets`` are the numbers that were read; ``detail`` is what
    a sentence may need (the other class's code, the other format)."""

    reason: Reason
    sheets: tuple[int, ...] = ()
    detail: str = ""


@dataclass(frozen=True)
class Found:
    """``marks`` are the codes that were read (0 to 3)."""

    sheet: int
    plan: SheetPlan
    warp: Warp
    marks: tuple[int, ...]
    beads: Beads


ENOUGH = 3
"""Codes with which no further look is taken."""

CLEAR = 2.7
"""Pixels a module with which codes are not missed; most are read with 2.4."""

CODE_TRUST = 0.15
"""Weight of a code's corner against a bead's middle: corners come in whole pixels."""

FEWEST_BEADS = 24
WORST_FIT = 0.4
"""Millimetres by which the middle bead may miss."""

BLANK = 12.0
"""Steps of light, of 255, between the lightest and the darkest of an empty page."""


def find_sheet(
    picture: Image.Image, class_code: str, plan_of: Callable[[int], SheetPlan | None]
) -> Found | Refused:
    """Find the one sheet of ``class_code`` in an RGB ``picture``.

    ``plan_of`` gives the plan of a sheet's number, None for a number that was never printed.
    """
    grey = picture.getchannel("G")  # nearly what the eye calls light, in half the time
    codes: list[FoundCode] = []
    plan: SheetPlan | None = None
    for pixels, scale, binarizer in _views(grey):
        codes = merge(codes, read_codes(pixels, binarizer, scale))
        if not codes:
            continue
        whose = _whose(codes, class_code)
        if isinstance(whose, Refused):
            return whose
        plan = plan_of(whose)
        if plan is None:
            return Refused("unknown-sheet", (whose,))
        codes = list(find_missing(_channels(picture, grey), tuple(codes), plan))
        if len(codes) >= ENOUGH and (scale == 1 or not _are_coarse(codes)):
            return _fit(grey, codes, plan)
    if not codes:
        return Refused("blank" if _is_blank(grey) else "no-marks")
    marks = {code.payload.mark for code in codes}
    if plan is None or not ({0, 2} <= marks or {1, 3} <= marks):
        return Refused("too-few-marks", (codes[0].payload.sheet,))
    return _fit(grey, codes, plan)


def _fit(grey: Image.Image, codes: list[FoundCode], plan: SheetPlan) -> Found | Refused:
    """The warp through all codes, then through the beads that it leads to, twice."""
    sheet = codes[0].payload.sheet
    size = (plan.width, plan.height)
    corners, seen_at = pairs(codes, plan)
    homography = fit_homography(corners, seen_at)
    warp = flat_warp(homography, size)
    for reach, degree in ((5.0, 3), (1.5, 4)):
        beads = find_beads(grey, warp, plan, reach)
        if len(beads.sheet) < FEWEST_BEADS:
            return Refused("not-flat", (sheet,))
        known = np.concatenate([beads.sheet, corners])
        seen = np.concatenate([beads.picture, seen_at])
        trust = np.repeat([1.0, CODE_TRUST], [len(beads.sheet), len(corners)])
        warp = fit_bend(homography, size, known, seen, trust, degree)
    miss = np.hypot(*(warp.to_picture(beads.sheet) - beads.picture).T)
    if np.median(miss / warp.scale_at(beads.sheet)) > WORST_FIT:
        return Refused("not-flat", (sheet,))
    marks = tuple(sorted(code.payload.mark for code in codes))
    return Found(sheet, plan, warp, marks, beads)


def _are_coarse(codes: list[FoundCode]) -> bool:
    """Whether the codes are so small at half the size that those of a second sheet, a little
    farther away, may have been missed."""
    sides = [np.hypot(*(code.corners[1] - code.corners[0])) for code in codes]
    return bool(min(sides) < 2 * CLEAR * CODE_MODULES)


def _whose(codes: list[FoundCode], class_code: str) -> int | Refused:
    """The number of the one sheet that ``codes`` are of."""
    payloads = [code.payload for code in codes]
    sheets = tuple(sorted({payload.sheet for payload in payloads}))
    whole = {(payload.class_code, payload.sheet, payload.format) for payload in payloads}
    if len(whole) > 1 or len({payload.mark for payload in payloads}) < len(payloads):
        return Refused("two-sheets", sheets)
    one = payloads[0]
    if one.format != FORMAT:
        older = one.format < FORMAT
        return Refused("older-format" if older else "newer-format", sheets, str(one.format))
    if one.class_code != class_code:
        return Refused("other-class", sheets, one.class_code)
    return one.sheet


def _views(picture: Image.Image) -> Iterator[tuple[Picture, float, zxingcpp.Binarizer]]:
    """Ways to look at a grey picture, the one that tells most for its time first: at half the size,
    at full size, with one threshold for all of it, with black and white pulled apart."""
    yield np.asarray(picture.reduce(2)), 2.0, zxingcpp.Binarizer.LocalAverage
    grey = np.asarray(picture)
    yield grey, 1.0, zxingcpp.Binarizer.LocalAverage
    yield grey, 1.0, zxingcpp.Binarizer.GlobalHistogram
    low, high = np.percentile(grey[::4, ::4], (1, 99))
    pulled = (grey.astype(np.float32) - low) * (255 / max(1.0, high - low))
    yield pulled.clip(0, 255).astype(np.uint8), 1.0, zxingcpp.Binarizer.LocalAverage


def _channels(picture: Image.Image, grey: Image.Image) -> Iterator[Image.Image]:
    """Grey, then the other colours: a crayon over a code hides it in some of them only."""
    yield grey
    for channel in ("R", "B"):
        yield picture.getchannel(channel)


def _is_blank(grey: Image.Image) -> bool:
    """Whether a page is all of one light, but for specks and a rim."""
    small = np.asarray(grey.resize((64, 64), Image.Resampling.BOX), np.float32)[4:-4, 4:-4]
    return bool(np.percentile(small, 99) - np.percentile(small, 1) < BLANK)
