"""Common misconceptions, each with what speaks against it on a page of the chapter."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations

from bookmaker.model import CertifiedPage, Question, Said, SpotOf, Values, difference
from bookmaker.teaching.pages import ascending, step_of
from bookmaker.teaching.questions import Finder, Pages, links_at

HARDER = 1.5
"""A page is called harder where it takes this many times the work of another, for certain."""
SURE = 3.0
"""Standard errors by which an estimate may be out."""


def at_an_end(pages: Pages) -> Iterator[Question]:
    """Wrong: the largest number belongs at an end. It can stand where several links meet."""
    found: list[tuple[int, str, CertifiedPage]] = []
    for notes in pages:
        largest, given = ascending(notes.page)[-1], dict(notes.page.given)
        for spot, numbers in notes.standing:
            links = links_at(notes.page, spot)
            if links > 1 and largest in numbers and spot not in given:
                found.append((links, spot, notes.page))
    for links, spot, page in sorted(found, key=lambda each: -each[0]):
        values: Values = {"spot": SpotOf(page, spot), "number": ascending(page)[-1]}
        yield _wrong("end", page, values, links)


def only_one(pages: Pages) -> Iterator[Question]:
    """Wrong: there is one answer."""
    many = [n.page for n in pages if (n.page.certificate.solutions or 0) > 1]
    for page in sorted(many, key=lambda page: -(page.certificate.solutions or 0)):
        yield _wrong("one", page, {}, page.certificate.solutions)


def in_the_middle(pages: Pages) -> Iterator[Question]:
    """Wrong: the number in the middle of the row belongs in the middle of the creature."""
    for notes in pages:
        numbers, given = ascending(notes.page), dict(notes.page.given)
        middle = numbers[len(numbers) // 2]
        hub = max(notes.standing, key=lambda pair: links_at(notes.page, pair[0]), default=None)
        is_open = hub and hub[0] not in given and middle not in given.values()
        if hub and is_open and len(numbers) % 2 and middle not in hub[1]:
            values: Values = {"spot": SpotOf(notes.page, hub[0]), "number": middle}
            yield _wrong("middle", notes.page, {**values, "numbers": hub[1]}, len(hub[1]))


def neighbours(pages: Pages) -> Iterator[Question]:
    """Wrong: numbers that follow each other go side by side. Only one such link is possible."""
    for notes in sorted(pages, key=lambda notes: -len(notes.page.spots)):
        if step_of(notes.page) and len(notes.page.numbers) > 3:
            a, b, c = ascending(notes.page)[:3]
            values: Values = {"a": a, "b": b, "c": c, "difference": difference(a, b)}
            yield _wrong("neighbours", notes.page, values)


def more_spots(pages: Pages) -> Iterator[Question]:
    """Wrong: a page of more spots is harder."""
    for one, two in permutations([notes.page for notes in pages], 2):
        if len(one.spots) > len(two.spots) and _is_harder(two, one):
            values: Values = {"a": one, "b": two, "fewer": len(two.spots)}
            answer = Said("wrong.spots.answer", (one, two), values, len(one.spots))
            yield Question(Said("wrong.spots", (one, two)), answer)


def like_the_key(pages: Pages) -> Iterator[Question]:
    """Wrong: an answer that is not the key's is wrong."""
    for notes in pages:
        for (spot, a), b in zip(notes.page.solution.items(), notes.mirror or (), strict=False):
            if a != b:
                yield _wrong("key", notes.page, {"spot": SpotOf(notes.page, spot), "a": a, "b": b})


EXPECTED: tuple[Finder, ...] = (
    at_an_end,
    only_one,
    in_the_middle,
    neighbours,
    more_spots,
    like_the_key,
)


def _wrong(name: str, page: CertifiedPage, values: Values, count: int | None = None) -> Question:
    answer = Said(f"wrong.{name}.answer", (page,), {"page": page, **values}, count)
    return Question(Said(f"wrong.{name}", (page,)), answer)


def _is_harder(one: CertifiedPage, other: CertifiedPage) -> bool:
    mine, theirs = one.certificate, other.certificate
    least = mine.work - SURE * mine.work_error
    return least >= HARDER * (theirs.work + SURE * theirs.work_error)
