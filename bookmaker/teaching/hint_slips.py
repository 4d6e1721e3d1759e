"""Hints for every page, a slip for each rung of its ladder."""

from __future__ import annotations

from collections.abc import Iterator

from bookmaker.cache import Cache
from bookmaker.model import CertifiedPage, OrderedBook, Slip
from bookmaker.puzzle import hint_ladder, to_instance


def hint_slips(ordered: OrderedBook, cache: Cache, seed: int) -> tuple[Slip, ...]:
    """The slips of all pages in the order of the book: a fact first, then number by number."""
    return tuple(slip for page in ordered.pages for slip in _of_page(page, cache, seed))


def _of_page(page: CertifiedPage, cache: Cache, seed: int) -> Iterator[Slip]:
    written = {number.value: number for number in page.numbers}
    ladder = hint_ladder(*to_instance(page), cache=cache, seed=seed)
    fact = ladder.fact
    yield Slip(page, 1, tuple(written[value] for value in fact.numbers), fact=fact.kind)
    for step, rung in enumerate(ladder.rungs, 2):
        yield Slip(page, step, (written[rung.number],), page.spot_names[rung.vertex])
