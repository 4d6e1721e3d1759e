"""Two folders of PDFs held against each other: ``python -m tests.benchmarks.compare BEFORE AFTER``.

Every page of each file that is in both is rendered by PDFium; told are the mean difference of its
pixels (of 255), how far a glyph has moved (millimetres), and whether its letters are the same in
the same order. Ends with 1 where a page differs by more than ``PIXELS``, a glyph by ``PLACE``.
"""

from __future__ import annotations

import argparse
import ctypes
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium

PIXELS = 1.0
"""Mean difference of two pages, of 255."""
PLACE = 0.05
"""Millimetres by which a glyph may have moved."""

Glyph = tuple[str, float, float]


@dataclass(frozen=True)
class Difference:
    """What two pages differ by; ``words`` is "" where their letters are the same in one order."""

    pixels: float
    place: float
    words: str

    def __str__(self) -> str:
        return f"{self.pixels:.2f} of 255, {self.place:.3f} mm {self.words}"

    @property
    def is_small(self) -> bool:
        return self.pixels < PIXELS and self.place < PLACE and not self.words


def glyphs(page: pypdfium2.PdfPage) -> list[Glyph]:
    """The letters of ``page`` in their order, with their origins in millimetres; no spaces."""
    text = page.get_textpage()
    x, y = ctypes.c_double(), ctypes.c_double()
    found = []
    for place in range(text.count_chars()):
        letter = chr(pdfium.FPDFText_GetUnicode(text.raw, place))
        if (
            letter.isspace()
            or letter in "\0\ufffe"
            or pdfium.FPDFText_IsGenerated(text.raw, place) == 1
        ):
            continue
        pdfium.FPDFText_GetCharOrigin(text.raw, place, ctypes.byref(x), ctypes.byref(y))
        found.append((letter, x.value / 72 * 25.4, y.value / 72 * 25.4))
    text.close()
    return found


def difference(one: pypdfium2.PdfPage, other: pypdfium2.PdfPage, scale: float) -> Difference:
    """What two pages differ by, rendered at ``scale`` times 72 dots to the inch."""
    first, second = (
        np.asarray(each.render(scale=scale).to_pil().convert("RGB"), float) for each in (one, other)
    )
    pixels = 255.0 if first.shape != second.shape else float(np.abs(first - second).mean())
    before, after = glyphs(one), glyphs(other)
    spelt = ["".join(letter for letter, _, _ in each) for each in (before, after)]
    words = "" if spelt[0] == spelt[1] else _first_difference(*spelt)
    if words:  # in another order, perhaps: held against each other by their places
        before, after = sorted(before), sorted(after)
    pairs = zip(before, after, strict=False)
    place = max((max(abs(a[1] - b[1]), abs(a[2] - b[2])) for a, b in pairs), default=0.0)
    return Difference(pixels, place, words)


def _first_difference(one: str, other: str) -> str:
    at = next(
        (i for i, (a, b) in enumerate(zip(one, other, strict=False)) if a != b),
        min(len(one), len(other)),
    )
    start = max(at - 10, 0)
    same = " (other order)" if sorted(one) == sorted(other) else ""
    return f"{one[start : at + 20]!r} and {other[start : at + 20]!r}{same}"


def differences(one: Path, other: Path, scale: float) -> Iterator[Difference]:
    """What the pages of two files differ by, one after the other."""
    before, after = pypdfium2.PdfDocument(one), pypdfium2.PdfDocument(other)
    if len(before) != len(after):
        yield Difference(255.0, 0.0, f"{len(before)} and {len(after)} pages")
        return
    for number in range(len(before)):
        yield difference(before[number], after[number], scale)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("before", type=Path)
    parser.add_argument("after", type=Path)
    parser.add_argument("--scale", type=float, default=1.0, help="times 72 dots to the inch")
    told = parser.parse_args()
    names = sorted(
        {file.name for file in told.before.glob("*.pdf")}
        & {file.name for file in told.after.glob("*.pdf")}
    )
    pages, bad, worst = 0, 0, Difference(0.0, 0.0, "")
    for name in names:
        for number, each in enumerate(
            differences(told.before / name, told.after / name, told.scale), 1
        ):
            pages += 1
            worst = Difference(max(worst.pixels, each.pixels), max(worst.place, each.place), "")
            if not each.is_small:
                bad += 1
                print(f"{name}, page {number}: {each}")
    print(f"{len(names)} files, {pages} pages, {bad} of which differ; at most {worst}")
    return int(bad > 0)


if __name__ == "__main__":
    sys.exit(main())
