"""Random books: every kind of number, given numbers, mixed in one chapter; small enough that all
solutions are found by trying every arrangement."""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from itertools import permutations

import networkx as nx

from bookmaker.cache import MemoryCache
from bookmaker.curricula import CURRICULA
from bookmaker.model import (
    GRADES,
    CertifiedPage,
    Estimate,
    Link,
    Number,
    OrderedBook,
    OrderedChapter,
    Page,
    Spot,
    progression,
)
from bookmaker.puzzle import Tree, certify
from tests.layout.books import Shape, ordered_book

Edges = tuple[tuple[int, int], ...]
Solution = tuple[Fraction, ...]
KEPT = MemoryCache()
PROGRESSIONS = ("1 1", "1 2", "8 7", "2 3", "10 10", "17 26", "165 168", "0.3 0.4", "1.75 0.68")
PROGRESSIONS += ("0.125 0.125", "12000 700", "600 300")
PROGRESSIONS += ("1/4 1/4", "3/8 1/4", "1/2 1/3", "-3 2", "-9 1", "-1/2 1/4", "0 3", "4 4")
LISTS = ("2 3 5 7 11 13 17", "1 2 4 8 16 32 64", "13 2 7 3 11 5 17", "1 2 3 5 8 13 21")
LISTS += ("1 2 4 5 7 8", "1 3 4 6 9 11 12", "2/4 1/4 3/4 5/4 9/4", "0.5 1/4 2 3 0.75 5")
LISTS += ("50 20 70 10 90 30", "-5 2 -1 7 11 4", "2 4 8 14 22 32 44", "9 1 5 3 13 7 11")


def random_book(seed: int) -> OrderedBook:
    """A book of one to three chapters, two to four pages each."""
    rng = random.Random(seed)
    only = rng.choice(PROGRESSIONS) if rng.random() < 0.15 else None
    chapters = []
    for number in range(rng.randint(1, 3)):
        pages = [_page(rng, f"c{number}p{place}", only) for place in range(rng.randint(2, 4))]
        chapters.append(_chapter(f"Chapter {number + 1}", pages))
    ordered = ordered_book(Shape(1, 1))
    said = {"grade": rng.choice(GRADES), "curriculum": rng.choice(tuple(CURRICULA))}
    return replace(ordered, **said, chapters=tuple(chapters))


def _chapter(title: str, pages: list[CertifiedPage]) -> OrderedChapter:
    return replace(ordered_book(Shape(1, 1)).chapters[0], id=title, title=title, pages=tuple(pages))


@dataclass(frozen=True)
class Drawn:
    """A tree with numbers and given ones, that has a solution."""

    edges: Edges
    numbers: tuple[Number, ...]
    given: tuple[tuple[int, Number], ...]


def _page(rng: random.Random, page_id: str, only: str | None) -> CertifiedPage:
    drawn = _draw_twisted(rng) if rng.random() < 0.03 else _draw(rng, only)
    names = [f"s{v}" for v in range(len(drawn.numbers))]
    page = Page(
        id=page_id,
        name=page_id.upper(),
        chapter="chapter",
        file="chapter.toml",
        line=1,
        art=None,
        artist="",
        licence="",
        spots=tuple(Spot(name, 10.0 + 12 * v, 50.0) for v, name in enumerate(names)),
        links=tuple(Link(names[a], names[b]) for a, b in drawn.edges),
        numbers=drawn.numbers,
        given=tuple((names[v], number) for v, number in drawn.given),
    )
    tree = Tree(len(names), page.edges)
    values = tuple(number.value for number in drawn.numbers)
    given = {v: number.value for v, number in drawn.given}
    certificate = certify(tree, values, given, cache=KEPT, seed=0)
    if rng.random() < 0.1:
        error = certificate.trying.mean * rng.choice((0.03, 0.3))
        certificate = replace(certificate, trying=Estimate(certificate.trying.mean, error))
    if rng.random() < 0.05:
        certificate = replace(certificate, solutions=None, distinct_solutions=None, one_in=None)
    return CertifiedPage.of(page, certificate)


def _draw_twisted(rng: random.Random) -> Drawn:
    """A path whose two ends are given, and change places in the mirror."""
    n = rng.choice((4, 5, 6))
    start, step = map(Number.parse, rng.choice(PROGRESSIONS).split())
    numbers = progression(start, step, n)
    edges = tuple((v, v + 1) for v in range(n - 1))
    found = every_arrangement(edges, tuple(x.value for x in numbers), ())
    both = start.value + numbers[-1].value
    ends = [solution for solution in found if solution[0] + solution[-1] == both]
    if not ends:
        return _draw(rng, None)
    written, chosen = {number.value: number for number in numbers}, rng.choice(ends)
    return Drawn(edges, numbers, ((0, written[chosen[0]]), (n - 1, written[chosen[-1]])))


def _draw(rng: random.Random, only: str | None) -> Drawn:
    """Any page; its numbers climb as ``only`` says, where that is told."""
    while True:
        n = rng.choice((3, 4, 4, 5, 5, 5, 6, 6, 7))
        numbers = _numbers(rng, n, only)
        edges = _tree(rng, len(numbers))
        found = every_arrangement(edges, tuple(x.value for x in numbers), ())
        if found:
            return Drawn(edges, numbers, _given(rng, numbers, rng.choice(found)))


def _numbers(rng: random.Random, n: int, only: str | None) -> tuple[Number, ...]:
    if only or rng.random() < 0.6:
        start, step = map(Number.parse, (only or rng.choice(PROGRESSIONS)).split())
        return progression(start, step, n)
    listed = tuple(map(Number.parse, rng.choice(LISTS).split()))[: min(n, 6)]
    return tuple(rng.sample(listed, len(listed))) if rng.random() < 0.5 else listed


def _tree(rng: random.Random, n: int) -> Edges:
    kind = rng.random()
    if kind < 0.15 and n < 7:
        return tuple((0, v) for v in range(1, n))
    if kind < 0.3:
        return tuple((v, v + 1) for v in range(n - 1))
    return tuple(nx.random_labeled_tree(n, seed=rng.randrange(10**9)).edges())


def _given(
    rng: random.Random, numbers: tuple[Number, ...], solution: Solution
) -> tuple[tuple[int, Number], ...]:
    if rng.random() < 0.6:
        return ()
    written = {number.value: number for number in numbers}
    spots = sorted(rng.sample(range(len(numbers)), rng.randint(1, len(numbers) - 1)))
    return tuple((v, written[solution[v]]) for v in spots)


@lru_cache(maxsize=20_000)
def every_arrangement(
    edges: Edges, numbers: tuple[Fraction, ...], given: tuple[tuple[int, Fraction], ...]
) -> tuple[Solution, ...]:
    """Every solution, by trying all arrangements."""
    fixed: Mapping[int, Fraction] = dict(given)
    found = []
    for at in permutations(numbers):
        if any(at[v] != number for v, number in fixed.items()):
            continue
        if len({abs(at[a] - at[b]) for a, b in edges}) == len(edges):
            found.append(at)
    return tuple(found)
