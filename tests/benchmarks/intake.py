"""The whole trial of the class edition: 300 photographs and 100 scans, and how fast it goes.

    python -m tests.benchmarks.intake          # the table, with a plain homography beside it
    python -m tests.benchmarks.intake speed    # thirty photographs against bare decoding
    python -m tests.benchmarks.intake memory   # ten photographs, then forty

The table takes some twenty minutes on two cores, nearly all of it the simulated camera's.
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
CHUNK = 5


def main(words: list[str]) -> int:
    if words == ["speed"]:
        print(speed(SHORT))
        return 0
    if words == ["memory"]:
        print(memory(10))
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
    work = {
        "bare": lambda some: [_bare(data) for data in some],
        "bare, every kind of code": lambda some: [_bare(data, broad=True) for data in some],
        "intake, one core": lambda some: [_one(data, known) for data in some],
        "intake, both cores": lambda some: [_written(out) for _, out in take_all(some, known)],
    }
    spent = {name: np.zeros(2) for name in work}
    for first in track(range(0, count, CHUNK), description="speed"):  # by turns, as others may work
        for name, job in work.items():
            some = files[first : first + CHUNK]
            spent[name] += _timed(job, _opened(some) if name.endswith("both cores") else some)
    lines = [f"{count} photographs, {np.mean([len(data) for data in files]) / 1e6:.1f} MB each"]
    for name, (wall, cpu) in spent.items():
        times = f"{wall:7.1f} s, {wall / spent['bare'][0]:5.2f} times the bare"
        lines.append(
            f"{name:26}{times}; processor {cpu:7.1f} s, {cpu / spent['bare'][1]:5.2f} times"
        )
    return "\n".join(lines)


def memory(count: int) -> str:
    """The most memory that ``count`` photographs of 12 megapixels need, and four times as many."""
    known, data = the_class(), photograph_trial(0, "plain").picture.data
    said = []
    for number in (count, 4 * count):
        for _, outcome in take_all(_opened([data] * number), known):
            _written(outcome)
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        said.append(f"{number} photographs: {peak:.0f} MB at most so far")
    return "\n".join(said)


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


def _timed(job, some) -> tuple[float, float]:  # type: ignore[no-untyped-def]
    wall, cpu = time.perf_counter(), time.process_time()
    job(some)
    return time.perf_counter() - wall, time.process_time() - cpu


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
