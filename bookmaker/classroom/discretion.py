"""Discretion: a class in, the same class without the names that may not be printed out.

A roster may forbid a name in one column and give it away in another: "Bruno's dragon".
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from bookmaker.model import Classroom, Problem, Pupil, folded

LEAST = 2
"""Letters that a name has to have to be looked for: numbers are no names."""


def discreet(classroom: Classroom) -> tuple[Classroom, tuple[Problem, ...]]:
    """``classroom`` with titles and credits that hold no such name, and what was taken out."""
    hidden = [p.name for p in classroom.pupils if not p.show_name or p.drawing == "no"]
    pupils: list[Pupil] = []
    problems: list[Problem] = []
    for pupil in classroom.pupils:
        told = _discreet(pupil, [name for name in hidden if name != pupil.name])
        pupils.append(told)
        if pupil.drawing != "no":
            problems += _told(classroom, pupil, told)
    return replace(classroom, pupils=tuple(pupils)), tuple(problems)


def _discreet(pupil: Pupil, others: Sequence[str]) -> Pupil:
    own = [] if pupil.show_name else [pupil.name, *pupil.name.split()[:1]]
    creature = "" if _holds(pupil.creature, [*others, *own]) else pupil.creature
    credit = pupil.name if _holds(pupil.credit, others) else pupil.credit
    return replace(pupil, creature=creature, credit=credit)


def _holds(text: str, names: Sequence[str]) -> bool:
    """Whether one of ``names`` stands in ``text`` as words of their own."""
    words = [folded(name) for name in names if sum(map(str.isalpha, name)) >= LEAST]
    return any(re.search(rf"(?<!\w){re.escape(word)}(?!\w)", folded(text)) for word in words)


def _told(classroom: Classroom, pupil: Pupil, told: Pupil) -> Iterator[Problem]:
    for column, before, after, instead in (
        ("creature", pupil.creature, told.creature, "a neutral title"),
        ("credit", pupil.credit, told.credit, "the pupil's own name"),
    ):
        if before != after:
            message = f"the {column} holds the name of a pupil whose name may not be printed; "
            message += f"{instead} stands instead"
            mend = "Write it without that name, or ask the family and say yes in the column name."
            place = (classroom.roster_file, pupil.line, pupil.name)
            yield Problem(*place, "name-kept-back", message, mend, "warning")
