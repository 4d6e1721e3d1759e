"""What a curriculum is here: its document, its grades, and what it expects of subtraction."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import combinations
from typing import Literal

from bookmaker.model import Number

Kind = Literal[
    "whole",
    "tens",
    "decimal",
    "like fractions",
    "related fractions",
    "unlike fractions",
    "negative",
    "across zero",
]
"""Related: of any two denominators one is a multiple of the other."""

Proof = Literal["V1", "V2", "P", "M"]
"""How a wording is known. V1: read in a copy of the official document or on the official body's
own site. V2: read in a transcription that claims to copy it. P: a part or a paraphrase was read. M:
from memory. Only V1 and V2 are printed as quotations; of the others the range alone is told."""

NO_LIMIT = Fraction(10**12)
QUOTED: tuple[Proof, ...] = ("V1", "V2")


@dataclass(frozen=True)
class Expected:
    """Subtracting numbers of one ``kind`` up to ``limit``, first asked for in ``grade``.

    ``where`` is the official code, or the place as teachers cite it; ``words`` are the official
    ones, in the curriculum's own language, "" where they are not known well enough to be quoted.
    ``places`` is how many decimal places are asked for.
    """

    grade: int
    where: str
    kind: Kind
    limit: Fraction
    proof: Proof
    words: str = ""
    places: int = 0

    @property
    def is_quoted(self) -> bool:
        return bool(self.words) and self.proof in QUOTED


@dataclass(frozen=True)
class Curriculum:
    """One curriculum: ``grades`` as teachers there write them, by place (0: before the first).

    ``also`` are other ways to write them. ``by_heart`` says up to which whole number subtraction is
    fluent before a grade begins (our reading of when it is asked for). ``runs`` names the families
    of numbers (``runs.py``) that practise what a grade is for, easiest first. From the grade
    ``unnamed`` on no whole number is too large.
    """

    document: str
    language: str
    marks: tuple[str, str]
    grades: Mapping[int, str]
    expected: tuple[Expected, ...]
    by_heart: Mapping[int, int]
    runs: Mapping[int, tuple[str, ...]]
    also: Mapping[str, int] = field(default_factory=dict)
    unnamed: int = 7

    def name(self, grade: int) -> str:
        """The grade as it is printed; beyond those that are named, by its number."""
        return self.grades.get(grade, str(grade))

    def quote(self, expected: Expected) -> str:
        """The official words in the marks of their language, for a sentence of ours."""
        return self.marks[0] + expected.words.removesuffix(".") + self.marks[1]


def kind_of(numbers: Sequence[Number]) -> Kind:
    """What sort of numbers they are as they are written, taken together."""
    values = [number.value for number in numbers]
    if min(values) < 0:
        return "across zero" if max(values) > 0 else "negative"
    below = {number.denominator for number in numbers if number.is_fraction}
    if below:
        mixed = any(not number.is_fraction and number.value.denominator > 1 for number in numbers)
        if mixed:
            return "unlike fractions"
        if len(below) == 1:
            return "like fractions"
        pairs = combinations(sorted(below), 2)
        related = all(large % small == 0 for small, large in pairs)
        return "related fractions" if related else "unlike fractions"
    if any(number.places for number in numbers):
        return "decimal"
    return "tens" if all(value % 10 == 0 and 10 <= value <= 90 for value in values) else "whole"
