"""Crayons on paper: curves in, a PNG with few colours out.

Places are in tenths of a millimetre from the top left of a drawing sheet's frame, 180 x 210 mm.
One version of Pillow gives the same bytes again.
"""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from itertools import pairwise
from math import cos, radians, sin
from random import Random

from PIL import Image, ImageChops, ImageDraw

from art.kit.curves import Curve, Knot, Point, ellipse, line

WIDE, HIGH = 1800, 2100
DPI = 160
DOT = DPI / 254
"""Pixels a tenth of a millimetre."""
CRAYONS = {
    "white": (255, 255, 255),
    "black": (52, 48, 50),
    "red": (205, 58, 50),
    "orange": (236, 136, 44),
    "yellow": (246, 204, 62),
    "green": (76, 150, 70),
    "blue": (52, 104, 178),
    "violet": (124, 82, 156),
    "brown": (132, 86, 52),
    "pink": (238, 146, 168),
    "grey": (150, 150, 150),
}


class Drawing:
    """A sheet of white paper, and a hand that is not quite steady."""

    def __init__(self, seed: int) -> None:
        size = round(WIDE * DOT), round(HIGH * DOT)
        self._rng = Random(seed)
        self._picture = Image.new("P", size)
        names = list(CRAYONS)
        self._picture.putpalette([part for name in names for part in CRAYONS[name]])
        self._index = {name: place for place, name in enumerate(names)}
        coarse = size[0] // 2 + 1, size[1] // 2 + 1
        tooth = Image.frombytes("L", coarse, self._rng.randbytes(coarse[0] * coarse[1]))
        self._tooth = tooth.resize((2 * coarse[0], 2 * coarse[1]), Image.Resampling.NEAREST).crop(
            (0, 0, *size)
        )

    def line(self, curve: Curve, colour: str, width: float = 24, press: float = 0.9) -> None:
        """Draws along a curve; ``press`` is the part of the paper's grain that takes colour."""
        self._stroke(self._wobbly(curve.polygon), colour, width, press)

    def fill(self, shape: Curve, colour: str, angle: float = 35, gap: float = 30) -> None:
        """Scribbles to and fro inside a shape, and here and there over its edge."""
        run: list[Point] = []
        for i, (one, two) in enumerate(self._chords(shape, angle, gap)):
            ends = (one, two) if i % 2 else (two, one)
            run += [self._near(end, 13) for end in ends]
        if len(run) > 1:
            self._stroke(run, colour, 28, 0.66)

    def draw(self, shape: Curve, colour: str, inside: str = "", angle: float = 35) -> None:
        """A shape, its inside first if it has a colour; the outline does not quite close."""
        if inside:
            self.fill(shape, inside, angle)
        self.line(shape, colour)

    def face(self, at: Knot, size: float, mouth: float = 1.0) -> None:
        """Two eyes and a mouth, ``size`` from eye to eye."""
        x, y = at[:2]
        for side in (-1, 1):
            self.line(ellipse((x + side * size / 2, y), size * 0.22), "black", 16)
            self.line(ellipse((x + side * size / 2 + 6, y + 4), 7), "black", 22, 1)
        corners = [(x + side * size * 0.5, y + size * 0.62) for side in (-1, 1)]
        self.line(line(corners[0], (x, y + size * (0.62 + 0.3 * mouth)), corners[1]), "red", 18)

    def png(self) -> bytes:
        """The drawing as a PNG."""
        out = BytesIO()
        self._picture.save(out, "PNG", optimize=True, dpi=(DPI, DPI))
        return out.getvalue()

    def _stroke(self, run: Sequence[Point], colour: str, width: float, press: float) -> None:
        mask = Image.new("L", self._picture.size)
        pen = ImageDraw.Draw(mask)
        pixels = [(x * DOT, y * DOT) for x, y in run]
        for (ax, ay), (bx, by) in pairwise(pixels):
            wide = width * DOT * self._rng.uniform(0.86, 1.1)
            pen.line((ax, ay, bx, by), fill=255, width=round(wide))
            half = wide / 2
            pen.ellipse((bx - half, by - half, bx + half, by + half), fill=255)
        takes = self._tooth.point([255 if level < 256 * press else 0 for level in range(256)])
        self._picture.paste(self._index[colour], mask=ImageChops.multiply(mask, takes))

    def _wobbly(self, run: Sequence[Point]) -> list[Point]:
        """The run as a hand would follow it: slow waves, and a start that is a little off."""
        turns = [self._rng.uniform(0, 360) for _ in range(4)]
        shift = self._near((0, 0), 6)
        moved, way = [], 0.0
        for (x, y), (px, py) in zip(run, (run[0], *run), strict=False):
            way += 0.9 * (abs(x - px) + abs(y - py))
            dx = 7 * sin(radians(way + turns[0])) + 3.5 * sin(radians(2.7 * way + turns[1]))
            dy = 7 * sin(radians(way + turns[2])) + 3.5 * sin(radians(2.3 * way + turns[3]))
            moved.append((x + dx + shift[0], y + dy + shift[1]))
        return moved

    def _near(self, point: Point, reach: float) -> Point:
        return (
            point[0] + self._rng.uniform(-reach, reach),
            point[1] + self._rng.uniform(-reach, reach),
        )

    def _chords(self, shape: Curve, angle: float, gap: float) -> list[tuple[Point, Point]]:
        """Level lines across a shape that was turned by ``-angle``, turned back."""
        level = shape.turned(-angle)
        _, top, _, bottom = level.box
        run = level.polygon
        loop = (*run, run[0])
        found: list[tuple[Point, Point]] = []
        y = top + gap * 0.6
        while y < bottom:
            cuts = sorted(
                ax + (y - ay) * (bx - ax) / (by - ay)
                for (ax, ay), (bx, by) in pairwise(loop)
                if (ay > y) != (by > y)
            )
            if len(cuts) > 1:
                found.append((_turned((cuts[0], y), angle), _turned((cuts[-1], y), angle)))
            y += gap * self._rng.uniform(0.75, 1.25)
        return found


def _turned(point: Point, angle: float) -> Point:
    c, s = cos(radians(angle)), sin(radians(angle))
    return point[0] * c - point[1] * s, point[0] * s + point[1] * c
