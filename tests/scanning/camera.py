"""A telephone's camera and a school copier, simulated and seeded.

The camera is a pinhole with barrel distortion over a sheet that curls; the light falls unevenly,
a shadow crosses, the lens blurs, the sensor is noisy and JPEG has the last word. It knows where
every point of the sheet truly lands, which is what intake is judged by. (The curl bends the paper
without shortening it: 2 mm over an A4 sheet would shorten it by 0.05 mm.)
"""

from __future__ import annotations

import io
import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw, ImageFilter

from bookmaker.scanning.sheet_plan import SheetPlan

Array = np.ndarray


@dataclass(frozen=True)
class Shot:
    """One photograph's circumstances. Angles in degrees, lengths in millimetres."""

    seed: int
    width: int = 4000
    height: int = 3000
    tilt: float = 0.0
    tilt_towards: float = 0.0
    turn: float = 0.0
    fill: float = 0.9
    barrel: float = 0.0
    curl: float = 0.0
    curl_along: float = 0.0
    curl_kind: str = "bow"
    uneven: float = 0.0
    shadow: float = 0.0
    warmth: float = 0.0
    exposure: float = 0.92
    blur: float = 0.8
    noise: float = 1.5
    quality: int = 88
    hands: tuple[int, ...] = ()


SIZES = ((2048, 1536), (2560, 1920), (3264, 2448), (4000, 3000))
"""3, 5, 8 and 12 megapixels."""


def any_shot(seed: int) -> Shot:
    """A shot anywhere in the ranges that the class edition is judged by."""
    rng = np.random.default_rng(seed)
    width, height = SIZES[int(rng.integers(len(SIZES)))]
    return Shot(
        seed=seed,
        width=width,
        height=height,
        tilt=float(rng.uniform(0, 35)),
        tilt_towards=float(rng.uniform(0, 360)),
        turn=float(rng.uniform(0, 360)),
        fill=float(rng.uniform(0.82, 0.98)),
        barrel=float(rng.uniform(0, 0.03)),
        curl=float(rng.uniform(0, 2)),
        curl_along=float(rng.choice([0, 90, rng.uniform(0, 180)])),
        curl_kind=str(rng.choice(["bow", "wave", "lift"])),
        uneven=float(rng.uniform(0, 0.35)),
        shadow=float(rng.choice([0, rng.uniform(0.1, 0.4)])),
        warmth=float(rng.uniform(-0.06, 0.16)),
        exposure=float(rng.uniform(0.7, 0.97)),
        blur=float(rng.uniform(0.5, 1.3) * width / 3000),
        noise=float(rng.uniform(0.8, 4)),
        quality=int(rng.integers(60, 96)),
    )


@dataclass(frozen=True)
class Photograph:
    """JPEG ``data``; ``place`` takes (n, 2) millimetres on the sheet to pixels."""

    data: bytes
    place: Callable[[Array], Array]
    shot: Shot


def photograph(page: Image.Image, plan: SheetPlan, shot: Shot) -> Photograph:
    """Take ``page`` (the whole sheet, any resolution) on a busy table."""
    eye = Eye(plan, shot)
    rng = np.random.default_rng([shot.seed, 1])
    picture = _table(shot, rng)
    sheet, mask = _seen(page, plan, shot, eye)
    picture.paste(sheet, (0, 0), mask)
    for corner in shot.hands:
        _lay_hand(picture, plan, corner, eye, rng)
    pixels = np.asarray(picture, np.float32) * _light(shot, rng)
    blurred = Image.fromarray(pixels.clip(0, 255).astype(np.uint8)).filter(
        ImageFilter.GaussianBlur(shot.blur)
    )
    noisy = np.asarray(blurred, np.float32)
    noisy += shot.noise * rng.standard_normal(noisy.shape, np.float32)
    out = io.BytesIO()
    Image.fromarray(np.rint(noisy).clip(0, 255).astype(np.uint8)).save(
        out, "JPEG", quality=shot.quality
    )
    return Photograph(out.getvalue(), eye.place, shot)


