"""Spots and links in, the loops and the pieces of their graph out."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

Edge = tuple[str, str]


def loops(spots: Sequence[str], edges: Sequence[Edge]) -> list[tuple[int, tuple[str, ...]]]:
    """One loop for each edge that closes one, as ``(index of the edge, spots round it)``.

    The edges before it, but for those that closed a loop themselves, are a forest, so these loops
    are independent: there are as many as edges must be taken out. A loop starts and ends at its
    first spot in the order of ``spots`` and goes on to the earlier of that spot's two neighbours.
    """
    neighbours: dict[str, list[str]] = {spot: [] for spot in spots}
    order = {spot: place for place, spot in enumerate(spots)}
    found = []
    for index, (a, b) in enumerate(edges):
        way = _way(neighbours, a, b)
        if way:
            found.append((index, _turned(way, order)))
        else:
            neighbours[a].append(b)
            neighbours[b].append(a)
    return found


def pieces(spots: Sequence[str], edges: Iterable[Edge]) -> list[tuple[str, ...]]:
    """The connected pieces, each in the order of ``spots``, by their first spot."""
    neighbours: dict[str, list[str]] = {spot: [] for spot in spots}
    for a, b in edges:
        neighbours[a].append(b)
        neighbours[b].append(a)
    found, seen = [], set[str]()
    for spot in spots:
        if spot not in seen:
            reached = set(_reach(neighbours, spot))
            seen |= reached
            found.append(tuple(each for each in spots if each in reached))
    return found


def _reach(neighbours: dict[str, list[str]], start: str) -> dict[str, str]:
    """Every spot that can be reached from ``start``, with the spot before it on the way."""
    before = {start: start}
    waiting = [start]
    for spot in waiting:
        for other in neighbours[spot]:
            if other not in before:
                before[other] = spot
                waiting.append(other)
    return before


def _way(neighbours: dict[str, list[str]], start: str, end: str) -> list[str]:
    """The spots from ``start`` to ``end``; empty where there is no way."""
    before = _reach(neighbours, start)
    if end not in before:
        return []
    way = [end]
    while way[-1] != start:
        way.append(before[way[-1]])
    return way[::-1]


def _turned(way: list[str], order: dict[str, int]) -> tuple[str, ...]:
    first = min(range(len(way)), key=lambda place: order[way[place]])
    turned = way[first:] + way[:first]
    if order[turned[-1]] < order[turned[1]]:
        turned = [turned[0], *turned[:0:-1]]
    return (*turned, turned[0])
