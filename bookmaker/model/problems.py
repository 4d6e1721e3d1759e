"""What is wrong with the input: data, put into words once, told all together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Severity = Literal["problem", "warning"]


@dataclass(frozen=True, slots=True)
class Problem:
    """One fault: where it stands, what it is and how to mend it.

    ``file`` is the path as the user would type it, ``line`` counts from 1 (0: the file as a
    whole), ``page`` is the page's name or "" where the fault is no single page's.
    ``message`` and ``mend`` are whole sentences; ``message`` starts in lower case unless its
    first word is a name, and has no full stop at its end: the two are printed as
    ``message. mend``.
    """

    file: str
    line: int
    page: str
    code: str
    message: str
    mend: str
    severity: Severity = "problem"

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        page = f" {self.page}:" if self.page else ""
        warning = " warning:" if self.severity == "warning" else ""
        return f"{place}:{page}{warning} {self.message}. {self.mend}"


class InputProblems(Exception):
    """Raised when the input can't be compiled; carries every problem found."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__(f"{len(self.problems)} problems in the input")
