"""Questions to ask a class, each with what to listen for and why it is so.

The reason can be seen on the page itself: there are as many lines as there are possible
differences, a spot has more lines than a number has differences, two spots hang on one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

from bookmaker.model import (
    CertifiedPage,
    Number,
    PageNotes,
    Question,
    Said,
    SpotOf,
    Values,
    difference,
    write_like,
)
from bookmaker.teaching.pages import ascending, step_of

Pages = Sequence[PageNotes]
Finder = Callable[[Pages], Iterator[Question]]

FEW = 3
"""Numbers at a spot up to which it is asked why only these can stand there."""


def linked(pages: Pages) -> Iterator[Question]:
    """The largest difference comes in every solution: each of the possible ones is needed."""
    for page in _climbing(pages):
        low, *_, high = ascending(page)
        if not {low, high} <= {number for _, number in page.given}:
            answer = {"a": low, "b": high, "difference": difference(high, low)}
            yield question("linked", page, {}, answer, len(page.links))


def parity(pages: Pages) -> Iterator[Question]:
    """Every difference is even, because all numbers are odd, or all even."""
    for notes in pages:
        rests = {number.value % 2 for number in notes.page.numbers}
        if rests in ({1}, {0}):
            yield question("odd" if rests == {1} else "even", notes.page, {}, {})


def multiples(pages: Pages) -> Iterator[Question]:
    """Every difference is a multiple of the step, which is a whole number over two."""
    for page in _climbing(pages):
        step = step_of(page)
        if step and step.value > 2 and step.value.denominator == 1:
            yield question("multiples", page, {}, {"step": step})


def place(pages: Pages) -> Iterator[Question]:
    """A spot of several links at which few numbers can stand, all others having too few
    differences for so many links."""
    for notes, spot, numbers, barred in _narrow(pages):
        if len(numbers) <= min(FEW, len(barred)):
            where = SpotOf(notes.page, spot)
            answer: Values = {"spot": where, "numbers": numbers}
            yield question("place", notes.page, {"spot": where}, answer, links_at(notes.page, spot))


def barred(pages: Pages) -> Iterator[Question]:
    """The one number that can't stand at a spot, since it has too few differences for its links."""
    for notes, spot, numbers, kept_out in _narrow(pages):
        if len(kept_out) == 1 < len(numbers):
            where = SpotOf(notes.page, spot)
            answer: Values = {"spot": where, "number": kept_out[0]}
            links = links_at(notes.page, spot)
            yield question("barred", notes.page, {"spot": where}, answer, links)


def _narrow(
    pages: Pages,
) -> Iterator[tuple[PageNotes, str, tuple[Number, ...], tuple[Number, ...]]]:
    """Spots with the numbers that can stand there, and those that can't because their differences
    to all others are fewer than the spot's links; only where that is the whole reason."""
    for notes in pages:
        own = notes.page.numbers
        for spot, numbers in notes.standing:
            out = tuple(number for number in own if number not in numbers)
            links = links_at(notes.page, spot)
            given = dict(notes.page.given)
            if out and spot not in given and all(_differences(x, own) < links for x in out):
                yield notes, spot, numbers, out


def _differences(number: Number, numbers: Sequence[Number]) -> int:
    """How many different differences ``number`` has to the others."""
    return len({abs(number.value - other.value) for other in numbers} - {0})


def total(pages: Pages) -> Iterator[Question]:
    """The differences of a page add up to the same in every solution."""
    for page in _climbing(pages):
        gaps = tuple(sorted(page.differences.values(), key=lambda gap: gap.value))
        whole = write_like(sum((gap.value for gap in gaps), Fraction(0)), gaps)
        yield question("total", page, {}, {"numbers": gaps, "total": whole}, len(gaps))


def mirror(pages: Pages) -> Iterator[Question]:
    """A solution taken from first + last is another solution."""
    for notes in pages:
        if notes.mirror:
            low, *_, high = ascending(notes.page)
            both = write_like(low.value + high.value, (low, high))
            yield question("mirror", notes.page, {"sum": both}, {"a": low, "b": high})


def second(pages: Pages) -> Iterator[Question]:
    """The second largest difference can come from two pairs only, and not from both."""
    for page in _climbing(pages):
        if len(page.numbers) > 3 and not page.given:
            numbers = ascending(page)
            gap = difference(numbers[-1], numbers[1])
            answer = {"a": numbers[0], "b": numbers[-2], "c": numbers[1], "d": numbers[-1]}
            yield question("second", page, {"difference": gap}, {**answer, "difference": gap})


def swap(pages: Pages) -> Iterator[Question]:
    """Two spots that hang on one, and may always exchange their numbers."""
    for notes in pages:
        for group in notes.alike:
            one, two = group[0][0], group[1][0]
            hubs = _linked_to(notes.page, one) & _linked_to(notes.page, two)
            if hubs and all(len(branch) == 1 for branch in group):
                a, b = SpotOf(notes.page, one), SpotOf(notes.page, two)
                answer = {"a": a, "b": b, "spot": SpotOf(notes.page, hubs.pop())}
                yield question("swap", notes.page, {"a": a, "b": b}, answer)


def another(pages: Pages) -> Iterator[Question]:
    """A page with several essentially different solutions, the fewest first."""
    counted = [n.page for n in pages if (n.page.certificate.distinct_solutions or 0) > 1]
    for page in sorted(counted, key=lambda page: page.certificate.distinct_solutions or 0):
        count = page.certificate.distinct_solutions
        yield question("another", page, {}, {"page": page}, count)


ASKED: tuple[Finder, ...] = (
    linked,
    parity,
    multiples,
    place,
    barred,
    total,
    swap,
    second,
    mirror,
    another,
)


def question(
    name: str, page: CertifiedPage, asks: Values, answer: Values, count: int | None = None
) -> Question:
    """A question of ``page`` by its ``name`` in the tables of words."""
    return Question(
        Said(f"ask.{name}", (page,), {"page": page, **asks}),
        Said(f"ask.{name}.answer", (page,), answer, count),
    )


def _climbing(pages: Pages) -> list[CertifiedPage]:
    """The pages whose numbers climb in equal steps, the largest first."""
    climbing = [notes.page for notes in pages if step_of(notes.page)]
    return sorted(climbing, key=lambda page: -len(page.spots))


def links_at(page: CertifiedPage, spot: str) -> int:
    """How many links meet at ``spot``."""
    return sum(spot in link.ends for link in page.links)


def _linked_to(page: CertifiedPage, spot: str) -> set[str]:
    ends = [link.ends for link in page.links if spot in link.ends]
    return {end for pair in ends for end in pair} - {spot}
