"""The press against plain joining and plain importing: ``python tests/benchmarks/press.py``.

Whole processes, in turn, what the cache keeps being there. Prints medians and ratios of

(a) sixty seeded photographs of 2480 x 3508 pixels (A4 at 300 dpi) as a book with its key, against
    img2pdf, a general-purpose library, joining the same files: wall time, peak memory, bytes;
(b) the demo book in full with its key, against a process that only imports the libraries;
(c) a book of 200 photographs against one of 50: time a page, and memory against the file's size.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
from collections.abc import Sequence
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
DEMO = Path(__file__).parents[2] / "chapters" / "river-term" / "book.toml"
LIBRARIES = (
    "typer, rich.console, svgwrite, cairosvg, cairocffi, pikepdf, pypdf, pypdfium2, PIL.Image, "
    "pillow_heif, zxingcpp, fontTools.ttLib, defusedxml.ElementTree, tomlkit, numpy"
)
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


def write_photographs(folder: Path, count: int) -> list[Path]:
    files = [folder / f"photograph-{number:03}.jpg" for number in range(count)]
    for number, file in enumerate(files):
        photograph(number).save(file, quality=85)
    return files


def write_book(folder: Path, photographs: Sequence[Path]) -> Path:
    """A book of a page for each photograph, in ``folder``."""
    folder.mkdir()
    pages = []
    for number, file in enumerate(photographs):
        links = SHAPES[number % len(SHAPES)]
        names = sorted({name for link in links for name in link.split("-")})
        spots = "\n".join(f"{name} = [{PLACES[name][0]}, {PLACES[name][1]}]" for name in names)
        pages.append(
            f'[[page]]\nname = "Photograph {number + 1}"\nart = "{file.as_posix()}"\n'
            f"links = {list(links)}\n[page.spots]\n{spots}\n"
        )
    (folder / "all.toml").write_text('title = "Photographs"\n' + "\n".join(pages))
    (folder / "book.toml").write_text('title = "Photographs"\nchapters = ["all.toml"]\n')
    return folder / "book.toml"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=5)
    runs = parser.parse_args().runs
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        # Elsewhere, because a process that is started counts the memory of the one that starts it.
        with ProcessPoolExecutor(1, get_context("spawn")) as apart:
            photographs = apart.submit(write_photographs, folder, 200).result()
        os.environ["XDG_CACHE_HOME"] = str(folder / "cache")
        # All are timed as programs that were installed: with their modules compiled.
        os.environ["PYTHONPYCACHEPREFIX"] = str(folder / "compiled")
        os.environ["PYTHONDONTWRITEBYTECODE"] = ""
        against_joining(folder, photographs[:60], runs)
        against_importing(folder, runs)
        growth(folder, photographs, runs)


def build(book: Path, out: Path) -> list[str]:
    return [sys.executable, "-m", "bookmaker", "build", str(book), "--out", str(out)]


def against_joining(folder: Path, photographs: Sequence[Path], runs: int) -> None:
    theirs = folder / "joined.pdf"
    book = write_book(folder / "sixty", photographs)
    join = [sys.executable, "-c", JOIN, str(theirs), *map(str, photographs)]
    built, joined = alternate(build(book, folder), join, runs)
    sizes = (folder / "sixty.pdf").stat().st_size / 1e6, theirs.stat().st_size / 1e6
    print(f"(a) sixty photographs, medians of {runs} runs in turn; asked: 5 times, +150 MB, 1.03")
    print("| what | bookmaker | img2pdf | ratio or difference |")
    print("|---|---|---|---|")
    print(f"| wall time, s | {built.seconds:.2f} | {joined.seconds:.2f} |", end="")
    print(f" {built.seconds / joined.seconds:.2f} times |")
    print(f"| peak memory, MB | {built.megabytes:.0f} | {joined.megabytes:.0f} |", end="")
    print(f" {built.megabytes - joined.megabytes:+.0f} MB |")
    print(f"| bytes, MB | {sizes[0]:.2f} | {sizes[1]:.2f} | {sizes[0] / sizes[1]:.3f} times |")


def against_importing(folder: Path, runs: int) -> None:
    importing = [sys.executable, "-c", f"import {LIBRARIES}"]
    built, floor = alternate(build(DEMO, folder), importing, runs)
    ratio = built.seconds / floor.seconds
    print("\n(b) the demo book against importing the libraries; asked: 4 times")
    print(f"{built.seconds:.2f} s and {floor.seconds:.2f} s: {ratio:.2f} times")


def growth(folder: Path, photographs: Sequence[Path], runs: int) -> None:
    few, many = (write_book(folder / str(n), photographs[:n]) for n in (50, 200))
    small, large = alternate(build(few, folder), build(many, folder), runs)
    size = (folder / "200.pdf").stat().st_size / 1e6
    print("\n(c) 200 photographs against 50; asked: 1.2 times a page, the file's size and 200 MB")
    each = [1e3 * large.seconds / 200, 1e3 * small.seconds / 50]
    print(f"a page {each[0]:.1f} ms and {each[1]:.1f} ms: {each[0] / each[1]:.2f} times; ", end="")
    print(f"{large.megabytes:.0f} MB of memory, {size:.0f} MB of file")


if __name__ == "__main__":
    main()
