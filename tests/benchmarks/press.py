"""The press against a plain joining of the same photographs: ``python tests/benchmarks/press.py``.

Sixty seeded photographs of 2480 x 3508 pixels (A4 at 300 dpi) become a sixty-page book with its
key; img2pdf, a general-purpose library, joins the same files. Each is a whole process, in turn.
Prints medians and ratios of wall time, of peak memory and of bytes.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path

import numpy as np
from PIL import Image

sys.path.insert(0, str(Path(__file__).parent))
from measure import alternate

SHAPES = (
    ("a-b", "b-c", "c-d", "b-e"),
    ("a-b", "b-c", "c-d", "d-e", "c-f"),
    ("a-b", "b-c", "b-d", "b-e", "e-f"),
    ("a-b", "b-c", "c-d", "d-e", "e-f", "c-g"),
)
PLACES = {
    "a": (15, 15), "b": (45, 22), "c": (40, 48), "d": (15, 62),
    "e": (30, 84), "f": (75, 70), "g": (80, 40),
}  # fmt: skip
JOIN = "import img2pdf,sys;open(sys.argv[1],'wb').write(img2pdf.convert(sys.argv[2:]))"


def photograph(seed: int) -> Image.Image:
    """Something with the statistics of a photograph: soft shapes at many scales, and grain."""
    rng = np.random.default_rng(seed)
    picture = Image.new("RGB", (2480, 3508), (128, 128, 128))
    for size, strength in ((6, 90), (24, 60), (120, 40)):
        coarse = np.clip(rng.normal(128, strength, (size * 7 // 5, size, 3)), 0, 255)
        layer = Image.fromarray(coarse.astype(np.uint8))
        picture = Image.blend(picture, layer.resize(picture.size, Image.Resampling.BICUBIC), 0.4)
    grain = np.clip(rng.normal(128, 12, (877, 620)), 0, 255).astype(np.uint8)
    tiles = Image.fromarray(np.tile(grain, (4, 4))).convert("RGB")
    return Image.blend(picture, tiles, 0.3)


def write_book(folder: Path, count: int) -> list[Path]:
    """A book of ``count`` pages in ``folder``; gives its photographs."""
    photographs = []
    pages = []
    for number in range(count):
        file = folder / f"photograph-{number:03}.jpg"
        photograph(number).save(file, quality=85)
        photographs.append(file)
        links = SHAPES[number % len(SHAPES)]
        names = sorted({name for link in links for name in link.split("-")})
        spots = "\n".join(f"{name} = [{PLACES[name][0]}, {PLACES[name][1]}]" for name in names)
        pages.append(
            f'[[page]]\nname = "Photograph {number + 1}"\nart = "{file.name}"\n'
            f"links = {list(links)}\n[page.spots]\n{spots}\n"
        )
    (folder / "all.toml").write_text('title = "Photographs"\n' + "\n".join(pages))
    (folder / "book.toml").write_text('title = "Photographs"\nchapters = ["all.toml"]\n')
    return photographs


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--pages", type=int, default=60)
    parser.add_argument("--runs", type=int, default=5)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "photographs"
        folder.mkdir()
        # Elsewhere, because a process that is started counts the memory of the one that starts it.
        with ProcessPoolExecutor(1, get_context("spawn")) as apart:
            photographs = apart.submit(write_book, folder, asked.pages).result()
        ours, theirs = folder / "photographs.pdf", folder / "joined.pdf"
        book = str(folder / "book.toml")
        build = [sys.executable, "-m", "bookmaker", "build", book, "--out", str(folder)]
        join = [sys.executable, "-c", JOIN, str(theirs), *map(str, photographs)]
        surroundings = {
            "XDG_CACHE_HOME": str(folder / "cache"),
            # Both are timed as programs that were installed: with their modules compiled.
            "PYTHONPYCACHEPREFIX": str(folder / "compiled"),
            "PYTHONDONTWRITEBYTECODE": "",
        }
        built, joined = alternate(build, join, asked.runs, surroundings)
        sizes = ours.stat().st_size / 1e6, theirs.stat().st_size / 1e6
    print(f"{asked.pages} photographs, medians of {asked.runs} runs in turn")
    print("| what | bookmaker | img2pdf | ratio or difference |")
    print("|---|---|---|---|")
    print(f"| wall time, s | {built.seconds:.2f} | {joined.seconds:.2f} |", end="")
    print(f" {built.seconds / joined.seconds:.2f} times |")
    print(f"| peak memory, MB | {built.megabytes:.0f} | {joined.megabytes:.0f} |", end="")
    print(f" {built.megabytes - joined.megabytes:+.0f} MB |")
    print(f"| bytes, MB | {sizes[0]:.2f} | {sizes[1]:.2f} | {sizes[0] / sizes[1]:.3f} times |")


if __name__ == "__main__":
    main()
