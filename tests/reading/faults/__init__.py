"""A table of faulty books: what is wrong in each, at which line, and the same mended.

Every fault is a change to one file of a small good book. Whoever needs faulty books (the
command line's tests, say) writes one with ``write(fault.files, folder)``.
"""

from __future__ import annotations

from tests.reading.faults.base import GOOD, Fault, write
from tests.reading.faults.books import BOOKS, NUMBERS
from tests.reading.faults.puzzles import SPOTS, TREE
from tests.reading.faults.values import VALUES
from tests.reading.faults.writing import SEVERAL, WRITING

__all__ = ["FAULTS", "GOOD", "Fault", "write"]

FAULTS = (*TREE, *SPOTS, *VALUES, *NUMBERS, *BOOKS, *WRITING, *SEVERAL)
