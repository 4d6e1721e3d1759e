"""Links for many spots: ways from tree to tree, one link exchanged for another at each step.

Between a tree of short links and one with a hub, exchanges lead through trees that miss what is
wished by more. So ways begin at both ends, and at each from several trees.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

from bookmaker.linking.ground import Edge, Edges, Ground, Miss

ROUNDS = 100
"""Improvements, one after the other, that are looked for on one way."""
FINE = 1e-9


def improved(ground: Ground, miss: Miss) -> Iterator[tuple[Edges, float]]:
    """Trees and their costs, on the ways to such as no exchange of one link improves, each once."""
    seen: set[Edges] = set()
    for start in _starts(ground, miss):
        for tree, cost in _way_from(ground, start, miss):
            if tree in seen:
                break  # and so is what follows
            seen.add(tree)
            yield tree, cost


def _starts(ground: Ground, miss: Miss) -> list[Edges]:
    """The shortest tree and its like where it does what is wished; else the stars, the easiest
    trees there are; with those of two hubs, which are harder, where a star does not do it."""
    shortest = _shortest(ground)
    if miss(shortest) == 0:
        return [shortest, *_detours(ground)]
    spots = range(len(ground.spots))
    stars = [_star(ground, hub, hub) for hub in spots]
    if miss(stars[0]) == 0:
        return stars
    return [*stars, *(_star(ground, *hubs) for hubs in combinations(spots, 2))]


def _way_from(ground: Ground, here: Edges, miss: Miss) -> Iterator[tuple[Edges, float]]:
    """Trees each of which misses by less than the one before, or costs less."""
    rank = (miss(here), ground.cost(here))
    for _ in range(ROUNDS):
        yield here, rank[1]
        for cost, out, new in sorted(_exchanges(ground, here)):
            if rank[0] == 0 and cost >= rank[1] - FINE:
                return  # so that few shapes are asked for
            there = tuple(sorted({*here, ground.edges[new]} - {ground.edges[out]}))
            missed = miss(there)
            if (missed, cost) < (rank[0], rank[1] - FINE):
                here, rank = there, (missed, cost)
                break
        else:
            return


def _shortest(ground: Ground) -> Edges:
    """It has no crossings."""
    return _kruskal(ground, sorted(ground.edges, key=ground.distance), [0] * len(ground.edges))


def _detours(ground: Ground) -> Iterator[Edges]:
    """The tree of cheap links that do not cross, and what it is without each of these in turn."""
    whole = _kruskal(ground, ground.edges, ground.crossed)
    for avoided in (None, *whole):
        left = [edge for edge in ground.edges if edge != avoided]
        tree = _kruskal(ground, left, ground.crossed)
        if len(tree) == len(ground.spots) - 1:
            yield tree


def _kruskal(ground: Ground, edges: Iterable[Edge], crossed: Sequence[int]) -> Edges:
    """Each of ``edges`` that joins what is not joined and is not ``crossed`` by one before it."""
    piece_of = list(range(len(ground.spots)))
    taken, barred = [], 0
    for edge in edges:
        one, other = (piece_of[end] for end in edge)
        number = ground.number[edge]
        if one != other and not barred >> number & 1:
            piece_of = [one if piece == other else piece for piece in piece_of]
            taken.append(edge)
            barred |= crossed[number]
    return tuple(sorted(taken))


def _star(ground: Ground, hub: int, other: int) -> Edges:
    """Each spot linked to the nearer of two hubs, which may be one; no links cross."""
    links = [(hub, other)] if hub != other else []
    for spot in range(len(ground.spots)):
        if spot not in (hub, other):
            near = min(hub, other, key=lambda end: math.dist(ground.spots[spot], ground.spots[end]))
            links.append((near, spot))
    return tuple(sorted((min(link), max(link)) for link in links))


def _exchanges(ground: Ground, tree: Edges) -> Iterator[tuple[float, int, int]]:
    """What the tree would cost with one link out and another in, these by their numbers."""
    taken = [ground.number[edge] for edge in tree]
    cost = ground.cost(tree)
    for out in taken:
        rest = [i for i in taken if i != out]
        left = cost - ground.lengths[out] - sum(ground.sharp[out][j] for j in rest)
        side = _side([ground.edges[i] for i in rest], ground.edges[out][0])
        crossed = 0
        for i in rest:
            crossed |= ground.crossed[i]
        for i, (a, b) in enumerate(ground.edges):
            if (a in side) != (b in side) and i != out and not crossed >> i & 1:
                sharp = ground.sharp[i]
                yield left + ground.lengths[i] + sum(sharp[j] for j in rest), out, i


def _side(edges: Sequence[Edge], start: int) -> set[int]:
    """The spots to which ``edges`` lead from ``start``."""
    side, waiting = {start}, [start]
    while waiting:
        here = waiting.pop()
        for a, b in edges:
            other = b if a == here else a if b == here else None
            if other is not None and other not in side:
                side.add(other)
                waiting.append(other)
    return side
