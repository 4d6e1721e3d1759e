"""What the key says of a page beside its solution, and the examples of how to mark."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from bookmaker.cache import Cache
from bookmaker.model import (
    Arranged,
    CertifiedPage,
    Given,
    MarkingNotes,
    Number,
    PageNotes,
    write_like,
)
from bookmaker.puzzle import (
    Tree,
    domains,
    every_solution,
    exchangeable,
    hint_ladder,
    settled,
    to_instance,
)
from bookmaker.teaching.hint_slips import mirror_of

FEW = 6
"""Essentially different solutions up to which all of them are printed."""

Values = Sequence[Fraction]
Groups = tuple[tuple[tuple[int, ...], ...], ...]


def notes_of_page(page: CertifiedPage, cache: Cache, seed: int) -> PageNotes:
    """Mirror, other solutions, what can stand where, what may be exchanged, and the hints."""
    names = page.spot_names
    written = {number.value: number for number in page.numbers}
    tree, numbers, given = to_instance(page)
    ladder = hint_ladder(tree, numbers, given, cache=cache, seed=seed)
    stands = domains(tree, numbers, given, cache=cache) or ()
    groups = exchangeable(tree, given)
    solution = page.certificate.solution
    mirror = mirrored(solution, numbers, given)
    others = _others(page, tree, given, groups)
    return PageNotes(
        page=page,
        mirror=_written(mirror, written) if mirror else None,
        others=tuple(_written(other, written) for other in others),
        standing=tuple((names[v], _written(values, written)) for v, values in enumerate(stands)),
        alike=tuple(tuple(tuple(names[v] for v in branch) for branch in group) for group in groups),
        fact=ladder.fact.kind,
        fact_numbers=_written(ladder.fact.numbers, written),
        fact_spot=None if ladder.fact.vertex is None else names[ladder.fact.vertex],
        ladder=tuple(
            Given(names[r.vertex], written[r.number], r.left, mirror_of(r, page))
            for r in ladder.rungs
        ),
    )


def mirrored(
    solution: Values, numbers: Values, given: Mapping[int, Fraction]
) -> tuple[Fraction, ...] | None:
    """``solution`` with every number taken from first + last; None where that is no solution.

    It is none where the numbers are not their own mirror image, or a given number would move.
    """
    turn = min(numbers) + max(numbers)
    image = tuple(turn - number for number in solution)
    if set(image) != set(numbers) or any(image[v] != number for v, number in given.items()):
        return None
    return image


def _others(
    page: CertifiedPage, tree: Tree, given: Mapping[int, Fraction], groups: Groups
) -> tuple[tuple[Fraction, ...], ...]:
    """The solutions essentially different from the certificate's, where there are few."""
    few = page.certificate.distinct_solutions
    if few is None or not 1 < few <= FEW:
        return ()
    numbers = tuple(number.value for number in page.numbers)
    shown = settled(page.certificate.solution, groups)
    others = []
    for solution in every_solution(tree, numbers, given):
        image = mirrored(solution, numbers, given)
        alike = {settled(each, groups) for each in (solution, image) if each}
        if shown not in alike:
            others.append(settled(solution, groups))
    return tuple(others) if len(others) == few - 1 else ()


def _written(values: Values, written: Mapping[Fraction, Number]) -> Arranged:
    return tuple(written[value] for value in values)


def marking_notes(pages: Iterable[PageNotes]) -> MarkingNotes:
    """The examples of how to mark: the first page of middling size, the one with most answers."""
    pages = tuple(pages)
    fitting = [each for each in pages if step_of(each.page) and each.mirror]
    example = min(fitting, key=lambda each: abs(len(each.page.spots) - 5), default=None)
    counted = [each.page for each in pages if (each.page.certificate.solutions or 0) > 1]
    many = max(counted, key=lambda page: page.certificate.solutions or 0, default=None)
    if example is None:
        return MarkingNotes(None, many, None, None)
    step = step_of(example.page)
    assert step is not None
    count = len(example.page.spots)
    total = write_like(step.value * (count * (count - 1) // 2), example.page.numbers)
    return MarkingNotes(example, many, step, total)


def step_of(page: CertifiedPage) -> Number | None:
    """The step of a page's numbers, None where they do not climb in equal steps."""
    numbers = page.numbers
    values = sorted(number.value for number in numbers)
    steps = {larger - smaller for smaller, larger in pairwise(values)}
    return write_like(steps.pop(), numbers) if len(steps) == 1 else None
