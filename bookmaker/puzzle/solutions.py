"""All solutions of an instance, streamed in a canonical order, and how many there are.

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
from bookmaker.puzzle.instance import Arrangement, Instance
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


def is_countable(instance: Instance) -> bool:
    small_progression = instance.is_progression and instance.tree.n <= COUNTED_PROGRESSION
    return small_progression or len(instance.free) <= COUNTED_ANY


def count(instance: Instance, cache: Cache) -> Counts | None:
    """Count exactly; None where it is beyond counting.

    No symmetry and no mirror carries a solution of three vertices or more to itself: it would keep
    each difference, so each link, so each vertex. So all orbits have one size, and to count
    them is to count the solutions.
    """
    if not is_countable(instance):
        return None
    images = 2 if _has_mirror(instance) else 1
    if _is_bare(instance):
        if 3 <= instance.tree.n <= catalogue.LARGEST:
            shapes = catalogue.catalogue(instance.tree.n, cache)
            distinct = shapes.get(instance.symmetry.form, 0)
        else:
            distinct = sum(1 for _ in descending(instance))
    else:
        distinct = sum(1 for _ in up_to_symmetry(instance)) // images
    return Counts(distinct * images * instance.symmetry.count, distinct)


def distinct_solutions(instance: Instance) -> Iterator[Arrangement]:
    """Each solution once up to the symmetries and the mirror that keep the given numbers."""
    if _is_bare(instance):
        yield from map(instance.settled, descending(instance))
        return
    has_mirror = _has_mirror(instance)
    for solution in up_to_symmetry(instance):
        if not has_mirror or solution < instance.settled(instance.mirrored(solution)):
            yield solution


def up_to_symmetry(instance: Instance) -> Iterator[Arrangement]:
    """Each solution once up to the symmetries alone, in its settled form."""
    search = descending if instance.is_progression else spotwise
    for solution in search(instance):
        yield instance.settled(solution)
        if _is_bare(instance) and _has_mirror(instance):
            yield instance.settled(instance.mirrored(solution))


def all_solutions(instance: Instance) -> Iterator[Arrangement]:
    """Every solution, the images under the symmetries that keep the given numbers among them."""
    if instance.tree.n == 1:
        return up_to_symmetry(instance)
    symmetries = [itemgetter(*moves) for moves in instance.symmetry.elements]
    return (image(solution) for solution in up_to_symmetry(instance) for image in symmetries)


def _is_bare(instance: Instance) -> bool:
    """Whether the tree alone is the instance: then ``descending`` leaves out the mirror itself."""
    return instance.is_progression and not instance.given


def _has_mirror(instance: Instance) -> bool:
    """Whether there is a mirror that is not one of the symmetries."""
    return instance.tree.n > 2 and instance.mirror is not None
