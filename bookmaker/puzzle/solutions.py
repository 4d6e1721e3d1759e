"""All solutions of a question, streamed in a canonical order, and how many there are.

With a progression they come by the place of the largest difference, then of the second largest,
and so on; with any other list by the numbers from the centre outwards.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from operator import itemgetter

from bookmaker.cache import Cache
from bookmaker.puzzle import catalogue
from bookmaker.puzzle.descending import descending
from bookmaker.puzzle.question import Arrangement, Question
from bookmaker.puzzle.spotwise import spotwise

COUNTED_ANY = 8
"""Free spots up to which solutions are counted, whatever the numbers."""

COUNTED_PROGRESSION = 12
"""Spots up to which solutions are counted for numbers in arithmetic progression."""


@dataclass(frozen=True)
class Counts:
    """Solutions, and solutions up to the symmetries and the mirror that keep what is given."""

    solutions: int
    distinct: int


def is_countable(question: Question) -> bool:
    small_progression = question.is_progression and question.tree.n <= COUNTED_PROGRESSION
    return small_progression or len(question.free) <= COUNTED_ANY


def count(question: Question, cache: Cache) -> Counts | None:
    """Count exactly; None where it is beyond counting.

    No symmetry and no mirror carries a solution of three vertices or more to itself: it would keep
    each difference, so each link, so each vertex. So all orbits have one size, and to count
    them is to count the solutions.
    """
    if not is_countable(question):
        return None
    images = 2 if _has_mirror(question) else 1
    if _is_bare(question):
        if 3 <= question.tree.n <= catalogue.LARGEST:
            shapes = catalogue.catalogue(question.tree.n, cache)
            distinct = shapes.get(question.symmetry.form, 0)
        else:
            distinct = sum(1 for _ in descending(question))
    else:
        distinct = sum(1 for _ in up_to_symmetry(question)) // images
    return Counts(distinct * images * question.symmetry.count, distinct)


def distinct_solutions(question: Question) -> Iterator[Arrangement]:
    """Each solution once up to the symmetries and the mirror that keep the given numbers."""
    if _is_bare(question):
        yield from map(question.settled, descending(question))
        return
    has_mirror = _has_mirror(question)
    for solution in up_to_symmetry(question):
        if not has_mirror or solution < question.settled(question.mirrored(solution)):
            yield solution


def up_to_symmetry(question: Question) -> Iterator[Arrangement]:
    """Each solution once up to the symmetries alone, in its settled form."""
    search = descending if question.is_progression else spotwise
    for solution in search(question):
        yield question.settled(solution)
        if _is_bare(question) and _has_mirror(question):
            yield question.settled(question.mirrored(solution))


def all_solutions(question: Question) -> Iterator[Arrangement]:
    """Every solution, the images under the symmetries that keep the given numbers among them."""
    if question.tree.n == 1:
        return up_to_symmetry(question)
    symmetries = [itemgetter(*moves) for moves in question.symmetry.elements]
    return (image(solution) for solution in up_to_symmetry(question) for image in symmetries)


def _is_bare(question: Question) -> bool:
    """Whether the tree alone is the question: then ``descending`` leaves out the mirror itself."""
    return question.is_progression and not question.given


def _has_mirror(question: Question) -> bool:
    """Whether there is a mirror that is not one of the symmetries."""
    return question.tree.n > 2 and question.mirror is not None
