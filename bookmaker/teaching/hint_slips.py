"""Hints for every page, a slip for each rung of its ladder."""

from __future__ import annotations

from collections.abc import Iterator

from bookmaker.cache import Cache
from bookmaker.model import CertifiedPage, Number, OrderedBook, Slip, written_as
from bookmaker.puzzle import Rung, hint_ladder, to_instance


def hint_slips(ordered: OrderedBook, cache: Cache, seed: int) -> tuple[Slip, ...]:
    """The slips of all pages in the order of the book: a fact first, then number by number.

    A page of which no fact is known begins with a number.
    """
    return tuple(slip for page in ordered.pages for slip in _of_page(page, cache, seed))


def _of_page(page: CertifiedPage, cache: Cache, seed: int) -> Iterator[Slip]:
    written = {number.value: number for number in page.numbers}
    ladder = hint_ladder(*to_instance(page), cache=cache, seed=seed)
    fact, first = ladder.fact, 1
    if fact.kind != "different":
        spot = "" if fact.vertex is None else page.spot_names[fact.vertex]
        yield Slip(page, first, tuple(written[x] for x in fact.numbers), spot, fact.kind)
        first = 2
    for step, rung in enumerate(ladder.rungs, first):
        spot, mirror = page.spot_names[rung.vertex], mirror_of(rung, page)
        yield Slip(page, step, (written[rung.number],), spot, mirror=mirror)


def mirror_of(rung: Rung, page: CertifiedPage) -> tuple[Number, Number] | None:
    """The numbers of a rung's mirror, written as the page's are."""
    if rung.mirror is None:
        return None
    other, turn = (written_as(value, page.numbers) for value in rung.mirror)
    return other, turn
