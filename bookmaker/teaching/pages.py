"""What the key says of a page beside its solution."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from bookmaker.cache import Cache
from bookmaker.model import Arranged, CertifiedPage, Number, PageNotes, Row, Said, write_like
from bookmaker.puzzle import (
    domains,
    every_solution,
    exchangeable,
    hint_ladder,
    mirrored,
    settled,
    to_instance,
)
from bookmaker.teaching.page_sayings import counts_of, hints_of, places_of, swaps_of

FEW = 6
"""Essentially different solutions up to which all of them are printed."""

Values = Sequence[Fraction]
Groups = tuple[tuple[tuple[int, ...], ...], ...]


def notes_of_page(certified: CertifiedPage, cache: Cache, seed: int) -> PageNotes:
    """Mirror, other solutions, what can stand where, what may be exchanged, and the hints."""
    page = certified
    names = page.spot_names
    written = {number.value: number for number in page.numbers}
    tree, numbers, given = to_instance(page)
    stands = domains(tree, numbers, given, cache=cache) or ()
    groups = exchangeable(tree, given)
    mirror = plain_mirror(certified)
    alike = tuple(tuple(tuple(names[v] for v in branch) for branch in group) for group in groups)
    stood = tuple((names[v], _written(values, written)) for v, values in enumerate(stands))
    ladder = hint_ladder(tree, numbers, given, cache=cache, seed=seed)
    return PageNotes(
        page=certified,
        mirror=mirror,
        rows=tuple(_rows(certified, groups, mirror, _others(certified, groups))),
        standing=stood,
        alike=alike,
        counts=counts_of(certified),
        swaps=swaps_of(certified, alike),
        places=places_of(certified, stood),
        hints=hints_of(certified, ladder),
    )


def plain_mirror(certified: CertifiedPage) -> Arranged | None:
    """The solution with every number taken from first + last; None where that is no solution.

    It is none where the numbers are not their own mirror image, or a given number would move.
    """
    solution, numbers = certified.solution, certified.numbers
    written = {number.value: number for number in numbers}
    turn = min(written) + max(written)
    image = tuple(written.get(turn - number.value) for number in solution.values())
    given = dict(certified.given)
    found = tuple(number for number in image if number is not None)
    if len(found) < len(image):
        return None
    moved = dict(zip(solution, found, strict=True))
    return None if any(moved[spot] != given[spot] for spot in given) else found


def _rows(
    certified: CertifiedPage,
    groups: Groups,
    mirror: Arranged | None,
    others: Sequence[Arranged],
) -> Iterator[Row]:
    """The image under the mirror first; where a swap must follow to bring the given numbers back
    to their spots, it is said so."""
    if mirror:
        yield Row(Said("key.label.mirror", (certified,)), mirror)
    else:
        twisted = mirrored(*to_instance(certified), certified.certificate.solution)
        if twisted:
            written = {number.value: number for number in certified.numbers}
            yield Row(Said("key.label.twisted", (certified,)), _written(twisted, written))
    for other in others:
        yield Row(Said("key.label.others", (certified,), count=len(others)), other)


def _others(certified: CertifiedPage, groups: Groups) -> tuple[Arranged, ...]:
    """The solutions essentially different from the certificate's, where there are few."""
    few = certified.certificate.distinct_solutions
    if few is None or not 1 < few <= FEW:
        return ()
    tree, numbers, given = to_instance(certified)
    written = {number.value: number for number in certified.numbers}
    shown = settled(certified.certificate.solution, groups)
    others = []
    for solution in every_solution(tree, numbers, given):
        image = mirrored(tree, numbers, given, solution)
        alike = {settled(each, groups) for each in (solution, image) if each}
        if shown not in alike:
            others.append(_written(settled(solution, groups), written))
    return tuple(others) if len(others) == few - 1 else ()


def _written(values: Values, written: Mapping[Fraction, Number]) -> Arranged:
    return tuple(written[value] for value in values)


def ascending(certified: CertifiedPage) -> tuple[Number, ...]:
    """The numbers of a page from the smallest on: a manifest's list may stand in any order."""
    return tuple(sorted(certified.numbers, key=lambda number: number.value))


def step_of(certified: CertifiedPage) -> Number | None:
    """The step of a page's numbers, None where they do not climb in equal steps."""
    numbers = ascending(certified)
    steps = {larger.value - smaller.value for smaller, larger in pairwise(numbers)}
    return write_like(steps.pop(), numbers) if len(steps) == 1 else None
