"""What is said of a page beside its answer, as data: counts, swaps, places, hints."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import factorial

from bookmaker.model import (
    Arranged,
    CertifiedPage,
    Estimate,
    LettersOf,
    Number,
    OneOf,
    Said,
    written_as,
)
from bookmaker.puzzle import Fact, Ladder, Rung

FEW_NUMBERS = 3
"""Numbers at one spot up to which it is worth saying that no others can stand there."""
SMALL = 10
"""The largest part that is told exactly: 2 in 7, but about one in 26 of 4 in 105."""


def counts_of(certified: CertifiedPage) -> tuple[Said, ...]:
    """How many solutions, how rare, how much work. An estimate says "about"."""
    return tuple(_counts(certified))


def _counts(certified: CertifiedPage) -> Iterator[Said]:
    certificate, pages = certified.certificate, (certified,)
    if certificate.solutions is None:
        yield Said("key.uncounted", pages)
    else:
        yield Said("key.solutions", pages, count=certificate.solutions)
        if certificate.distinct_solutions is not None:
            yield Said("key.distinct", pages, count=certificate.distinct_solutions)
    rare = chance_of(certified)
    if rare:
        yield rare
    key = "key.work-about" if certificate.work_error else "key.work"
    work = Estimate(certificate.work, certificate.work_error).printed
    yield Said(key, pages, {"work": work, "band": Said(f"band.{certificate.band}", pages)})
    if certificate.easier_for:
        trying, building = certificate.trying.printed, certificate.building.printed
        keys = {"building": "key.builds", "trying": "key.tries"}
        both = {"trying": trying, "building": building}
        yield Said(keys[certificate.easier_for], pages, both)


def chance_of(certified: CertifiedPage) -> Said | None:
    """How many arrangements solve a page, of how many: exactly where that is short."""
    solutions = certified.certificate.solutions
    if solutions is None:
        return None
    free = len(certified.spots) - len(certified.given)
    share = Fraction(solutions, factorial(free))
    if share.numerator == 1 or share.denominator <= SMALL:
        exact = {"some": share.numerator, "all": share.denominator}
        return Said("key.chance", (certified,), exact)
    rare = Fraction(1, int(float(f"{float(1 / share):.2g}")))
    near = rare if share < Fraction(1, SMALL) else share.limit_denominator(SMALL)
    about = {"some": near.numerator, "all": near.denominator}
    return Said("key.about-chance", (certified,), about)


def swaps_of(
    certified: CertifiedPage, alike: Sequence[Sequence[tuple[str, ...]]]
) -> tuple[Said, ...]:
    """Which spots, or branches of spots, may be exchanged."""
    return tuple(
        Said(
            "key.swap" if len(group) == 2 else "key.swap-all",
            (certified,),
            {"spots": tuple(LettersOf(certified, branch) for branch in group)},
        )
        for group in alike
    )


def places_of(
    certified: CertifiedPage, standing: Sequence[tuple[str, Arranged]]
) -> tuple[Said, ...]:
    """The spots where few numbers, and not any number, can stand."""
    given = dict(certified.given)
    return tuple(
        Said(
            "key.stands",
            (certified,),
            {"spot": LettersOf(certified, (spot,)), "numbers": OneOf(numbers)},
            len(numbers),
        )
        for spot, numbers in standing
        if len(numbers) <= FEW_NUMBERS and len(numbers) < len(standing) and spot not in given
    )


def hints_of(certified: CertifiedPage, ladder: Ladder) -> tuple[Said, ...]:
    """The hint ladder: a fact where there is one, then number by number with what is left."""
    rungs = tuple(_rung(certified, rung) for rung in ladder.rungs)
    return (*_fact(certified, ladder.fact), *rungs)


def _fact(certified: CertifiedPage, fact: Fact) -> Iterator[Said]:
    """The hint that gives no number away; nothing where no more than the rule is known."""
    if fact.kind != "different":
        numbers = (written_as(value, certified.numbers) for value in fact.numbers)
        values: dict[str, Number | LettersOf] = dict(zip("abcd", numbers, strict=False))
        if fact.vertex is not None:
            values["letter"] = LettersOf(certified, (certified.spot_names[fact.vertex],))
        yield Said(f"key.fact.{fact.kind}", (certified,), values)


def _rung(certified: CertifiedPage, rung: Rung) -> Said:
    """A number given away, and that of the mirror where a child may be on the mirror's way."""
    pages, numbers = (certified,), certified.numbers
    values: dict[str, Number | LettersOf | Said] = {
        "spot": LettersOf(certified, (certified.spot_names[rung.vertex],)),
        "number": written_as(rung.number, numbers),
    }
    key, counted = "key.rung", "key.rung-left"
    if rung.mirror:
        other, turn = (written_as(value, numbers) for value in rung.mirror)
        values["mirror"] = Said("key.mirror-hint", pages, {"other": other, "turn": turn})
        key, counted = "key.rung-or", "key.rung-or-left"
    return Said(key if rung.left is None else counted, pages, values, rung.left)
