"""What is known of a page by brute force, and what a sentence says, for the truth test."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from typing import Any

import networkx as nx
from networkx.algorithms.isomorphism import GraphMatcher

from bookmaker.model import (
    CertifiedPage,
    LettersOf,
    Number,
    OneOf,
    OrderedBook,
    PageNotes,
    Said,
    SpotOf,
    Teaching,
)
from tests.teaching.random_books import Edges, Solution, every_arrangement


@dataclass(frozen=True)
class About:
    """What a sentence is said of: the book, its whole teaching, and the page's notes if any."""

    book: OrderedBook
    told: Teaching
    notes: PageNotes | None = None


Predicate = Callable[[Said, About], bool]


def solutions(page: CertifiedPage) -> tuple[Solution, ...]:
    numbers = tuple(number.value for number in page.numbers)
    return every_arrangement(edges(page), numbers, given(page))


def edges(page: CertifiedPage) -> Edges:
    names = [spot.name for spot in page.spots]
    return tuple((names.index(link.a), names.index(link.b)) for link in page.links)


def given(page: CertifiedPage) -> tuple[tuple[int, Fraction], ...]:
    return tuple((at(page, name), number.value) for name, number in page.given)


def at(page: CertifiedPage, name: str) -> int:
    return [spot.name for spot in page.spots].index(name)


def shown(page: CertifiedPage) -> Solution:
    return page.certificate.solution


def values(page: CertifiedPage) -> list[Fraction]:
    return sorted(number.value for number in page.numbers)


def turn(page: CertifiedPage) -> Fraction:
    return min(values(page)) + max(values(page))


def step(page: CertifiedPage) -> Fraction | None:
    steps = {b - a for a, b in pairwise(values(page))}
    return steps.pop() if len(steps) == 1 else None


def stands(page: CertifiedPage, name: str) -> set[Fraction]:
    return {solution[at(page, name)] for solution in solutions(page)}


def joined(page: CertifiedPage, solution: Solution) -> set[frozenset[Fraction]]:
    return {frozenset((solution[a], solution[b])) for a, b in edges(page)}


def gaps(page: CertifiedPage, solution: Solution) -> list[Fraction]:
    return sorted(abs(solution[a] - solution[b]) for a, b in edges(page))


def degree(page: CertifiedPage, name: str) -> int:
    return sum(at(page, name) in edge for edge in edges(page))


def differences(number: Fraction, page: CertifiedPage) -> int:
    return len({abs(number - other) for other in values(page) if other != number})


@lru_cache(maxsize=20_000)
def automorphisms(links: Edges) -> tuple[tuple[int, ...], ...]:
    graph = nx.Graph(list(links))
    found = GraphMatcher(graph, graph).isomorphisms_iter()
    return tuple(tuple(moves[v] for v in range(len(links) + 1)) for moves in found)


def images(page: CertifiedPage, solution: Solution, mirrors: tuple[bool, ...]) -> set[Solution]:
    """The solution under all symmetries, with and without the mirror, as far as they are a
    symmetry of the page: of the tree, the numbers and what is given."""
    known, found = set(solutions(page)), set()
    symmetric = {turn(page) - x for x in values(page)} == set(values(page))
    for moves in automorphisms(edges(page)):
        for mirrored in mirrors:
            if mirrored and not symmetric:
                continue
            if all(_keeps(page, v, moves, mirrored) for v, _ in given(page)):
                image = tuple(solution[w] for w in moves)
                image = tuple(turn(page) - x for x in image) if mirrored else image
                assert image in known
                found.add(image)
    return found


def _keeps(page: CertifiedPage, v: int, moves: tuple[int, ...], mirrored: bool) -> bool:
    fixed = dict(given(page))
    if moves[v] not in fixed:
        return False
    number = fixed[moves[v]]
    return fixed[v] == (turn(page) - number if mirrored else number)


@lru_cache(maxsize=20_000)
def orbits(page: CertifiedPage) -> int:
    left, count = set(solutions(page)), 0
    while left:
        left -= images(page, next(iter(left)), (False, True))
        count += 1
    return count


def num(said: Said, name: str) -> Fraction:
    value = said.values[name]
    assert isinstance(value, Number)
    return value.value


def nums(value: Any) -> list[Fraction]:
    numbers = value.numbers if isinstance(value, OneOf) else value
    return [number.value for number in numbers]


def one(said: Said) -> CertifiedPage:
    """The only page of a sentence that names one."""
    (page,) = said.pages
    assert said.values.get("page", page) is page
    return page


def spot(said: Said, name: str = "spot") -> str:
    value = said.values[name]
    if isinstance(value, LettersOf):
        (only,) = value.names
        return only
    assert isinstance(value, SpotOf)
    assert value.page is one(said)
    return value.name
