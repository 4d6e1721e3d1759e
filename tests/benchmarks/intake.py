"""The whole trial of the class edition: 300 photographs and 100 scans, and how fast it goes.

    python -m tests.benchmarks.intake          # the table, with a plain homography beside it
    python -m tests.benchmarks.intake speed    # thirty photographs against bare decoding

The table takes some ten minutes on two cores, nearly all of it the simulated camera's.
"""

from __future__ import annotations

import io
import resource
import sys
import time
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor

import numpy as np
import zxingcpp
from PIL import Image
from rich.progress import track

from bookmaker.edition.intake import Refused, take, write_png
from bookmaker.edition.intake.batch import take_all
from bookmaker.edition.intake.sources import Source, open_picture
from tests.edition.trial import (
    Case,
    Score,
    judge,
    photograph_trial,
    scan_trial,
    table,
    the_class,
)

PHOTOGRAPHS, SCANS = 300, 100
SHORT = 30


def main(words: list[str]) -> int:
    if words == ["speed"]:
        print(speed(SHORT))
        return 0
    pictures = [("photograph", seed) for seed in range(PHOTOGRAPHS)]
    pictures += [("scan", seed) for seed in range(SCANS)]
    with ProcessPoolExecutor(2) as pool:
        work = pool.map(score, pictures)
        scores = list(track(work, total=len(pictures), description="trial"))
    print(table(scores))
    return int(any(each.wrong_sheet for each in scores))


def score(picture: tuple[str, int]) -> Score:
    """Make one picture and judge what intake makes of it."""
    source, seed = picture
    if source == "photograph":
        return judge(photograph_trial(seed, photograph_case(seed)), the_class())
    return judge(scan_trial(seed, scan_case(seed)), the_class())


def photograph_case(seed: int) -> Case:
    """Of ten photographs six are plain, two have a hand over a corner, one a coloured-in code."""
    if seed % 10 in (3, 7):
        return "hand"
    return "coloured" if seed % 10 == 5 else "refuse" if seed % 10 == 9 else "plain"


def scan_case(seed: int) -> Case:
    return "coloured" if seed % 10 == 5 else "refuse" if seed % 10 == 9 else "plain"


def speed(count: int) -> str:
    """Intake of ``count`` photographs against decoding them and reading their codes once."""
    known = the_class()
    files = [photograph_trial(seed, "plain").picture.data for seed in range(count)]
    bare, bare_cpu = _timed(lambda: [_bare(data) for data in files])
    broad, _ = _timed(lambda: [_bare(data, broad=True) for data in files[:10]])
    one, one_cpu = _timed(lambda: [_one(data, known) for data in files])
    both, _ = _timed(lambda: [_written(outcome) for _, outcome in take_all(_opened(files), known)])
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    lines = [
        f"{count} photographs, {np.mean([len(data) for data in files]) / 1e6:.1f} MB each",
        f"bare decoding and one pass for Data Matrix: {bare:.1f} s, {bare_cpu:.1f} s of processor",
        f"bare decoding and one pass for every code: {broad * count / 10:.1f} s",
        f"intake with PNG, one core: {one:.1f} s, {one_cpu / bare_cpu:.1f} times the processor",
        f"intake with PNG, both cores: {both:.1f} s, {both / bare:.2f} times the bare wall time",
        f"most memory: {peak:.0f} MB",
    ]
    return "\n".join(lines)


def _bare(data: bytes, broad: bool = False) -> None:
    picture = Image.open(io.BytesIO(data))
    picture.load()
    if broad:
        zxingcpp.read_barcodes(picture)
    else:
        grey = np.asarray(picture.convert("L"))
        zxingcpp.read_barcodes(grey, formats=zxingcpp.BarcodeFormat.DataMatrix)


def _one(data, known) -> int:  # type: ignore[no-untyped-def]
    return _written(take(open_picture(data), known))


def _written(outcome) -> int:  # type: ignore[no-untyped-def]
    if isinstance(outcome, Refused):
        return 0
    return len(write_png(outcome.drawing, outcome.scale))


def _opened(files: list[bytes]) -> Iterator[Source]:
    for number, data in enumerate(files):
        yield Source(f"{number}.jpg", 0, open_picture(data))


def _timed(work) -> tuple[float, float]:  # type: ignore[no-untyped-def]
    wall, cpu = time.perf_counter(), time.process_time()
    work()
    return time.perf_counter() - wall, time.process_time() - cpu


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