@dataclass(frozen=True)
class Scan:
    """One copier scan: the turn (quarter turns and a little skew), its tone and resolution."""

    seed: int
    dpi: float = 200.0
    quarter: int = 0
    skew: float = 0.0
    grey: bool = False
    contrast: float = 1.0
    noise: float = 1.5
    blur: float = 0.5
    quality: int = 80


def any_scan(seed: int) -> Scan:
    rng = np.random.default_rng([seed, 7])
    return Scan(
        seed=seed,
        dpi=float(rng.choice([150, 200, 300])),
        quarter=int(rng.integers(4)),
        skew=float(rng.uniform(-3, 3)),
        grey=bool(rng.random() < 0.15),
        contrast=float(rng.uniform(1.0, 1.25)),
        noise=float(rng.uniform(0.5, 3)),
        blur=float(rng.uniform(0.3, 0.9)),
        quality=int(rng.integers(60, 96)),
    )


def scan(page: Image.Image, plan: SheetPlan, circumstances: Scan) -> Photograph:
    """What the glass of a copier sees: flat, evenly lit, a little askew."""
    rng = np.random.default_rng([circumstances.seed, 8])
    scale = circumstances.dpi / 25.4
    size = (round(plan.width * scale), round(plan.height * scale))
    small = page.resize(size, Image.Resampling.LANCZOS)
    angle = math.radians(circumstances.skew)
    cos, sin = math.cos(angle), math.sin(angle)
    cx, cy = size[0] / 2, size[1] / 2
    inverse = (cos, sin, cx - cos * cx - sin * cy, -sin, cos, cy + sin * cx - cos * cy)
    turned = small.transform(
        size, Image.Transform.AFFINE, inverse, Image.Resampling.BICUBIC, fillcolor=(250, 250, 248)
    )
    turned = turned.rotate(-90 * circumstances.quarter, expand=True)
    turned = turned.filter(ImageFilter.GaussianBlur(circumstances.blur))
    pixels = np.asarray(turned, np.float32)
    pixels = 255 - (255 - pixels) * circumstances.contrast + 4
    pixels = pixels + circumstances.noise * rng.standard_normal(pixels.shape, np.float32)
    picture = Image.fromarray(np.rint(pixels).clip(0, 252).astype(np.uint8))
    if circumstances.grey:
        picture = picture.convert("L")
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=circumstances.quality)

    def place(points: Array) -> Array:
        x, y = points[:, 0] * scale - cx, points[:, 1] * scale - cy
        x, y = cos * x - sin * y + cx, sin * x + cos * y + cy
        width, height = size
        for _ in range(circumstances.quarter):
            x, y = height - y, x
            width, height = height, width
        return np.stack([x, y], 1)

    return Photograph(out.getvalue(), place, Shot(circumstances.seed, *turned.size))


