"""alike.py FOLDER OTHER: whether two systems made the same documents of one commit.

A document without SVG art has to be the same byte for byte. Cairo has a hand in the others: each of
their pages may differ by less than one of 255 in the mean. Ends with 1 where one does not hold.
"""

from __future__ import annotations

import json
import sys
from itertools import zip_longest
from pathlib import Path
from typing import Any

import numpy as np
import pypdfium2

MOST = 1.0
"""Mean difference of a page's samples, of 255."""


def main(one: Path, other: Path) -> int:
    """Print a line for each document; returns an exit code."""
    names = {file.name for folder in (one, other) for file in folder.glob("*.*")}
    faults = 0
    for name in sorted(names):
        verdict, holds = compared(one / name, other / name)
        print(f"{'  ' if holds else 'X '}{name}: {verdict}")
        faults += not holds
    print(f"{len(names)} documents of {one.name} and {other.name}, {faults} not alike")
    return int(faults > 0 or not names)


def compared(one: Path, other: Path) -> tuple[str, bool]:
    """What there is to say of two files, and whether that will do."""
    if not (one.exists() and other.exists()):
        return "made on one of them only", False
    if one.read_bytes() == other.read_bytes():
        return "the same bytes", True
    if one.suffix == ".json" and certified(one) == certified(other):
        return "the same pages", True
    if one.suffix != ".pdf" or one.name.startswith("drawings"):
        return "other bytes", False
    worst = max(differences(one, other))
    return f"pages differ by {worst:.3f} of 255 at most", worst < MOST


def certified(file: Path) -> Any:
    """What a certificate says of its pages (its document's hash stands beside that)."""
    return json.loads(file.read_bytes())["pages"]


def differences(one: Path, other: Path) -> list[float]:
    """The mean difference of each page; 255 where a page is missing or of another size."""
    pairs = zip_longest(pypdfium2.PdfDocument(one), pypdfium2.PdfDocument(other))
    return [difference(*pair) if all(pair) else 255.0 for pair in pairs]


def difference(page: pypdfium2.PdfPage, other: pypdfium2.PdfPage) -> float:
    """The mean difference of two pages' samples at 72 dots an inch."""
    one, two = (each.render(scale=1).to_numpy().astype(float) for each in (page, other))
    return float(np.abs(one - two).mean()) if one.shape == two.shape else 255.0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]), Path(sys.argv[2])))
