"""``python -m art.kit.preview FOLDER [NAME ...]``: pictures to judge the art by.

Prints the contrast of each creature with what lies behind it (at least 1.5 is wanted), and
writes for each ``<name>.png``, in colour, in grey and with its spots and links as they lie on
A5, where discs are largest against the picture, and as small as a contents page shows it; and
``contact.png`` with all of them. Needs cairosvg and Pillow.
"""

from __future__ import annotations

import re
import sys
from io import BytesIO
from pathlib import Path

import cairosvg
from PIL import Image, ImageChops, ImageDraw, ImageFilter

from art.kit import gallery
from art.kit.pages import A5, on_paper
from art.kit.palette import WEIGHTS, linear

ART = Path(__file__).resolve().parents[1]


def render(name: str, height: int) -> Image.Image:
    """A creature's SVG in ``art/`` as an RGB picture ``height`` pixels high."""
    svg = ART / f"{name.replace('_', '-')}.svg"
    png = cairosvg.svg2png(url=str(svg), output_height=height, output_width=None)
    return Image.open(BytesIO(png)).convert("RGB")


def with_spots(name: str, height: int) -> Image.Image:
    """The picture with its spots, links and tags, sized as on A5."""
    picture = render(name, height)
    draw = ImageDraw.Draw(picture)
    module = gallery.creature(name)
    size = module.draw().size
    unit = height / size[1]
    mm = unit / on_paper(size, A5)
    at = {s: (x / 100 * picture.width, y / 100 * height) for s, (x, y) in module.SPOTS.items()}
    for link in module.LINKS:
        a, b = (at[end] for end in link.split("-"))
        draw.line([a, b], fill="white", width=round(2.4 * mm))
        draw.line([a, b], fill="black", width=round(1.0 * mm))
    for link in module.LINKS:
        a, b = (at[end] for end in link.split("-"))
        x, y = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
        box = (x - 6.5 * mm, y - 5.5 * mm, x + 6.5 * mm, y + 5.5 * mm)
        draw.rounded_rectangle(box, 2 * mm, fill="white", outline="black", width=round(0.6 * mm))
    for x, y in at.values():
        disc = (x - 8 * mm, y - 8 * mm, x + 8 * mm, y + 8 * mm)
        draw.ellipse(disc, fill="white", outline="black", width=round(0.9 * mm))
    return picture


def judge(name: str) -> Image.Image:
    """One creature in every way it has to stand up to."""
    big = render(name, 1200)
    small = [big.convert("L").convert("RGB").resize((big.width // 2, 600)), with_spots(name, 600)]
    sheet = Image.new("RGB", (big.width + small[0].width + 170, 1200), "white")
    sheet.paste(big, (0, 0))
    for i, picture in enumerate(small):
        sheet.paste(picture, (big.width + 10, i * 600))
    tiny = render(name, 120)
    sheet.paste(tiny, (big.width + small[0].width + 20, 20))
    sheet.paste(tiny.convert("L").convert("RGB"), (big.width + small[0].width + 20, 160))
    return sheet


def standing_out(name: str, reach: int = 9, tile: int = 20) -> tuple[float, float]:
    """Contrast (WCAG 2.2) of a creature with what lies behind it, and the share of its edge at 1.5.

    The first compares the creature as a whole with a strip ``reach`` of 300 pixels wide around it;
    the second does so in tiles along the edge, for animals that are dark and light at once.
    """
    svg = (ART / f"{name.replace('_', '-')}.svg").read_text(encoding="utf-8")
    alone, behind = _layers(svg, {"creature"}), _layers(svg, {"habitat"})
    whole = Image.alpha_composite(behind, alone)
    alpha = alone.getchannel("A").point(lambda a: 255 if a > 200 else 0)
    around = alpha.filter(ImageFilter.MaxFilter(2 * reach + 1))
    within = ImageChops.subtract(alpha, alpha.filter(ImageFilter.MinFilter(2 * reach + 1)))
    outside = ImageChops.subtract(around, alpha)
    edge = []
    for box in (
        (x, y, x + tile, y + tile) for x in range(0, 400, tile) for y in range(0, 300, tile)
    ):
        inner = _mean_luminance(whole.crop(box), within.crop(box))
        outer = _mean_luminance(behind.crop(box), outside.crop(box))
        if inner is not None and outer is not None:
            edge.append(_ratio(inner, outer) >= 1.5)
    inner, outer = _mean_luminance(whole, alpha), _mean_luminance(behind, outside)
    return _ratio(inner or 0, outer or 0), sum(edge) / len(edge)


def _ratio(one: float, other: float) -> float:
    return (max(one, other) + 0.05) / (min(one, other) + 0.05)


def _layers(svg: str, wanted: set[str]) -> Image.Image:
    """The picture with the wanted layers alone, 300 pixels high, as RGBA."""
    for layer in {"habitat", "creature", "front"} - wanted:
        svg = re.sub(rf'<g id="[a-z-]+-{layer}">.*?\n</g>\n(?=<g id=|</svg>)', "", svg, flags=re.S)
    return Image.open(BytesIO(cairosvg.svg2png(svg.encode(), output_height=300))).convert("RGBA")


def _mean_luminance(picture: Image.Image, mask: Image.Image) -> float | None:
    """Mean over the masked pixels; None where there are hardly any."""
    counts = picture.convert("RGB").histogram(mask)
    bands = [counts[start : start + 256] for start in (0, 256, 512)]
    if sum(bands[0]) < 20:
        return None
    return sum(
        weight * sum(n * linear(level / 255) for level, n in enumerate(band)) / sum(band)
        for weight, band in zip(WEIGHTS, bands, strict=True)
    )


def contact(names: list[str], height: int = 400, across: int = 6) -> Image.Image:
    """All named creatures side by side."""
    cell = round(height * 1.2)
    down = -(-len(names) // across)
    sheet = Image.new("RGB", (across * (cell + 12), down * (height + 12)), "white")
    for i, name in enumerate(names):
        picture = render(name, height)
        left = i % across * (cell + 12) + (cell - picture.width) // 2
        sheet.paste(picture, (left, i // across * (height + 12)))
    return sheet


def main(folder: Path, wanted: list[str]) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    for name in wanted or gallery.names():
        judge(name).save(folder / f"{name}.png")
        mean, edge = standing_out(name)
        print(f"{name}: {mean:.1f} to 1, and 1.5 or more along {edge:.0%} of its edge")
    contact(gallery.names()).save(folder / "contact.png")


if __name__ == "__main__":
    main(Path(sys.argv[1]), [name.replace("-", "_") for name in sys.argv[2:]])
