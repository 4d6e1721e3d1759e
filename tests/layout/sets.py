"""Seeded sets of pages on which layout is judged: anatomical, wild and tight.

A page here is spots in millimetres inside a frame, and links between them; what a puzzle page
leaves to its picture on a recto is the frame.
"""

from __future__ import annotations

import heapq
import math
import random
from collections.abc import Iterator
from dataclasses import dataclass

from bookmaker.model import Box
from bookmaker.placement.sizes import Sizes

PAPERS = {"a4": (210.0, 297.0), "a5": (148.0, 210.0), "a3": (297.0, 420.0)}
APART = {"a4": 32.0, "a5": 26.0, "a3": 36.0}
MOST_SPOTS = {"a4": 8, "a5": 7}

Edge = tuple[int, int]


@dataclass(frozen=True)
class Case:
    """One page to lay out."""

    name: str
    paper: str
    spots: tuple[tuple[str, float, float], ...]
    links: tuple[tuple[str, str], ...]
    close: tuple[str, ...] = ()

    @property
    def frame(self) -> Box:
        return frame(self.paper)

    @property
    def sizes(self) -> Sizes:
        return Sizes.of(self.paper, 2)


def frame(paper: str) -> Box:
    """What a recto leaves to the picture: 14 mm at the binding, 10 elsewhere, head and foot."""
    width, height = PAPERS[paper]
    return Box(14.0, 34.0, width - 24.0, height - 69.0)


def anatomical(count: int, paper: str, seed: int = 1) -> Iterator[Case]:
    """Spots at random, links a random spanning tree that does not cross when straight."""
    for i in range(count):
        chance = random.Random(f"anatomical {paper} {seed} {i}")
        places = _scatter(chance, paper, _how_many(chance, paper))
        yield _case(f"anatomical-{paper}-{i}", paper, places, straight_tree(chance, places))


def many(count: int, spots: int, paper: str = "a4", seed: int = 1) -> Iterator[Case]:
    """As anatomical, with so many spots."""
    for i in range(count):
        chance = random.Random(f"many {spots} {paper} {seed} {i}")
        places = _scatter(chance, paper, spots)
        yield _case(f"many-{spots}-{i}", paper, places, straight_tree(chance, places))


def wild(count: int, paper: str, seed: int = 1) -> Iterator[Case]:
    """Spots at random, links a uniformly random tree, crossings or not."""
    for i in range(count):
        chance = random.Random(f"wild {paper} {seed} {i}")
        places = _scatter(chance, paper, _how_many(chance, paper))
        yield _case(f"wild-{paper}-{i}", paper, places, uniform_tree(chance, len(places)))


def tight(count: int, paper: str = "a4", seed: int = 1) -> Iterator[Case]:
    """As anatomical, but two spots are 8 to 26 mm apart."""
    for i in range(count):
        chance = random.Random(f"tight {paper} {seed} {i}")
        places = _scatter(chance, paper, _how_many(chance, paper) - 1)
        places = _with_neighbour(chance, paper, places)
        case = _case(f"tight-{paper}-{i}", paper, places, straight_tree(chance, places))
        names = [name for name, _, _ in case.spots]
        yield Case(case.name, paper, case.spots, case.links, (names[0], names[-1]))


def posters(count: int, spots: int, seed: int = 1) -> Iterator[Case]:
    """Many spots on A3, linked to what is near as a person would link them."""
    for i in range(count):
        chance = random.Random(f"poster {spots} {seed} {i}")
        places = _scatter(chance, "a3", spots)
        yield _case(f"poster-{spots}-{i}", "a3", places, short_tree(chance, places))


def short_tree(chance: random.Random, places: list[tuple[float, float]]) -> list[Edge]:
    """A spanning tree of short straight links that do not cross."""
    edges = [(a, b) for a in range(len(places)) for b in range(a + 1, len(places))]
    length = {(a, b): math.dist(places[a], places[b]) * chance.uniform(1, 1.6) for a, b in edges}
    return _tree(places, sorted(edges, key=lambda edge: length[edge]))


