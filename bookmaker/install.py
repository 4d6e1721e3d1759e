"""Puts bookmaker to work from a copy of the project, on a machine with nothing but Python.

    python3 -m bookmaker.install          # what the system lacks, then bookmaker itself in .venv
    python3 -m bookmaker.install test     # and the libraries of its tests

It runs before anything else is there: it needs the standard library alone and no other module of
ours. What the system lacks comes from Debian's and Ubuntu's packages (apt-get) or Homebrew. Where
nothing is lacking, nothing outside the folder changes.
"""

from __future__ import annotations

import ctypes.util
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Sequence
from importlib import invalidate_caches
from importlib.util import find_spec
from pathlib import Path

PROJECT = Path(__file__).parents[1]
OLDEST = (3, 11)
PART_MISSING = 4
"""The exit code of the command line for a part of the system that is missing."""


def main(extras: Sequence[str]) -> int:
    """Install what lacks, step by step; returns an exit code."""
    if sys.version_info < OLDEST:
        return _stop("bookmaker needs Python {}.{} or later.".format(*OLDEST))
    if not (PROJECT / "pyproject.toml").is_file():
        return _stop(f"{PROJECT} is no copy of the project: bookmaker is installed already.")
    unasked = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in system_commands(lacking()):
        print(">", *command, flush=True)
        if subprocess.run(command, check=False, stdout=subprocess.DEVNULL, env=unasked).returncode:
            break
    invalidate_caches()
    if "venv" in lacking():
        return _stop(
            "This Python can't make a virtual environment. Install Python's venv with pip."
        )
    wanted = f"{PROJECT}[{','.join(extras)}]" if extras else str(PROJECT)
    for command in project_commands(Path(".venv"), wanted):
        if code := subprocess.run(command, check=False).returncode:
            return code
    return 0


def lacking() -> list[str]:
    """Parts of the system that are not there: "venv", without which nothing goes; "cairo", without
    which SVG art can't be drawn (bookmaker says so where it is wanted)."""
    found = {
        "venv": find_spec("venv") and find_spec("ensurepip"),
        "cairo": ctypes.util.find_library("cairo") or ctypes.util.find_library("cairo-2"),
    }
    return [part for part, there in found.items() if not there]


def system_commands(parts: Sequence[str]) -> Iterator[list[str]]:
    """What brings these parts to this system; nothing where we do not know, or may not."""
    if not parts:
        return
    if shutil.which("apt-get"):
        names = {"venv": "python3-venv", "cairo": "libcairo2"}
        is_root = os.geteuid() == 0
        if is_root or shutil.which("sudo"):
            start = [] if is_root else ["sudo"]
            yield [*start, "apt-get", "update", "-qq"]
            packages = [names[part] for part in parts]
            yield [*start, "apt-get", "install", "-y", "-qq", "--no-install-recommends", *packages]
    elif shutil.which("brew") and "cairo" in parts:
        yield ["brew", "install", "cairo"]


def project_commands(venv: Path, wanted: str) -> Iterator[list[str]]:
    """What makes the virtual environment ``venv`` and installs the project into it."""
    yield [sys.executable, "-m", "venv", str(venv)]
    python = venv / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    yield [str(python), "-m", "pip", "install", "--quiet", "--editable", wanted]


def _stop(words: str) -> int:
    print(words, file=sys.stderr)
    return PART_MISSING


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
