"""The whole trial of the class edition: 300 photographs and 100 scans, and how fast it goes.

    python -m tests.benchmarks.intake          # the table, with a plain homography beside it
    python -m tests.benchmarks.intake speed    # thirty photographs against bare decoding
    python -m tests.benchmarks.intake memory   # the command with ten photographs, then thirty

The table takes some twenty minutes on two cores, nearly all of it the simulated camera's. Speed and
memory are those of the files of a class, each of another sheet, kept as the command keeps them.
"""

from __future__ import annotations

import os
import shutil
import sys
import time
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import zxingcpp
from PIL import Image
from rich.progress import track

from bookmaker.classroom.print_sheets import read_classroom
from bookmaker.classroom.register import write_register
from bookmaker.classroom.take_scans import Files, shelf_of, take_in_scans
from bookmaker.cli.surroundings import build_context
from bookmaker.model import SheetEntry
from bookmaker.output import write_all
from bookmaker.scanning.pale import write_pale
from tests.benchmarks.measure import run
from tests.classroom.classes import write_class
from tests.scanning.camera import any_shot, photograph
from tests.scanning.trial import (
    CODE,
    Case,
    Score,
    finished,
    judge,
    marks_of,
    photograph_trial,
    plan_of,
    scan_trial,
    table,
    the_class,
)

PHOTOGRAPHS, SCANS = 300, 100
CLASS = 30
ROUNDS = 5
CORES = 2


def main(words: list[str]) -> int:
    if words == ["speed"]:
        print(speed(CLASS))
        return 0
    if words == ["memory"]:
        print(memory((10, CLASS)))
        return 0
    pictures = [("photograph", seed) for seed in range(PHOTOGRAPHS)]
    pictures += [("scan", seed) for seed in range(SCANS)]
    with ProcessPoolExecutor(CORES) as pool:
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
    """Intake of ``count`` photographs against decoding them and reading their codes once, both on
    two cores, in turn; medians of ROUNDS."""
    with TemporaryDirectory() as folder:
        manifest, files = a_class(Path(folder), count)
        size = sum(file.stat().st_size for file in files) / count / 1e6
        work: dict[str, Callable[[], None]] = {
            "bare": lambda: _each(_bare, files),
            "bare, every kind of code": lambda: _each(_bare_broad, files),
            "intake": lambda: _taken_in(manifest, files),
        }
        spent = {name: np.zeros((ROUNDS, 2)) for name in work}
        for number in track(range(ROUNDS), description="speed"):
            for name, job in work.items():
                spent[name][number] = _timed(job)
    ratios = np.median(spent["intake"] / spent["bare"], 0)
    lines = [f"{count} photographs, {size:.1f} MB each; medians of {ROUNDS}, on {CORES} cores"]
    for name, times in spent.items():
        wall, processor = np.median(times, 0)
        lines.append(f"{name:26}{wall:6.2f} s, processor {processor:6.2f} s")
    lines.append(f"intake against bare: {ratios[0]:.2f} times, processor {ratios[1]:.2f} times")
    lines.append(f"load of the machine, ours included: {os.getloadavg()[0]:.1f}")
    return "\n".join(lines)


def memory(counts: Sequence[int]) -> str:
    """The most memory that the command needs for so many photographs of 12 megapixels."""
    said = []
    for count in counts:
        with TemporaryDirectory() as folder:
            with ProcessPoolExecutor(1) as pool:  # a child counts the most that its parent had, too
                manifest, files = pool.submit(a_class, Path(folder), count, True).result()
            told = run(
                [sys.executable, "-m", "bookmaker", "intake", str(manifest), *map(str, files)]
            )
        said.append(f"{count} photographs: {told.megabytes:.0f} MB, {told.seconds:.1f} s")
    return "\n".join(said)


def a_class(folder: Path, count: int, largest: bool = False) -> tuple[Path, list[Path]]:
    """A class of ``count`` pupils in ``folder``, and a photograph of each one's sheet."""
    names = [f"Pupil {number}" for number in range(1, count + 1)]
    roster = "".join(f"{name},star,class\n" for name in names)
    manifest = write_class(folder, "pupil,page,drawing\n" + roster)
    entries, files = [], []
    for number in track(range(1, count + 1), description=f"{count} sheets"):
        plan, pale = plan_of(number), write_pale(marks_of(number))
        entries.append(SheetEntry(number, names[number - 1], "star", plan.paper, CODE, pale, 1))
        shot = any_shot(number)
        if largest:
            shot = replace(shot, width=4000, height=3000)
        files.append(folder / f"{number}.jpg")
        files[-1].write_bytes(photograph(finished(number, 300), plan, shot).data)
    (manifest.parent / "register.csv").write_bytes(write_register(entries))
    return manifest, files


def _taken_in(manifest: Path, files: Sequence[Path]) -> None:
    """What the command does, but for the review: every drawing and name strip written."""
    for kind in ("drawings", "names"):
        shutil.rmtree(manifest.parent / kind, ignore_errors=True)
    shelf = shelf_of(read_classroom(manifest)[0])
    for kept in take_in_scans(shelf, Files.of(files), build_context()):
        write_all(kept.files)


def _each(job: Callable[[Path], None], files: Sequence[Path]) -> None:
    with ThreadPoolExecutor(CORES) as pool:
        list(pool.map(job, files))


def _bare(file: Path) -> None:
    with Image.open(file) as picture:
        picture.load()
        grey = np.asarray(picture.convert("L"))
    zxingcpp.read_barcodes(grey, formats=zxingcpp.BarcodeFormat.DataMatrix)


def _bare_broad(file: Path) -> None:
    with Image.open(file) as picture:
        picture.load()
        zxingcpp.read_barcodes(picture)


def _timed(job: Callable[[], None]) -> tuple[float, float]:
    wall, processor = time.perf_counter(), time.process_time()
    job()
    return time.perf_counter() - wall, time.process_time() - processor


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
