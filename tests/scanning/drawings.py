"""Drawings as children make them, seeded: crayon, faint pencil, yellow crayon, felt-tip.

Each is a layer that lets light through: RGB floats from 0 to 1, white where nothing is drawn.
Laid on a sheet the layers multiply, as wax and ink on paper do.
"""

from __future__ import annotations

import math
import random

import numpy as np
from PIL import Image, ImageDraw, ImageFilter

from bookmaker.model import Box

CRAYONS = {
    "red": (214, 50, 48),
    "orange": (240, 130, 40),
    "yellow": (250, 214, 50),
    "green": (60, 150, 72),
    "blue": (48, 98, 190),
    "sky": (130, 190, 232),
    "violet": (124, 72, 160),
    "pink": (242, 150, 180),
    "skin": (246, 204, 172),
    "brown": (126, 78, 46),
    "black": (46, 44, 46),
}
"""sRGB of a school box of crayons pressed hard; invented, in the range of common ones."""

KINDS = ("crayon", "pencil", "yellow", "felt")


def drawing(kind: str, size: tuple[int, int], seed: int, dpi: float) -> np.ndarray:
    """A layer of ``size`` (width, height) pixels: float32 (height, width, 3)."""
    rng = random.Random(f"{kind}-{seed}")
    scale = dpi / 25.4
    layer = np.ones((size[1], size[0], 3), np.float32)
    for colour, width, strength, paths in _strokes(kind, rng, size[0] / scale, size[1] / scale):
        mask = Image.new("L", size)
        pen = ImageDraw.Draw(mask)
        for path in paths:
            points = [(x * scale, y * scale) for x, y in path]
            pen.line(points, fill=255, width=max(1, round(width * scale)), joint="curve")
        cover = np.asarray(mask.filter(ImageFilter.GaussianBlur(0.1 * scale)), np.float32) / 255
        if kind != "felt":
            cover = cover * _grain(size, rng.randrange(2**31), scale)
        ink = np.array(colour, np.float32) / 255
        layer *= 1 - (cover * strength)[..., None] * (1 - ink)
    return layer


def scribble_over(page: Image.Image, box: Box, seed: int, dpi: float) -> Image.Image:
    """``page`` with ``box`` (millimetres) coloured in, so that its code can't be read."""
    rng = random.Random(seed)
    scale = dpi / 25.4
    done = page.copy()
    pen = ImageDraw.Draw(done)
    colour = CRAYONS[rng.choice(["red", "blue", "green", "black", "brown"])]
    points = []
    for step in range(60):
        x = box.x + box.width * step / 59
        y = box.y if step % 2 else box.bottom
        points.append(((x + rng.uniform(-1, 1)) * scale, (y + rng.uniform(-1, 1)) * scale))
    pen.line(points, fill=tuple(int(c * 0.6) for c in colour), width=round(0.8 * scale))
    return done


def lay_on(page: Image.Image, layer: np.ndarray, frame: Box, dpi: float) -> Image.Image:
    """``page`` with a drawing in its frame."""
    scale = dpi / 25.4
    x, y = round(frame.x * scale), round(frame.y * scale)
    pixels = np.asarray(page, np.float32).copy()
    height, width = layer.shape[:2]
    pixels[y : y + height, x : x + width] *= layer
    return Image.fromarray(np.rint(pixels).clip(0, 255).astype(np.uint8))


def frame_size(frame: Box, dpi: float) -> tuple[int, int]:
    return round(frame.width * dpi / 25.4), round(frame.height * dpi / 25.4)


def _strokes(kind, rng, width, height):  # type: ignore[no-untyped-def]
    """Runs of (colour, pen width, strength 0 to 1, paths), all in millimetres."""
    body = _blob(rng, width * 0.5, height * 0.55, min(width, height) * 0.36)
    head = _blob(rng, width * 0.3, height * 0.25, min(width, height) * 0.15)
    legs = [_wave(rng, width * (0.3 + 0.13 * i), height * 0.85, 0, height * 0.12) for i in range(4)]
    ground = [_wave(rng, 2, height * 0.96, width - 4, 0)]
    hatch = _hatch(rng, width * 0.5, height * 0.55, min(width, height) * 0.27)
    whiskers = [
        _wave(rng, width * 0.2, height * (0.2 + 0.03 * i), width * 0.2, 0) for i in range(3)
    ]
    if kind == "pencil":
        grey = (70, 70, 74)
        return [
            (grey, 0.6, rng.uniform(0.25, 0.45), [body, head, *legs]),
            (grey, 0.5, rng.uniform(0.18, 0.3), [*whiskers, *ground]),
            (grey, 0.7, 0.16, [hatch]),
        ]
    if kind == "yellow":
        ink = CRAYONS["yellow"]
        return [(ink, 2.2, 0.75, [body, head, *legs]), (ink, 3.0, 0.4, [hatch, *ground])]
    names = [rng.choice([n for n in CRAYONS if n != "yellow"]) for _ in range(5)]
    one, two, three, four, five = (CRAYONS[name] for name in names)
    if kind == "felt":
        return [
            (two, 2.0, 0.9, [hatch]),
            (one, 1.6, 0.95, [body, head]),
            (three, 1.6, 0.95, legs),
            (four, 1.2, 0.95, [*whiskers, *ground]),
        ]
    return [
        (two, 3.0, 0.6, [hatch]),
        (one, 2.4, 0.85, [body, head]),
        (three, 2.4, 0.7, legs),
        (four, 2.0, 0.6, whiskers),
        (five, 4.0, 0.35, ground),
    ]


def _blob(rng, x, y, radius):  # type: ignore[no-untyped-def]
    waves = [(rng.uniform(0, 0.12), rng.uniform(0, 6.3)) for _ in range(5)]
    points = []
    for step in range(121):
        turn = step / 120 * 2 * math.pi
        far = radius * (1 + sum(a * math.sin((k + 2) * turn + p) for k, (a, p) in enumerate(waves)))
        points.append((x + far * math.cos(turn), y + far * math.sin(turn)))
    return points


def _wave(rng, x, y, dx, dy):  # type: ignore[no-untyped-def]
    high, phase = rng.uniform(1, 4), rng.uniform(0, 6.3)
    points = []
    for step in range(41):
        part = step / 40
        sway = high * math.sin(part * 9 + phase)
        points.append((x + dx * part + (sway if dy else 0), y + dy * part + (0 if dy else sway)))
    return points


def _hatch(rng, x, y, radius):  # type: ignore[no-untyped-def]
    lean, points = rng.uniform(-0.5, 0.5), []
    for step in range(int(radius)):
        across = -radius + 2 * step
        reach = math.sqrt(max(0, radius**2 - across**2)) * rng.uniform(0.85, 1.0)
        side = reach if step % 2 else -reach
        points.append(
            (
                x + across * math.cos(lean) - side * math.sin(lean),
                y + across * math.sin(lean) + side * math.cos(lean),
            )
        )
    return points


def _grain(size, seed, scale):  # type: ignore[no-untyped-def]
    """How well wax or graphite takes, 0.3 to 1: the tooth of the paper, some 0.3 mm apart."""
    rng = np.random.default_rng(seed)
    small = (max(2, round(size[0] / scale / 0.3)), max(2, round(size[1] / scale / 0.3)))
    noise = rng.integers(0, 256, (small[1], small[0]), np.uint8)
    tooth = np.asarray(Image.fromarray(noise).resize(size, Image.Resampling.BILINEAR), np.float32)
    return 0.3 + 0.7 * np.clip(tooth / 255 * 1.8 - 0.2, 0, 1)
