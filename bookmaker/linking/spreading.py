"""A tree drawn without crossings, its vertices spread evenly over the page.

Forces as in a spring embedder (Eades 1984; told from memory): vertices push each other and the
links that pass near them away, links pull their ends to one length; and no step is taken that
makes links cross.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from bookmaker.linking.ground import Edge, meet, way_from
from bookmaker.model import Point

WIDE, HIGH = 100.0, 120.0
"""The page that is spread over, in units of its own: an upright one."""
ROUNDS: Final = 150
STEP: Final = 0.35
"""How far a vertex goes in the first round, in ideal distances; less in each that follows."""


def spread(points: Sequence[Point], edges: Sequence[Edge], edge: float) -> tuple[Point, ...]:
    """``points`` in per cent, moved apart; ``edge`` per cent stay free at the page's edges.

    Links that do not cross do not cross afterwards. The same points always give the same.
    """
    drawing = _Drawing([(x * WIDE / 100, y * HIGH / 100) for x, y in points], edges, edge)
    for done in range(ROUNDS):
        drawing.relax(STEP * (1 - done / ROUNDS))
    return tuple((x * 100 / WIDE, y * 100 / HIGH) for x, y in drawing.at)


class _Drawing:
    def __init__(self, at: list[Point], edges: Sequence[Edge], edge: float) -> None:
        self.at, self.edges = at, list(edges)
        self.near: list[list[int]] = [[] for _ in at]
        for a, b in edges:
            self.near[a].append(b)
            self.near[b].append(a)
        self.low = (edge * WIDE / 100, edge * HIGH / 100)
        self.high = (WIDE - self.low[0], HIGH - self.low[1])
        area = (self.high[0] - self.low[0]) * (self.high[1] - self.low[1])
        self.ideal = math.sqrt(area / len(at))

    def relax(self, step: float) -> None:
        for vertex in range(len(self.at)):
            x, y = self._force(vertex)
            size = math.hypot(x, y)
            if size < 1e-9:
                continue
            for part in (1.0, 0.5, 0.25):
                reach = min(size, 1.0) * step * part * self.ideal / size
                place = self._on_page(
                    self.at[vertex][0] + x * reach, self.at[vertex][1] + y * reach
                )
                if not self._would_cross(vertex, place):
                    self.at[vertex] = place
                    break

    def _on_page(self, x: float, y: float) -> Point:
        (left, top), (right, bottom) = self.low, self.high
        return (min(max(x, left), right), min(max(y, top), bottom))

    def _force(self, vertex: int) -> Point:
        here = self.at[vertex]
        x = y = 0.0
        for other, there in enumerate(self.at):
            if other == vertex:
                continue
            dx, dy = here[0] - there[0], here[1] - there[1]
            far = max(math.hypot(dx, dy), 1e-6) / self.ideal
            push = max(0.0, 1.3 - far) / far
            if other in self.near[vertex]:
                push += 1.0 - far
            x, y = x + push * dx / self.ideal, y + push * dy / self.ideal
        for a, b in self.edges:
            if vertex not in (a, b):
                dx, dy = way_from(here, self.at[a], self.at[b])
                far = max(math.hypot(dx, dy), 1e-6) / self.ideal
                push = max(0.0, 0.6 - far) / far
                x, y = x + push * dx / self.ideal, y + push * dy / self.ideal
        return (x, y)

    def _would_cross(self, vertex: int, place: Point) -> bool:
        for end in self.near[vertex]:
            for a, b in self.edges:
                if vertex in (a, b) or end in (a, b):
                    continue
                if meet(place, self.at[end], self.at[a], self.at[b]):
                    return True
        return False
