"""Measure a book begun: `python -m tests.benchmarks.begin FOLDER`, a folder of pictures.

Against taking the same pictures in and nothing else; whole processes in turn, each with an empty
cache, medians of three. Manifests that are there are taken away first, so give it a copy.
"""

from __future__ import annotations

import argparse
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

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
    parser.add_argument("folder", type=Path)
    parser.add_argument("--runs", type=int, default=3)
    asked = parser.parse_args()
    took: dict[str, list[tuple[float, float]]] = {"taking in": [], "begin": []}
    for _ in range(asked.runs):
        for kind in took:
            took[kind].append(measured(kind, asked.folder))
    print("what        wall, s   processor, s")
    middle = {
        kind: [statistics.median(each) for each in zip(*took[kind], strict=True)] for kind in took
    }
    for kind, (wall, spent) in middle.items():
        print(f"{kind:10} {wall:8.2f} {spent:13.2f}")
    ratios = [a / b for a, b in zip(middle["begin"], middle["taking in"], strict=True)]
    print(f"ratio      {ratios[0]:8.2f} {ratios[1]:13.2f}")


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
