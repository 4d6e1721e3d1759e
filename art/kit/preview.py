"""``python -m art.kit.preview FOLDER [NAME ...]``: pictures to judge the art by.

For each creature ``<name>.png``, in colour, in grey and with its spots and links as they lie on
A5, where discs are largest against the picture, and as small as a contents page shows it; and
``contact.png`` with all of them. Needs cairosvg and Pillow.
"""

from __future__ import annotations

import sys
from io import BytesIO
from pathlib import Path

import cairosvg
from PIL import Image, ImageDraw

from art.kit import gallery
from art.kit.pages import A5, on_paper

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
    contact(gallery.names()).save(folder / "contact.png")


if __name__ == "__main__":
    main(Path(sys.argv[1]), [name.replace("-", "_") for name in sys.argv[2:]])