def straight_tree(chance: random.Random, places: list[tuple[float, float]]) -> list[Edge]:
    """A random spanning tree whose straight links do not cross and pass through no spot."""
    while True:
        edges = [(a, b) for a in range(len(places)) for b in range(a + 1, len(places))]
        chance.shuffle(edges)
        tree = _tree(places, edges)
        if len(tree) == len(places) - 1:
            return tree


def _tree(places: list[tuple[float, float]], edges: list[Edge]) -> list[Edge]:
    """The edges, in this order, that join what is not joined yet and cross nothing."""
    group = list(range(len(places)))
    tree: list[Edge] = []
    for a, b in edges:
        joins = group[a] != group[b]
        if joins and not any(_cross(places, (a, b), other) for other in tree):
            tree.append((a, b))
            group = [group[a] if g == group[b] else g for g in group]
    return tree


def uniform_tree(chance: random.Random, count: int) -> list[Edge]:
    """A uniformly random labelled tree, from a random Pruefer sequence."""
    code = [chance.randrange(count) for _ in range(count - 2)]
    degree = [1 + code.count(v) for v in range(count)]
    leaves = [v for v in range(count) if degree[v] == 1]
    heapq.heapify(leaves)
    edges = []
    for v in code:
        edges.append((heapq.heappop(leaves), v))
        degree[v] -= 1
        if degree[v] == 1:
            heapq.heappush(leaves, v)
    return [*edges, (heapq.heappop(leaves), heapq.heappop(leaves))]


def _how_many(chance: random.Random, paper: str) -> int:
    return chance.randint(4, MOST_SPOTS[paper])


def _scatter(chance: random.Random, paper: str, count: int) -> list[tuple[float, float]]:
    radius, apart = Sizes.of(paper, 2).radius, APART[paper]
    places: list[tuple[float, float]] = []
    while len(places) < count:
        at = _anywhere(chance, frame(paper), radius)
        if all(math.dist(at, other) >= apart for other in places):
            places.append(at)
    return places


def _with_neighbour(
    chance: random.Random, paper: str, places: list[tuple[float, float]]
) -> list[tuple[float, float]]:
    """One more spot 8 to 26 mm from the first, as far from all others as ever."""
    box, radius = frame(paper), Sizes.of(paper, 2).radius
    while True:
        far, turn = chance.uniform(8, 26), chance.uniform(0, 2 * math.pi)
        x, y = places[0][0] + far * math.cos(turn), places[0][1] + far * math.sin(turn)
        inside = box.x + radius <= x <= box.right - radius
        inside &= box.y + radius <= y <= box.bottom - radius
        if inside and all(math.dist((x, y), other) >= APART[paper] for other in places[1:]):
            return [*places, (x, y)]
        if chance.random() < 0.02:
            places = _scatter(chance, paper, len(places))


def _anywhere(chance: random.Random, box: Box, radius: float) -> tuple[float, float]:
    return (
        round(chance.uniform(box.x + radius, box.right - radius), 2),
        round(chance.uniform(box.y + radius, box.bottom - radius), 2),
    )


def _case(name: str, paper: str, places: list[tuple[float, float]], edges: list[Edge]) -> Case:
    names = [chr(ord("a") + i) if len(places) < 27 else f"s{i}" for i in range(len(places))]
    spots = tuple((name, x, y) for name, (x, y) in zip(names, places, strict=True))
    return Case(name, paper, spots, tuple((names[a], names[b]) for a, b in edges))


def _cross(places: list[tuple[float, float]], one: Edge, other: Edge) -> bool:
    if set(one) & set(other):
        return False
    a, b, c, d = (places[k] for k in (*one, *other))
    return _side(a, b, c) * _side(a, b, d) <= 0 and _side(c, d, a) * _side(c, d, b) <= 0


def _side(a: tuple[float, float], b: tuple[float, float], p: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
