"""Measure a book begun: `python -m tests.benchmarks.begin`, or with a FOLDER of pictures.

Without one, of 40 photographs of 12 megapixels made here and 20 drawings of openclipart-svg.

Against taking the same pictures in and nothing else; whole processes in turn, each with an empty
cache, medians of so many ``--runs``. Manifests there are taken away first: give it a copy.
"""

from __future__ import annotations

import argparse
import os
import random
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from PIL import Image, ImageDraw, ImageFilter, ImageOps

from tests.benchmarks.proposals import drawings

PHOTOGRAPHS, DRAWINGS = 40, 20
PIXELS = (4000, 3000)

TAKE_IN = """
import sys
from pathlib import Path
from bookmaker.cache import FolderCache
from bookmaker.pictures import take_in
from bookmaker.pictures.folder import pictures_in
take_in(pictures_in(Path(sys.argv[1]), False).pictures, cache=FolderCache(Path(sys.argv[2])))
"""


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path, nargs="?")
    parser.add_argument("--runs", type=int, default=3)
    asked = parser.parse_args()
    if asked.folder:
        compare(asked.folder, asked.runs)
        return
    with tempfile.TemporaryDirectory() as made:
        make(Path(made))
        compare(Path(made), asked.runs)


def compare(folder: Path, runs: int) -> None:
    took: dict[str, list[tuple[float, float]]] = {"taking in": [], "begin": []}
    for _ in range(runs):
        for kind in took:
            took[kind].append(measured(kind, folder))
    print("what        wall, s   processor, s")
    middle = {
        kind: [statistics.median(each) for each in zip(*took[kind], strict=True)] for kind in took
    }
    for kind, (wall, spent) in middle.items():
        print(f"{kind:10} {wall:8.2f} {spent:13.2f}")
    ratios = [a / b for a, b in zip(middle["begin"], middle["taking in"], strict=True)]
    print(f"ratio      {ratios[0]:8.2f} {ratios[1]:13.2f}")


def make(folder: Path) -> None:
    rng = random.Random(1)
    for number in range(PHOTOGRAPHS):
        photograph(rng).save(folder / f"photograph {number}.jpg", quality=88)
    for number, drawing in enumerate(drawings(DRAWINGS)):
        shutil.copy(drawing, folder / f"drawing {number}.svg")


def photograph(rng: random.Random) -> Image.Image:
    """Grainy, with something that has a head, an eye and legs."""
    light = [rng.randint(90, 230) for _ in range(3)]
    dark = [value - 60 for value in light]
    image = ImageOps.colorize(Image.effect_noise(PIXELS, 18), tuple(dark), tuple(light))
    draw, coat = ImageDraw.Draw(image), tuple(rng.randint(20, 120) for _ in range(3))
    x, y = rng.randint(1500, 2500), rng.randint(1200, 1800)
    draw.ellipse((x - 900, y - 500, x + 900, y + 500), fill=coat)
    draw.ellipse((x + 600, y - 900, x + 1200, y - 300), fill=coat)
    draw.ellipse((x + 850, y - 720, x + 930, y - 640), fill="white")
    for leg in (-600, -200, 300, 600):
        draw.rectangle((x + leg, y + 200, x + leg + 120, y + 1000), fill=coat)
    return image.filter(ImageFilter.GaussianBlur(0.8))


def measured(kind: str, folder: Path) -> tuple[float, float]:
    """Wall and processor time of one process with an empty cache."""
    for name in ("book.toml", "pages.toml"):
        (folder / name).unlink(missing_ok=True)
    with tempfile.TemporaryDirectory() as cache:
        command = [sys.executable, "-c", TAKE_IN, str(folder), cache]
        if kind == "begin":
            command = [sys.executable, "-m", "bookmaker", "begin", str(folder)]
        before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
        surroundings = {**os.environ, "XDG_CACHE_HOME": cache}
        subprocess.run(command, check=True, capture_output=True, env=surroundings)
        wall, after = time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN)
    spent = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return wall, spent


if __name__ == "__main__":
    main()
