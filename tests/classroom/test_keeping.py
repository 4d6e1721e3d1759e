"""What becomes of one picture of a sheet."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np

from bookmaker.classroom.keeping import Shelf, keep
from bookmaker.model import SheetEntry
from bookmaker.output import write_all
from bookmaker.reading import read_class
from bookmaker.scanning.sources import Source
from bookmaker.scanning.take import Taken
from tests.classroom.classes import write_class
from tests.scanning.drawings import drawing


def a_shelf(folder: Path) -> Shelf:
    classroom = read_class(write_class(folder)).classroom
    assert classroom
    return Shelf(classroom, [SheetEntry(1, "Amina", "star", "a4", "0" * 6, "", 1)], ())


def a_drawing(seed: int) -> np.ndarray:
    """At two pixels a millimetre."""
    return np.asarray((drawing("crayon", (360, 420), seed, 50.8) * 255).astype(np.uint8))


TAKEN = Taken(1, a_drawing(1), a_drawing(1)[:30], 2.0, (), 0.2549, 149.6)


def test_the_same_picture_again_in_one_run_is_no_better(tmp_path: Path) -> None:
    """What was measured is kept in hundredths: the rest of it must not count in one run alone."""
    first = keep(a_shelf(tmp_path), Source("a.jpg", 1, None), TAKEN)
    write_all(first.files)
    again = keep(first.shelf, Source("b.jpg", 1, None), TAKEN)
    assert (first.finding.fate, again.finding.fate) == ("new", "no-better")
    (row,) = again.shelf.rows
    assert (row.scan, row.others) == ("a.jpg", ("b.jpg",))


def test_a_sharper_picture_of_it_replaces_the_first(tmp_path: Path) -> None:
    first = keep(a_shelf(tmp_path), Source("a.jpg", 1, None), TAKEN)
    write_all(first.files)
    again = keep(first.shelf, Source("b.jpg", 1, None), replace(TAKEN, blur=0.1))
    assert again.finding.fate == "better"
    assert again.shelf.rows[0].scan == "b.jpg"
