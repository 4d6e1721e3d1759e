"""Own copies of a class's book, all at once, against one: ``python -m tests.benchmarks.copies``.

A class of 28 over the demo book, drawings of 1500 x 1750 pixels. Whole processes, processor time.
"""

from __future__ import annotations

import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from PIL import Image

from bookmaker.classroom.register import read_register, write_register
from bookmaker.model import SheetEntry
from tests.scanning.drawings import drawing

PUPILS = 28
ROOT = Path(__file__).parents[2]


def main() -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        room = write_class(folder)
        command = [sys.executable, "-m", "bookmaker", "build", "--class", str(room / "class.toml")]
        command += ["--out", str(folder / "out"), "--no-key"]
        timed(command)  # fills the cache with what the book is without the class
        one = min((timed(command) for _ in range(2)), key=lambda each: each[1])
        every = timed([*command, "--pupil-copies"])
        count = len(list((folder / "out").glob("*heron-class-[0-9]*.pdf")))
        for what, (wall, spent) in (("one", one), (f"{count} copies", every)):
            print(f"{what}: {spent:.2f} s of processor time, {wall:.2f} s on the wall")
        print(
            f"ratio: {every[1] / one[1]:.2f} of processor time, {every[0] / one[0]:.2f} on the wall"
        )


def timed(command: list[str]) -> tuple[float, float]:
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.monotonic()
    subprocess.run(command, check=True, capture_output=True, cwd=ROOT, env=dict(os.environ))
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    spent = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return time.monotonic() - start, spent


def write_class(folder: Path) -> Path:
    """The demo class made larger: 28 pupils share its six sheets' trees."""
    shutil.copytree(ROOT / "chapters", folder / "chapters")
    shutil.copytree(ROOT / "art", folder / "art")
    room = folder / "chapters" / "heron-class"
    known = read_register(room / "register.csv")
    shutil.rmtree(room / "drawings")
    (room / "drawings").mkdir()
    entries, roster, review = [], ["pupil,drawing,name"], ["drawing,use"]
    for number in range(1, PUPILS + 1):
        of = known[number % len(known)]
        entries.append(SheetEntry(number, f"P{number}", of.page, "a4", of.class_code, of.marks, 1))
        roster.append(f"P{number},class,yes")
        review.append(f"{number},yes")
        picture = drawing("crayon", (1500, 1750), number, 212)
        shown = Image.fromarray((picture.clip(0, 1) * 255).astype("uint8"))
        shown.save(room / "drawings" / f"{number}.png")
    (room / "register.csv").write_bytes(write_register(entries))
    (room / "roster.csv").write_text("\n".join(roster), "utf-8")
    (room / "review.csv").write_text("\n".join(review), "utf-8")
    return room


if __name__ == "__main__":
    main()