class Eye:
    """Sheet to pixels and back. The sheet's middle is the origin; z towards the camera."""

    def __init__(self, plan: SheetPlan, shot: Shot) -> None:
        self._plan, self._shot = plan, shot
        tilt, towards, turn = (math.radians(a) for a in (shot.tilt, shot.tilt_towards, shot.turn))
        axis = np.array([-math.sin(towards), math.cos(towards), 0])
        cross = np.array([[0, 0, axis[1]], [0, 0, -axis[0]], [-axis[1], axis[0], 0]])
        lean = np.eye(3) + math.sin(tilt) * cross + (1 - math.cos(tilt)) * cross @ cross
        spin = np.array(
            [[math.cos(turn), -math.sin(turn), 0], [math.sin(turn), math.cos(turn), 0], [0, 0, 1]]
        )
        self._rotation = lean @ spin
        self._focal = 0.75 * max(shot.width, shot.height)
        self._radius = math.hypot(shot.width, shot.height) / 2
        self._away, self._shift = 450.0, np.zeros(2)
        for _ in range(12):  # stand where the sheet fills the picture, and aim at its middle
            corners = self.place(self._corners())
            low, high = corners.min(0), corners.max(0)
            room = ((high - low) / (np.array([shot.width, shot.height]) * shot.fill)).max()
            self._away *= room
            middle = np.array([shot.width, shot.height]) / 2 - (low + high) / 2
            self._shift = self._shift + middle * self._away / self._focal

    def place(self, points: Array) -> Array:
        """(n, 2) millimetres from the sheet's top left to (n, 2) pixels."""
        xy = points - [self._plan.width / 2, self._plan.height / 2]
        solid = np.column_stack([xy, self._high(xy)])
        seen = solid @ self._rotation.T
        z = self._away - seen[:, 2]
        flat = (seen[:, :2] + self._shift) / z[:, None] * self._focal
        r2 = (flat**2).sum(1, keepdims=True) / self._radius**2
        return flat * (1 - self._shot.barrel * r2) + self._middle

    def back(self, pixels: Array) -> Array:
        """(n, 2) pixels to (n, 2) millimetres on the sheet's (endless, curled) surface."""
        bent = pixels - self._middle
        flat = bent.copy()
        for _ in range(12):
            r2 = (flat**2).sum(1, keepdims=True) / self._radius**2
            flat = bent / (1 - self._shot.barrel * r2)
        ray = np.column_stack([flat / self._focal, np.full(len(flat), -1.0)])
        eye = self._rotation.T @ np.array([*-self._shift, self._away])
        ray = ray @ self._rotation
        high = np.zeros(len(flat))
        for _ in range(10):
            far = (high - eye[2]) / ray[:, 2]
            xy = eye[:2] + ray[:, :2] * far[:, None]
            high = self._high(xy)
        return xy + np.array([self._plan.width, self._plan.height]) / 2

    @property
    def _middle(self) -> Array:
        return np.array([self._shot.width, self._shot.height]) / 2

    def _corners(self) -> Array:
        w, h = self._plan.width, self._plan.height
        return np.array([(0.0, 0.0), (w, 0), (w, h), (0, h), (w / 2, 0), (w / 2, h)])

    def _high(self, xy: Array) -> Array:
        along = math.radians(self._shot.curl_along)
        reach = abs(self._plan.width / 2 * math.cos(along)) + abs(
            self._plan.height / 2 * math.sin(along)
        )
        part = ((xy @ [math.cos(along), math.sin(along)]) / reach).clip(-1.2, 1.2)
        shapes = {
            "bow": 1 - part**2,
            "wave": np.sin(math.pi * part) / 2 + 0.5,
            "lift": np.clip((part + 0.2) / 1.2, 0, None) ** 2,
        }
        return self._shot.curl * shapes[self._shot.curl_kind]


def _seen(page: Image.Image, plan: SheetPlan, shot: Shot, eye: Eye) -> tuple[Image.Image, ...]:
    """The sheet as the lens projects it, and where it lies in the picture."""
    here = eye.place(
        np.array([[plan.width / 2, plan.height / 2], [plan.width / 2 + 10, plan.height / 2]])
    )
    wanted = 1.15 * np.hypot(*(here[1] - here[0])) / 10 * plan.width
    if wanted < page.width:
        page = page.resize(
            (round(wanted), round(wanted * page.height / page.width)), Image.Resampling.LANCZOS
        )
    edge = 4  # a clear rim, so that the sheet's outline is smooth
    rim = Image.new("RGBA", (page.width + 2 * edge, page.height + 2 * edge), (255, 255, 255, 0))
    rim.paste(page, (edge, edge))
    step = 32
    xs, ys = np.arange(0, shot.width + step, step), np.arange(0, shot.height + step, step)
    grid = np.stack(np.meshgrid(xs, ys), -1).reshape(-1, 2).astype(float)
    sheet = eye.back(grid) * [page.width / plan.width, page.height / plan.height] + edge
    sheet = sheet.reshape(len(ys), len(xs), 2).clip(-4 * page.width, 4 * page.width)
    mesh = [
        (
            (int(xs[i]), int(ys[j]), int(xs[i + 1]), int(ys[j + 1])),
            (*sheet[j, i], *sheet[j + 1, i], *sheet[j + 1, i + 1], *sheet[j, i + 1]),
        )
        for j in range(len(ys) - 1)
        for i in range(len(xs) - 1)
    ]
    seen = rim.transform(
        (int(xs[-1]), int(ys[-1])), Image.Transform.MESH, mesh, Image.Resampling.BICUBIC
    ).crop((0, 0, shot.width, shot.height))
    return seen.convert("RGB"), seen.getchannel("A")


