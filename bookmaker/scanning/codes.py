"""Codes in a picture: grey pixels in, payloads and their corners in pixels out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import zxingcpp
from PIL import Image, ImageOps

from bookmaker.model import Box
from bookmaker.scanning.sheet_plan import Payload, SheetPlan, read_payload
from bookmaker.scanning.warp import Floats, Picture, fit_homography, flat_warp, flatten

NEAR = 7.0
"""Millimetres looked at round the place where a missing code must be."""

CLOSE_SCALE = 7.0
"""Pixels a millimetre at which it is looked at."""


@dataclass(frozen=True)
class FoundCode:
    """``corners`` (4, 2) in pixels: top left, top right, bottom right, bottom left of the code."""

    payload: Payload
    corners: Floats


def read_codes(grey: Picture, binarizer: zxingcpp.Binarizer, scale: float = 1.0) -> list[FoundCode]:
    """Every code of a drawing sheet in (height, width) pixels; corners come ``scale`` times."""
    formats = zxingcpp.BarcodeFormats([zxingcpp.BarcodeFormat.DataMatrix])
    codes = zxingcpp.read_barcodes(
        grey, formats=formats, binarizer=binarizer, try_invert=False, try_downscale=False
    )
    found = []
    for code in codes:
        payload = read_payload(code.text)
        if payload is not None:
            at = code.position
            points = (at.top_left, at.top_right, at.bottom_right, at.bottom_left)
            corners = np.array([(point.x + 0.5, point.y + 0.5) for point in points])
            found.append(FoundCode(payload, corners * scale))
    return found


def find_missing(
    pictures: Iterable[Image.Image], found: tuple[FoundCode, ...], plan: SheetPlan
) -> tuple[FoundCode, ...]:
    """``found`` (of one sheet) and those that show up where the plan says they must be.

    ``pictures`` are grey views of one picture, tried in turn until no code is missing.
    """
    for picture in pictures:
        for mark in range(len(plan.codes)):
            if all(code.payload.mark != mark for code in found):
                found += _look_close(picture, found, plan, mark)
        if len(found) == len(plan.codes):
            break
    return found


def _look_close(
    picture: Image.Image, found: tuple[FoundCode, ...], plan: SheetPlan, mark: int
) -> tuple[FoundCode, ...]:
    """The one code that is looked for, if it can be read flattened and with its contrast pulled."""
    warp = flat_warp(fit_homography(*pairs(found, plan)), (plan.width, plan.height))
    box = plan.codes[mark]
    near = (box.x - NEAR, box.y - NEAR, box.width + 2 * NEAR, box.height + 2 * NEAR)
    close = ImageOps.autocontrast(Image.fromarray(flatten(picture, warp, near, CLOSE_SCALE)), 1)
    for code in read_codes(np.asarray(close), zxingcpp.Binarizer.LocalAverage):
        if (code.payload.mark, code.payload.sheet) == (mark, found[0].payload.sheet):
            corners = warp.to_picture(code.corners / CLOSE_SCALE + near[:2])
            return (FoundCode(code.payload, corners),)
    return ()


def pairs(found: Iterable[FoundCode], plan: SheetPlan) -> tuple[Floats, Floats]:
    """Corners of the codes on the sheet in millimetres and in the picture in pixels: (n, 2)."""
    codes = list(found)
    sheet = np.concatenate([box_corners(plan.codes[code.payload.mark]) for code in codes])
    return sheet, np.concatenate([code.corners for code in codes])


def box_corners(box: Box) -> Floats:
    """(4, 2): top left, top right, bottom right, bottom left."""
    return np.array(
        [(box.x, box.y), (box.right, box.y), (box.right, box.bottom), (box.x, box.bottom)]
    )


def merge(found: list[FoundCode], more: Iterable[FoundCode]) -> list[FoundCode]:
    """``found`` and those of ``more`` that are not the same code at the same place."""
    merged = list(found)
    for code in more:
        side = float(np.hypot(*(code.corners[1] - code.corners[0])))
        if not any(
            code.payload == known.payload
            and np.abs(code.corners.mean(0) - known.corners.mean(0)).max() < side
            for known in merged
        ):
            merged.append(code)
    return merged
