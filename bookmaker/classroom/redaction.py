"""Redaction: a class in, the same class without the names that may not be printed out.

A roster may forbid a name in one column and give it away in another: "Bruno's dragon". So every
word of a name that may not be printed is held back wherever a teacher's or a child's text is
printed, unless a pupil who may be named shares that word or ``may_print`` lets it pass.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from bookmaker.classroom.forgotten import Forgotten
from bookmaker.classroom.names import named_in, words_of
from bookmaker.model import Classroom, Problem, Pupil, Swap


@dataclass(frozen=True, slots=True)
class Redactor:
    """Finds names in texts: ``hidden`` words as they are, ``forgotten`` ones by their hashes."""

    hidden: frozenset[str]
    shown: frozenset[str]
    forgotten: Forgotten

    @classmethod
    def of(cls, classroom: Classroom, forgotten: Forgotten, own: Pupil | None) -> Redactor:
        """For the class's book, or for the copy of the pupil ``own``."""
        named = {p.name for p in classroom.pupils if _may_be_named(p, own)}
        shown = frozenset(w for name in (*named, *classroom.may_print) for w in words_of(name))
        others = (p.name for p in classroom.pupils if p.name not in named)
        return cls(
            frozenset(w for name in others for w in words_of(name)) - shown, shown, forgotten
        )

    def name_in(self, text: str) -> str:
        """A name's word that stands in ``text`` and may not be printed, folded; "" for none."""
        return named_in(text, self.hidden) or self.forgotten.name_in(text, self.shown)


def redacted(
    classroom: Classroom, forgotten: Forgotten, own: Pupil | None = None
) -> tuple[Classroom, tuple[Problem, ...]]:
    """``classroom`` with no such name in its title, its swaps' words, its pupils' titles and
    credits, and what was held back. An empty title or name stands for a neutral one."""
    redactor = Redactor.of(classroom, forgotten, own)
    pupils, swaps, problems = [], [], list(_title_problems(classroom, redactor))
    for pupil in classroom.pupils:
        kept = _pupil(pupil, redactor)
        pupils.append(kept)
        if pupil.drawing != "no":
            problems += _told(classroom, pupil, kept, redactor)
    for swap in classroom.swaps:
        kept_swap = _swap(swap, redactor)
        swaps.append(kept_swap)
        problems += _swap_problems(classroom, swap, kept_swap, redactor)
    title = "" if redactor.name_in(classroom.title) else classroom.title
    found = replace(classroom, title=title, pupils=tuple(pupils), swaps=tuple(swaps))
    return found, tuple(problems)


def _may_be_named(pupil: Pupil, own: Pupil | None) -> bool:
    permitted = pupil.drawing == "class" or (pupil.drawing == "own" and pupil == own)
    return pupil.show_name and permitted


def _pupil(pupil: Pupil, redactor: Redactor) -> Pupil:
    creature = "" if redactor.name_in(pupil.creature) else pupil.creature
    credit = pupil.name if redactor.name_in(pupil.credit) else pupil.credit
    return replace(pupil, creature=creature, credit=credit)


def _swap(swap: Swap, redactor: Redactor) -> Swap:
    name = "" if redactor.name_in(swap.name) else swap.name
    artist = "" if redactor.name_in(swap.artist) else swap.artist
    return replace(swap, name=name, artist=artist)


def _told(classroom: Classroom, pupil: Pupil, kept: Pupil, redactor: Redactor) -> Iterator[Problem]:
    credit = pupil.credit if pupil.show_name else kept.credit  # of others no credit is printed
    for column, before, after, instead in (
        ("creature", pupil.creature, kept.creature, "a neutral title"),
        ("credit", credit, kept.credit, "the pupil's own name"),
    ):
        if before != after:
            word = redactor.name_in(before)
            place = (classroom.roster_file, pupil.line, pupil.name)
            yield _kept_back(place, f"the {column}", instead, word)


def _swap_problems(
    classroom: Classroom, swap: Swap, kept: Swap, redactor: Redactor
) -> Iterator[Problem]:
    line = dict(classroom.lines).get(f"swap.{swap.key}", 0)
    for key, instead in (("name", "the book's own name"), ("artist", "nothing")):
        before = getattr(swap, key)
        if before != getattr(kept, key):
            place = (classroom.file, line, swap.page)
            word = redactor.name_in(before)
            yield _kept_back(place, f"the {key} of a swapped picture", instead, word)


def _title_problems(classroom: Classroom, redactor: Redactor) -> Iterator[Problem]:
    word = redactor.name_in(classroom.title)
    if word:
        place = (classroom.file, dict(classroom.lines).get("title", 0), "")
        yield _kept_back(place, "the class's title", "the book's title", word)


def _kept_back(place: tuple[str, int, str], what: str, instead: str, word: str) -> Problem:
    message = f"{what} holds {word!r}, a word of a name that may not be printed; "
    message += f"{instead} stands instead"
    mend = "Write it without that name, or ask the family and say yes in the column name. "
    mend += f'Where the word means no child: may_print = ["{word}"] in class.toml.'
    return Problem(*place, "name-kept-back", message, mend, "warning")
