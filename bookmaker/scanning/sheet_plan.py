"""The drawing sheet: paper and a payload in, everything that is printed on it out, in millimetres.

A frame to draw in, a code in each corner of the paper, a row of beads all round the frame (the
corners alone can't see that paper curls), and places for the words. No name is in any mark.
"""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from bookmaker.model import Box, Disc, Point

FORMAT = 1
"""Version of what the codes say and where everything stands. A sheet of another is refused."""

MODULE = 1.0
CODE_MODULES = 14
CODE_SIDE = MODULE * CODE_MODULES
"""ISO/IEC 16022 symbol of 14 x 14 modules: sixteen digits, ten error-correcting codewords."""

QUIET = 2.0
"""Clear paper round a code; ISO/IEC 16022 asks for one module."""

MOST_SHEETS = 9999
"""A sheet's number has four digits in its codes."""

MARGIN = 10.0
BEAD_RADIUS = 1.2
BEAD_OUTSIDE = 2.8
BEAD_PITCH = 15.0
TOP = 32.0
BOTTOM = 55.0
SIDE = 15.0

PALE_INK = (0xF0, 0xC8, 0xF6)
"""Pale heather, sRGB, of the printed spots, links and tags: dark enough to draw by. It takes light
from green almost alone, which sets it off from pencil (all three), yellow (blue) and every other
crayon of a school box, and is where a camera and JPEG are finest."""

PALE_STROKE = 0.8
"""Width of the pale lines, in the middle of which the outlines of spots and tags run."""

TAG_CORNER = 2.0
"""Radius of a pale tag's corners."""

PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}


@dataclass(frozen=True, slots=True)
class Payload:
    """What one code says. ``class_code`` is random, of eight digits; ``mark`` is 0 top left,
    1 top right, 2 bottom right, 3 bottom left."""

    class_code: str
    sheet: int
    mark: int
    format: int = FORMAT


@dataclass(frozen=True, slots=True)
class SheetPlan:
    """Where everything stands on a sheet, in millimetres from the paper's top left.

    ``codes`` are the four corners' boxes in the order of ``Payload.mark``; ``beads`` are solid
    discs; the last four boxes are for words.
    """

    paper: str
    width: float
    height: float
    frame: Box
    codes: tuple[Box, Box, Box, Box]
    beads: tuple[Disc, ...]
    name_strip: Box
    number: Box
    instructions: Box
    notice: Box


def sheet_plan(paper: str) -> SheetPlan:
    """The sheet on ``paper`` ("a4" or "letter", upright). Raises KeyError for another paper."""
    width, height = PAPERS[paper]
    frame = Box(SIDE, TOP, width - 2 * SIDE, height - TOP - BOTTOM)
    left, top = MARGIN, MARGIN
    right, bottom = width - MARGIN - CODE_SIDE, height - MARGIN - CODE_SIDE
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    one, two, three, four = (Box(x, y, CODE_SIDE, CODE_SIDE) for x, y in corners)
    inner = MARGIN + CODE_SIDE + 2 * QUIET
    middle = width - 2 * inner
    below = frame.bottom + BEAD_OUTSIDE + BEAD_RADIUS + QUIET
    foot = height - MARGIN
    return SheetPlan(
        paper=paper,
        width=width,
        height=height,
        frame=frame,
        codes=(one, two, three, four),
        beads=_beads(frame),
        name_strip=Box(inner, MARGIN, middle - 34, 17),
        number=Box(width - inner - 30, MARGIN, 30, 17),
        instructions=Box(inner, below, middle, foot - below - 8),
        notice=Box(inner, foot - 7, middle, 7),
    )


def code_modules(payload: Payload) -> tuple[tuple[bool, ...], ...]:
    """The Data Matrix of ``payload``: rows of modules, True is dark; no quiet zone.

    Raises ValueError where the payload has no room in sixteen digits.
    """
    import zxingcpp  # slow to load

    code = zxingcpp.create_barcode(write_payload(payload), zxingcpp.BarcodeFormat.DataMatrix)
    pixels = np.asarray(code.to_image(scale=1, add_quiet_zones=False))
    if pixels.shape != (CODE_MODULES, CODE_MODULES):
        raise ValueError(f"the code has {pixels.shape} modules, {CODE_MODULES} were planned")
    return tuple(tuple(bool(value < 128) for value in row) for row in pixels)


def write_payload(payload: Payload) -> str:
    """Sixteen digits: format 2, class 8, sheet 4, mark 1, check digit (ISO/IEC 7812-1, Luhn)."""
    if not (
        len(payload.class_code) == 8
        and payload.class_code.isascii()
        and payload.class_code.isdigit()
    ):
        raise ValueError(f"class code {payload.class_code!r} is not eight digits")
    if not (
        0 <= payload.format < 100 and 0 < payload.sheet <= MOST_SHEETS and 0 <= payload.mark < 4
    ):
        raise ValueError(f"{payload} does not fit into sixteen digits")
    digits = f"{payload.format:02d}{payload.class_code}{payload.sheet:04d}{payload.mark}"
    return digits + str(luhn(digits))


def read_payload(text: str) -> Payload | None:
    """The payload that ``text`` says, or None if it is no code of a drawing sheet."""
    if len(text) != 16 or not text.isascii() or not text.isdigit():
        return None
    if luhn(text[:15]) != int(text[15]):
        return None
    payload = Payload(text[2:10], int(text[10:14]), int(text[14]), int(text[:2]))
    return payload if payload.sheet > 0 and payload.mark < 4 else None


def luhn(digits: str) -> int:
    """Check digit of ``digits`` (ISO/IEC 7812-1, annex B)."""
    doubled = [int(digit) * (2 - place % 2) for place, digit in enumerate(reversed(digits))]
    return -sum(value // 10 + value % 10 for value in doubled) % 10


def new_class_code() -> str:
    """A random code of eight digits. Not seeded: it must differ everywhere."""
    return f"{secrets.randbelow(10**8):08d}"


def _beads(frame: Box) -> tuple[Disc, ...]:
    """Discs round ``frame``, clockwise from its top left, about BEAD_PITCH apart."""
    x0, y0 = frame.x - BEAD_OUTSIDE, frame.y - BEAD_OUTSIDE
    x1, y1 = frame.right + BEAD_OUTSIDE, frame.bottom + BEAD_OUTSIDE
    corners: tuple[Point, ...] = ((x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0))
    beads = []
    for (ax, ay), (bx, by) in pairwise(corners):
        steps = round((abs(bx - ax) + abs(by - ay)) / BEAD_PITCH)
        for step in range(steps):
            part = step / steps
            beads.append(Disc(ax + (bx - ax) * part, ay + (by - ay) * part, BEAD_RADIUS, "bead"))
    return tuple(beads)
