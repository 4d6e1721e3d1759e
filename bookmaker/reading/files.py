"""Files that a manifest names: whether they are there, and which was meant where they are not."""

from __future__ import annotations

import contextlib
import re
from collections.abc import Iterator
from pathlib import Path

from bookmaker.model import Problem
from bookmaker.reading.kinds import backslash_fault
from bookmaker.reading.names import composed, is_near, nearest, shorten, show
from bookmaker.reading.table import Table

CODED = "\\u begins a letter's number in a text: write / between folders, and \\\\ for \\."


def path_of(table: Table, key: str) -> Path | None:
    """The file that ``key`` names, as a path that can be opened; None where it names none."""
    value = table.get(key)
    named = isinstance(value, str) and value.strip() and "\0" not in value
    return on_disk(table.source.folder / str(value)) if named else None


def sound_path(table: Table, key: str) -> Path | None:
    """The same, None where it is no file: that is told by ``check_art``."""
    path = path_of(table, key)
    return None if path is None or file_fault(path) else path


def on_disk(path: Path) -> Path:
    """``path``, or the file beside it that has the same letters, its accents written in another
    way: some disks keep them in two code points whatever was typed."""
    with contextlib.suppress(OSError):
        if not path.name.isascii() and not path.exists() and path.parent.is_dir():
            wanted = composed(path.name)
            same = (each for each in path.parent.iterdir() if composed(each.name) == wanted)
            return min(same, default=path)
    return path


def check_art(table: Table, key: str) -> Iterator[Problem]:
    """Says where the picture that ``key`` names is not a file."""
    path = path_of(table, key)
    fault = file_fault(path, apart_from=table.source.path.name) if path else None
    if fault and not backslash_fault(table.get(key)):
        name = show(table.get(key))
        mend = CODED if table.is_coded(key) else fault[1]
        yield table.problem("art-missing", f"the picture {name} {fault[0]}", mend, key)


def file_fault(path: Path, *, apart_from: str = "") -> tuple[str, str] | None:
    """Why ``path`` can't be opened as a file, and the mend; None where it can.

    The file ``apart_from``, the one that names ``path``, is never the one that was meant.
    """
    try:
        if path.is_file():
            return None
        if path.is_dir():
            return "is a folder, not a file", "Write the name of a file in it."
        if path.exists():
            return "is no ordinary file", "Write the name of an ordinary file."
        return "is not there", _mend_missing(path, apart_from)
    except OSError as error:
        return f"can't be opened ({error.strerror})", "Check its name, and that you may read it."


def _mend_missing(path: Path, apart_from: str) -> str:
    if re.search(r"\w\w+:/", str(path)):
        return "Save it as a file on this computer first: nothing is fetched from elsewhere."
    if "\\" in str(path):
        return "Write / between folders, not \\."
    if not path.parent.is_dir():
        return f"There is no folder {shorten(str(path.parent), 200)} either: check the path."
    names = sorted(each.name for each in path.parent.iterdir() if each.is_file())
    names = [name for name in names if name != apart_from]
    likely = nearest(path.name, names)
    if likely and is_near(path.name, likely):
        return f"Did you mean {likely}, which is in that folder?"
    return "Check the path: it starts from this file's own folder."
