"""What is seen: alike in two renderers, clear of its ground, told apart when small."""

from __future__ import annotations

import re
from functools import cache
from io import BytesIO
from itertools import combinations

import cairosvg
import pytest
from PIL import Image, ImageChops, ImageStat

from art.kit import children, gallery
from art.kit.crayon import CRAYONS, DPI
from art.kit.palette import contrast
from art.kit.preview import standing_out
from tests.art.pictures import ART, DRAWINGS, FILES, by_cairo, by_resvg

HEIGHT = 240
SMALL = 60
"""Pixels across of a picture 25 mm wide at 60 dots an inch: what an eye sees at arm's length."""


@pytest.mark.parametrize("file", FILES)
def test_cairo_and_resvg_draw_it_alike(file: str) -> None:
    """resvg (linebender/resvg) is a renderer of its own, in Rust; its bindings are resvg-py."""
    svg = (ART / file).read_text("utf-8")
    one, other = by_cairo(svg, HEIGHT), by_resvg(svg, HEIGHT)
    assert one.size == other.size
    off = ImageStat.Stat(ImageChops.difference(one, other)).mean
    assert sum(off) / 3 / 255 < 0.02


@pytest.mark.parametrize("name", gallery.names())
def test_a_creature_stands_out_from_what_lies_behind_it(name: str) -> None:
    """1.5 to 1 in luminance as a whole (WCAG 2.2, contrast ratio), and along its edge."""
    whole, edge = standing_out(name)
    assert whole >= 1.5
    assert edge >= 0.7, "the share of the edge that reaches 1.5"


def test_contrast_agrees_with_the_standards_own_ends() -> None:
    """WCAG 2.2, definition of contrast ratio: from 1 (same colour) to 21 (white on black)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#777777") == 1


@cache
def silhouette(name: str) -> Image.Image:
    """The creature alone, black on white, as small as on a page of contents."""
    svg = (ART / f"{name.replace('_', '-')}.svg").read_text("utf-8")
    for layer in ("habitat", "front"):
        svg = re.sub(rf'<g id="[a-z-]+-{layer}">.*?\n</g>\n(?=<g id=|</svg>)', "", svg, flags=re.S)
    png = cairosvg.svg2png(svg.encode(), output_width=SMALL)
    alpha = Image.open(BytesIO(png)).getchannel("A").point(lambda a: 255 if a > 127 else 0)
    square = Image.new("L", (SMALL, SMALL * 6 // 5))
    square.paste(alpha, (0, (square.height - alpha.height) // 2))
    return square


@pytest.mark.parametrize("name", gallery.names())
def test_a_creature_fills_its_frame_and_leaves_it_air(name: str) -> None:
    shape = silhouette(name)
    left, top, right, bottom = shape.getbbox() or (0, 0, 0, 0)
    assert max((right - left) / SMALL, (bottom - top) / shape.height) >= 0.7
    covered = ImageStat.Stat(shape).mean[0] / 255
    assert 0.12 < covered < 0.7


def test_no_two_creatures_have_the_same_silhouette() -> None:
    """By the part that two share of what both cover (Jaccard index); the most alike are told."""
    alike = sorted(
        (_shared(silhouette(one), silhouette(other)), one, other)
        for one, other in combinations(gallery.names(), 2)
    )
    assert alike[-1][0] < 0.8, alike[-3:]


def _shared(one: Image.Image, other: Image.Image) -> float:
    both, either = ImageChops.multiply(one, other), ImageChops.lighter(one, other)
    return ImageStat.Stat(both).sum[0] / ImageStat.Stat(either).sum[0]


@pytest.mark.parametrize("number", range(1, len(children.DRAWINGS) + 1))
def test_a_childs_drawing_has_the_frames_shape_and_few_colours(number: int) -> None:
    path = DRAWINGS / f"{number}.png"
    picture = Image.open(path)
    assert path.stat().st_size < 250_000
    assert (picture.width / DPI * 25.4, picture.height / DPI * 25.4) == pytest.approx(
        (180, 210), abs=0.1
    )
    colours = picture.convert("RGB").getcolors(256) or []
    assert 3 < len(colours) <= len(CRAYONS)
    assert max(colours)[1] == CRAYONS["white"]


@pytest.mark.parametrize("number", [1, 5])
def test_a_childs_drawing_is_what_the_script_draws(number: int) -> None:
    """Pixels, not bytes: another version of Pillow may pack them differently."""
    kept = Image.open(DRAWINGS / f"{number}.png").convert("RGB")
    again = Image.open(BytesIO(children.drawn(number))).convert("RGB")
    assert ImageStat.Stat(ImageChops.difference(kept, again)).sum == [0, 0, 0]
