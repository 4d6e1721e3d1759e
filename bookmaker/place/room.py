"""Where there is room for one more spot."""

from __future__ import annotations

import math

from bookmaker.place.bench import OnBench, art_box, wanted_places

STEPS = 24
"""The picture is looked over in so many steps each way."""


def free_place(on: OnBench) -> tuple[float, float]:
    """The place nearest the picture's middle with good room about it, in per cent.

    Where nothing has good room, the place that has most.
    """
    x, y, wide, high = art_box(on)
    window = on.puzzle.art.window if on.puzzle.art else on.puzzle.frame
    inner = window.grown(-(2 * _reach(on)))
    taken = [(px, py) for _, px, py in wanted_places(on)]
    good = 6 * _reach(on)

    def loss(at: tuple[float, float]) -> float:
        room = min((math.dist(at, other) for other in taken), default=good)
        return 4 * max(good - room, 0.0) + math.dist(at, window.middle)

    places = [
        (inner.x + inner.width * i / STEPS, inner.y + inner.height * j / STEPS)
        for i in range(STEPS + 1)
        for j in range(STEPS + 1)
    ]
    best = min(places, key=loss)
    return (best[0] - x) / wide * 100, (best[1] - y) / high * 100


def _reach(on: OnBench) -> float:
    return (on.puzzle.tree.spots[0].radius if on.puzzle.tree.spots else 10.0) / 2
