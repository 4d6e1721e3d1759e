"""Scans and photographs of a class taken in: files in, one finding after another out."""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from bookmaker.classroom.keeping import Kept, Shelf, keep, read_shelf
from bookmaker.context import BuildContext
from bookmaker.model import Classroom, InputProblems, Problem, SheetEntry
from bookmaker.scanning.batch import take_all
from bookmaker.scanning.pale import read_pale
from bookmaker.scanning.sources import Source, count_pictures, open_pictures
from bookmaker.scanning.take import Class, KnownSheet

MOST_WORKERS = 4


@dataclass(frozen=True, slots=True)
class Files:
    """The files to look at: those that were named, and those in folders that were."""

    paths: tuple[Path, ...]

    @classmethod
    def of(cls, named: Sequence[Path], without: Collection[Path] = ()) -> Files:
        """Folders are looked through, with what is in them, in the order of names. Files that are
        ``without`` or below it (resolved paths) are left out, but for those that are named."""
        found: dict[Path, None] = {}
        for path in named:
            inside = sorted(path.rglob("*")) if path.is_dir() else [path]
            for each in inside:
                hidden = any(part.startswith(".") for part in each.relative_to(path).parts)
                place = each.resolve()
                hidden |= each != path and any(p in without for p in (place, *place.parents))
                if not each.is_dir() and not hidden:
                    found.setdefault(each)
        return cls(tuple(found))


def shelf_of(classroom: Classroom) -> Shelf:
    """The class's folder as it is; raises InputProblems where no sheets were ever printed."""
    shelf = read_shelf(classroom)
    if not shelf.register:
        message = "there is no register: no drawing sheets were printed for this class"
        mend = f"Print them first: bookmaker sheets {classroom.file}"
        raise InputProblems([Problem(classroom.file, 0, "", "no-register", message, mend)])
    return shelf


def take_in_scans(shelf: Shelf, files: Files, context: BuildContext) -> Iterator[Kept]:
    """What became of each picture, in order. What is to be written must be written before the next
    is asked for, since a later picture is compared with it."""
    known = _known(shelf.register)
    workers = min(os.cpu_count() or 2, MOST_WORKERS)
    sources = _sources(files, context)
    for source, outcome in take_all(sources, known, workers):
        kept = keep(shelf, source, outcome)
        shelf = kept.shelf
        yield kept


def _sources(files: Files, context: BuildContext) -> Iterator[Source]:
    seen = iter(context.watch("taking in", range(sum(map(count_pictures, files.paths)))))
    for path in files.paths:
        for source in open_pictures(path):
            next(seen, None)
            yield source
    deque(seen, maxlen=0)  # ends the bar, too, where a file had fewer pictures than it said


def _known(register: Sequence[SheetEntry]) -> Class:
    sheets = {row.sheet: KnownSheet(row.paper, read_pale(row.marks)) for row in register}
    return Class(register[0].class_code, sheets)
