"""The kept pictures of ``art/``, and what renders them."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import cairosvg
import resvg_py
from PIL import Image

from art.kit import gallery

ART = Path(__file__).resolve().parents[2] / "art"
DRAWINGS = ART.parent / "chapters" / "heron-class" / "drawings"
CREATURES = [f"{name.replace('_', '-')}.svg" for name in gallery.names()]
SCENES = [f"{name.replace('_', '-')}.svg" for name in gallery.scene_names()]
MARKS = [f"marks/{file}" for file in CREATURES]
FILES = [*CREATURES, *SCENES, *MARKS]


def by_cairo(svg: str, height: int) -> Image.Image:
    png = cairosvg.svg2png(svg.encode(), output_height=height, background_color="white")
    return Image.open(BytesIO(png)).convert("RGB")


def by_resvg(svg: str, height: int) -> Image.Image:
    png = resvg_py.svg_to_bytes(svg_string=svg, height=height, background="white")
    return Image.open(BytesIO(bytes(png))).convert("RGB")
