"""Sheets as a printer would put them on paper, drawn with Pillow from the plan's own data.

Shares no code with drawing and press: a sheet that only they could read would not do.
"""

from __future__ import annotations

import random
from itertools import pairwise

import numpy as np
from PIL import Image, ImageDraw, ImageFont

from bookmaker.model import Box, PlacedLink, PlacedSpot, PlacedTag
from bookmaker.scanning.pale import PaleMarks
from bookmaker.scanning.sheet_plan import (
    PALE_INK,
    PALE_STROKE,
    TAG_CORNER,
    Payload,
    SheetPlan,
    code_modules,
)

INK = (34, 32, 30)


def print_sheet(
    plan: SheetPlan,
    class_code: str,
    sheet: int,
    marks: PaleMarks,
    dpi: float = 300,
    format: int = 1,
) -> Image.Image:
    """The whole sheet, RGB, before anyone draws on it. Drawn at twice the size and reduced."""
    scale = 2 * dpi / 25.4
    size = (round(plan.width * scale / 2) * 2, round(plan.height * scale / 2) * 2)
    page = Image.new("RGB", size, "white")
    pen = ImageDraw.Draw(page)
    _draw_pale(pen, plan, marks, scale)
    frame = plan.frame
    pen.rectangle(
        [frame.x * scale, frame.y * scale, frame.right * scale, frame.bottom * scale],
        outline=INK,
        width=round(0.5 * scale),
    )
    for bead in plan.beads:
        pen.ellipse(_around(bead.x, bead.y, bead.radius, scale), fill=INK)
    for mark, box in enumerate(plan.codes):
        _draw_code(pen, box, Payload(class_code, sheet, mark, format), scale)
    _draw_words(pen, plan, sheet, scale)
    return page.reduce(2)


def some_marks(frame: Box, seed: int, count: int = 6) -> PaleMarks:
    """A tree of ``count`` spots with room between them, links straight, tags in the middle."""
    rng = random.Random(seed)
    spots: list[PlacedSpot] = []
    while len(spots) < count:
        x, y = rng.uniform(14, frame.width - 14), rng.uniform(14, frame.height - 14)
        if all((x - s.x) ** 2 + (y - s.y) ** 2 > 46**2 for s in spots):
            spots.append(PlacedSpot(f"s{len(spots)}", x, y, 10))
    links, tags = [], []
    for place in range(1, count):
        here = spots[place]
        there = min(spots[:place], key=lambda s: (s.x - here.x) ** 2 + (s.y - here.y) ** 2)
        dx, dy = there.x - here.x, there.y - here.y
        far = (dx * dx + dy * dy) ** 0.5
        ux, uy = dx / far * 10, dy / far * 10
        name = f"{here.name}-{there.name}"
        curve = ((here.x + ux, here.y + uy), (there.x - ux, there.y - uy))
        links.append(PlacedLink(name, curve))
        middle = (here.x + dx / 2, here.y + dy / 2)
        tags.append(PlacedTag(name, Box(middle[0] - 7.5, middle[1] - 6, 15, 12)))
    return PaleMarks(tuple(spots), tuple(links), tuple(tags))


def _draw_pale(pen: ImageDraw.ImageDraw, plan: SheetPlan, marks: PaleMarks, scale: float) -> None:
    ox, oy = plan.frame.x, plan.frame.y
    width = round(PALE_STROKE * scale)
    for link in marks.links:
        for (ax, ay), (bx, by) in pairwise(link.curve):
            ends = [(ax + ox) * scale, (ay + oy) * scale, (bx + ox) * scale, (by + oy) * scale]
            pen.line(ends, fill=PALE_INK, width=width)
    half = PALE_STROKE / 2
    for tag in marks.tags:
        box = tag.box
        corners = [
            (box.x + ox - half) * scale,
            (box.y + oy - half) * scale,
            (box.right + ox + half) * scale,
            (box.bottom + oy + half) * scale,
        ]
        radius = (TAG_CORNER + half) * scale
        pen.rounded_rectangle(corners, radius, outline=PALE_INK, width=width, fill="white")
    for spot in marks.spots:
        around = _around(spot.x + ox, spot.y + oy, spot.radius + half, scale)
        pen.ellipse(around, outline=PALE_INK, width=width, fill="white")


def _draw_code(pen, box, payload, scale) -> None:  # type: ignore[no-untyped-def]
    dark = np.array(code_modules(payload))
    side = box.width / len(dark)
    for row, column in np.argwhere(dark):
        x, y = box.x + column * side, box.y + row * side
        corners = [x * scale, y * scale, (x + side) * scale - 1, (y + side) * scale - 1]
        pen.rectangle([round(corner) for corner in corners], fill=INK)


def _draw_words(pen, plan, sheet, scale) -> None:  # type: ignore[no-untyped-def]
    def write(box: Box, text: str, points: float) -> None:
        font = ImageFont.load_default(size=points * 25.4 / 72 * scale)
        pen.text((box.x * scale, box.y * scale), text, fill=INK, font=font)

    strip = plan.name_strip
    pen.line(
        [
            strip.x * scale,
            (strip.bottom - 2) * scale,
            strip.right * scale,
            (strip.bottom - 2) * scale,
        ],
        fill=INK,
        width=round(0.3 * scale),
    )
    write(plan.number, str(sheet), 40)
    lines = (
        "Draw a creature around the spots.\nUse pencil or crayon.\nGo over the lines if you like.\n"
    )
    write(plan.instructions, lines + "Keep the corners clean.", 16)
    write(plan.notice, "Each sheet is different: do not photocopy.", 11)


def _around(x: float, y: float, radius: float, scale: float) -> list[float]:
    return [(x - radius) * scale, (y - radius) * scale, (x + radius) * scale, (y + radius) * scale]