def _table(shot: Shot, rng: np.random.Generator) -> Image.Image:
    """Wood, papers, a checked cloth and pens: edges and corners enough to confuse."""
    small = rng.integers(70, 170, (9, 12, 3), np.uint8)
    picture = Image.fromarray(small).resize((shot.width, shot.height), Image.Resampling.BICUBIC)
    pen = ImageDraw.Draw(picture)
    unit = shot.width / 100
    for _ in range(60):
        x, y = rng.uniform(0, shot.width), rng.uniform(0, shot.height)
        w, h = rng.uniform(1, 18, 2) * unit
        colour = tuple(int(c) for c in rng.integers(20, 245, 3))
        kind = rng.integers(3)
        if kind == 0:
            pen.rectangle([x, y, x + w, y + h], fill=colour)
        elif kind == 1:
            pen.line([x, y, x + 2 * w, y + h], fill=colour, width=int(unit))
        else:
            for step in range(8):
                pen.rectangle(
                    [x + step * unit * 1.5, y, x + step * unit * 1.5 + unit / 2, y + h], fill=colour
                )
    return picture


def _lay_hand(picture, plan, corner, eye, rng) -> None:  # type: ignore[no-untyped-def]
    """Fingers from beyond a corner of the paper to some way past its code."""
    code = plan.codes[corner]
    middle = np.array([[code.x + code.width / 2, code.y + code.height / 2]])
    inward = np.array([[plan.width / 2, plan.height / 2]]) - middle
    inward = inward / np.hypot(*inward[0])
    across = inward[:, ::-1] * [-1, 1]
    pen = ImageDraw.Draw(picture)
    skin = np.array([226, 178, 150]) * rng.uniform(0.4, 1.05)
    for finger in (-1.0, 0.0, 1.0):
        tip = middle + inward * rng.uniform(12, 22) + across * finger * 14
        root = middle - inward * 60 + across * finger * 14
        ends = eye.place(np.concatenate([tip, root]))
        near = eye.place(np.concatenate([tip, tip + across * 17]))
        width = float(np.hypot(*(near[1] - near[0])))
        shade = tuple(int(c) for c in (skin * (1 - 0.05 * abs(finger))).clip(0, 255))
        pen.line([tuple(end) for end in ends], fill=shade, width=round(width))
        for end in ends:
            box = [end[0] - width / 2, end[1] - width / 2, end[0] + width / 2, end[1] + width / 2]
            pen.ellipse(box, fill=shade)


def _light(shot: Shot, rng: np.random.Generator) -> Array:
    """How bright each pixel is lit: (height, width, 3), about 1."""
    width, height = shot.width, shot.height
    x = np.linspace(-1, 1, width, dtype=np.float32)[None, :]
    y = np.linspace(-1, 1, height, dtype=np.float32)[:, None]
    turn = rng.uniform(0, 2 * math.pi)
    light = 1 - shot.uneven / 2 * (1 + math.cos(turn) * x + math.sin(turn) * y) / 1.6
    light = light * (1 - 0.5 * shot.uneven * (x * x + y * y) / 2)
    tint = np.ones((1, 1, 3), np.float32)
    if shot.shadow:
        small = Image.new("L", (width // 8, height // 8))
        a, b = rng.uniform(0, 1, 2), rng.uniform(0, 1, 2)
        far = 3 * (b - a) / max(0.05, float(np.hypot(*(b - a))))
        side = far[::-1] * [-1, 1]
        corners = [a - far, a + far, a + far + side, a - far + side]
        points = [(float(p[0]) * small.width, float(p[1]) * small.height) for p in corners]
        ImageDraw.Draw(small).polygon(points, fill=255)
        soft = rng.uniform(0.004, 0.03) * small.width
        small = small.filter(ImageFilter.GaussianBlur(soft))
        dark = (
            np.asarray(small.resize((width, height), Image.Resampling.BILINEAR), np.float32) / 255
        )
        light = light * (1 - shot.shadow * dark)
    tint = np.array([1 + shot.warmth / 2, 1.0, 1 - shot.warmth], np.float32) * shot.exposure
    return light[..., None] * tint
