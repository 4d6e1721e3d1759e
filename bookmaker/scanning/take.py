"""One picture taken in: an RGB picture and the class's sheets in, a drawing with its verdict out.

Whatever leaves here is fresh pixels: nothing of the file they came from is carried along.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np
from PIL import Image

from bookmaker.model import Box
from bookmaker.scanning.clean import Lens, clean, darkest, even_out, whiten
from bookmaker.scanning.find import Found, Refused, find_sheet
from bookmaker.scanning.light import Light, find_light
from bookmaker.scanning.pale import PaleMarks
from bookmaker.scanning.sheet_plan import SheetPlan, sheet_plan
from bookmaker.scanning.warp import Picture, flatten

FINEST = 300 / 25.4
"""Pixels a millimetre of the finest drawing that is kept."""

COARSEST_DPI = 60.0
COARSE_DPI = 150.0
MOST_BLUR = 0.7
BLURRED = 0.35
"""Millimetres: a pencil line of half a millimetre drowns in the first, pales in the second."""

DARK = 70.0
"""Of 255: paper darker than this leaves few steps for a drawing."""

DRAWN = 0.0002
"""Part of the frame that must be drawn on."""

BY_A_CORNER = 60.0
"""Millimetres from a code within which a bead is its corner's."""

Fault = Literal["blurred", "dark", "coarse", "corner-covered", "edge-covered"]


@dataclass(frozen=True)
class KnownSheet:
    """What the register knows of a sheet: its paper and what was printed pale on it."""

    paper: str
    marks: PaleMarks


@dataclass(frozen=True)
class Class:
    """The class whose sheets are looked for: its random code, and its sheets by number."""

    code: str
    sheets: Mapping[int, KnownSheet]


@dataclass(frozen=True)
class Taken:
    """A drawing. ``drawing`` (height, width, 3) fills the sheet's frame at ``scale`` pixels a
    millimetre; ``name_strip`` is what was written by hand. ``blur`` is in millimetres, ``dpi``
    what the picture has."""

    sheet: int
    drawing: Picture
    name_strip: Picture
    scale: float
    faults: tuple[Fault, ...]
    blur: float
    dpi: float


def take(picture: Image.Image, known: Class) -> Taken | Refused:
    """Take the drawing out of ``picture`` (any mode, any turn), or say why not."""
    picture = picture if picture.mode == "RGB" else _on_white(picture)
    found = find_sheet(picture, known.code, lambda number: _plan(known, number))
    if isinstance(found, Refused):
        return found
    dpi = 25.4 * float(np.median(found.warp.scale_at(found.beads.sheet)))
    if dpi < COARSEST_DPI:
        return Refused("too-coarse", (found.sheet,), f"{dpi:.0f}")
    if found.beads.blur > MOST_BLUR:
        return Refused("too-blurred", (found.sheet,), f"{found.beads.blur:.1f}")
    scale = min(FINEST, dpi / 25.4)
    frame = _flat(picture, found, found.plan.frame, scale)
    light = find_light(picture, found.warp, found.plan, frame)
    lens = Lens(scale, found.beads.blur, light.noise)
    marks = known.sheets[found.sheet].marks
    drawing = clean(even_out(frame, light, found.plan.frame), marks, lens)
    if _drawn(drawing) < DRAWN:
        return Refused("nothing-drawn", (found.sheet,))
    written = _flat(picture, found, found.plan.name_strip, scale)
    strip = whiten(even_out(written, light, found.plan.name_strip), lens)
    faults = _faults(found, light, dpi)
    return Taken(found.sheet, drawing, strip, lens.scale, faults, found.beads.blur, dpi)


def _plan(known: Class, number: int) -> SheetPlan | None:
    sheet = known.sheets.get(number)
    return sheet_plan(sheet.paper) if sheet else None


def _on_white(picture: Image.Image) -> Image.Image:
    """Any picture as RGB; what is clear becomes white, sixteen bits become eight."""
    if picture.mode.startswith("I"):
        deep = np.asarray(picture).astype(np.float32)
        return Image.fromarray((deep / 257).clip(0, 255).astype(np.uint8)).convert("RGB")
    if "transparency" in picture.info or picture.mode in ("RGBA", "LA", "PA"):
        layers = picture.convert("RGBA")
        white = Image.new("RGBA", picture.size, "white")
        return Image.alpha_composite(white, layers).convert("RGB")
    return picture.convert("RGB")


def _flat(picture: Image.Image, found: Found, box: Box, scale: float) -> Picture:
    return flatten(picture, found.warp, (box.x, box.y, box.width, box.height), scale)


def _drawn(drawing: Picture) -> float:
    """The part of the frame that something is drawn on."""
    return float((darkest(drawing[1::3, 1::3]) < 225).mean())


def _covered(found: Found) -> tuple[bool, bool]:
    """Whether the code or the beads of a corner can't be seen, and whether beads elsewhere."""
    lost = [0] * len(found.plan.codes)
    elsewhere = 0
    for bead, seen in zip(found.plan.beads, found.beads.seen, strict=True):
        if not seen:
            far = [np.hypot(bead.x - code.x, bead.y - code.y) for code in found.plan.codes]
            nearest = int(np.argmin(far))
            if far[nearest] < BY_A_CORNER:
                lost[nearest] += 1
            else:
                elsewhere += 1
    return len(found.marks) < len(lost) or max(lost) > 1, elsewhere > 1


def _faults(found: Found, light: Light, dpi: float) -> tuple[Fault, ...]:
    corner, edge = _covered(found)
    said: list[tuple[Fault, bool]] = [
        ("blurred", found.beads.blur > BLURRED),
        ("dark", float(np.median(light.paper.mean(2))) < DARK),
        ("coarse", dpi < COARSE_DPI),
        ("corner-covered", corner),
        ("edge-covered", edge),
    ]
    return tuple(fault for fault, is_so in said if is_so)
