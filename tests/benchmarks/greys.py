"""Drawings beside their greys: ``python -m tests.benchmarks.greys FOLDER``.

Every SVG under the folder is taken in and turned grey; both forms are drawn by PDFium and held
against each other: the mean lightness, and the largest difference of it over a patch of a fiftieth
of the side, so that a fill that is missing shows. Debian's openclipart-svg has some 300 drawings of
animals in /usr/share/openclipart/svg/animals.
"""

from __future__ import annotations

import argparse
import io
from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2
from PIL import Image

from bookmaker.cache import MemoryCache
from bookmaker.model import Picture
from bookmaker.pdf import in_grey
from bookmaker.pdf.finished_colour import colour_left
from bookmaker.pictures import take_in

SIDE = 500
PATCH = 10
BAD = 0.12
"""Difference of lightness, 0 to 1, from which a patch is told of."""


def lightness(pdf: bytes) -> np.ndarray:
    """The grey of each pixel that is as light (WCAG 2.2, relative luminance), 0 to 1."""
    document = pypdfium2.PdfDocument(pdf)
    image = document[0].render(scale=SIDE / 1000).to_pil().convert("RGB")
    document.close()
    rgb = np.asarray(image, float) / 255
    linear = np.where(rgb <= 0.04045, rgb / 12.92, ((rgb + 0.055) / 1.055) ** 2.4)
    light = linear @ np.array([0.2126, 0.7152, 0.0722])
    return np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)


def patches(levels: np.ndarray) -> np.ndarray:
    size = (max(levels.shape[1] // PATCH, 1), max(levels.shape[0] // PATCH, 1))
    return np.asarray(Image.fromarray(levels.astype(np.float32)).resize(size, Image.Resampling.BOX))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    files = sorted(parser.parse_args().folder.rglob("*.svg"))
    means, seen, refused = [], 0, 0
    for file, picture in take_in(files, cache=MemoryCache()).items():
        if not isinstance(picture, Picture):
            refused += 1
            continue
        grey = in_grey(picture, MemoryCache())
        before, after = lightness(picture.pdf), lightness(grey.pdf)
        mean = abs(float(before.mean() - after.mean()))
        worst = float(np.abs(patches(before) - patches(after)).max())
        with pikepdf.open(io.BytesIO(grey.pdf)) as opened:
            left = list(colour_left(opened))
        seen += 1
        means.append(mean)
        if worst > BAD or left:
            print(f"{file.name}: mean {mean:.3f}, a patch {worst:.3f} {' '.join(left[:2])}")
    print(
        f"{seen} drawings ({refused} refused); mean lightness off by {np.mean(means):.4f}, ", end=""
    )
    print(f"at most {max(means):.4f}")


if __name__ == "__main__":
    main()
