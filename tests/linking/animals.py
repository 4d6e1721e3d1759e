"""Creatures drawn at random for the tests: a body, limbs, a head with an eye."""

from __future__ import annotations

import io
import math
import random

from PIL import Image, ImageDraw

SEA, FUR, EYE = (150, 190, 215), (140, 80, 40), (250, 250, 240)


def animal(seed: int, width: int = 600, height: int = 450) -> Image.Image:
    """One creature on a plain ground, as large as the picture allows."""
    rng = random.Random(seed)
    image = Image.new("RGB", (width, height), SEA)
    pencil = ImageDraw.Draw(image)
    x, y = width / 2 + rng.uniform(-40, 40), height / 2 + rng.uniform(-30, 30)
    wide, high = rng.uniform(80, 130), rng.uniform(50, 90)
    for _ in range(rng.randint(2, 5)):
        angle = rng.uniform(0, 2 * math.pi)
        end = (x + math.cos(angle) * 220, y + math.sin(angle) * 180)
        pencil.line((x, y, *end), fill=FUR, width=rng.randint(20, 44))
    pencil.ellipse((x - wide, y - high, x + wide, y + high), fill=FUR)
    side = rng.choice((-1, 1))
    head = (x + side * (wide + 30), y - high * 0.7)
    pencil.ellipse((head[0] - 48, head[1] - 40, head[0] + 48, head[1] + 40), fill=FUR)
    eye = eye_of(head, side)
    pencil.ellipse((eye[0] - 7, eye[1] - 7, eye[0] + 7, eye[1] + 7), fill=EYE)
    pencil.ellipse((eye[0] - 3, eye[1] - 3, eye[0] + 3, eye[1] + 3), fill=(0, 0, 0))
    return image


def eye_of(head: tuple[float, float], side: int) -> tuple[float, float]:
    return head[0] + side * 12, head[1] - 10


def png(image: Image.Image) -> bytes:
    stream = io.BytesIO()
    image.save(stream, "PNG")
    return stream.getvalue()
