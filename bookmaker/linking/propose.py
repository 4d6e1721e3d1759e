"""Spots proposed from a picture: on the creature, out to its extremities, evenly, off its eyes.

The places are medoids of the creature's points (Kaufman and Rousseeuw 1990, Finding Groups in
Data, chapter 2): farthest points first (Gonzalez 1985, Theoretical Computer Science 38), then one
place exchanged for a better as long as there is one. What is made small is the mean square of the
ways from the creature's points to their nearest spot, which reaches for the extremities more than
the mean does, and what speaks against each place: detail under it, a limb's edge, too near another.
All of it is counted in whole numbers, so that any machine finds the same.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bookmaker.linking.paths import distances
from bookmaker.linking.scene import Scene

if TYPE_CHECKING:
    import numpy as np

MOST_CELLS = 260
"""Candidates are thinned to so many at most: the time of all ways grows with their cube."""
STARTS = 3
ROUNDS = 8
UNIT = 10
"""Whole numbers are tenths of a millimetre."""
EYE = 60_000
"""What a spot on an eye costs: as much as all ways longer by some 80 mm."""
PLAIN = 80
"""The most detail of a picture stands for an eye, if it is as much as this."""
EDGE = 9_000
"""What a spot whose middle is at the creature's very edge costs."""
CROWD = 4
"""What each tenth of a millimetre that two spots are too near costs, squared."""


@dataclass(frozen=True, slots=True)
class Room:
    """What a page has for a proposal, in millimetres.

    ``width`` and ``height`` are what the shown part of the picture measures in print, ``spot`` is
    a spot's radius, ``apart`` how far spots' middles should be from each other.
    """

    width: float
    height: float
    spot: float
    apart: float


def propose(scene: Scene, room: Room, count: int) -> tuple[tuple[float, float], ...]:
    """Places for ``count`` spots, in per cent of the whole picture; fewer where there is no more.

    From the head, where an eye shows, or from the top; the others by their way from there.
    """
    cells = _cells(scene, room)
    if len(cells.places) == 0:
        return ()
    ways = distances(cells.places, cells.side)
    against = _against(cells, room)
    crowd = _crowd(cells.places, round(room.apart * UNIT))
    table = _Table(ways.astype(float) ** 2, cells.weights.astype(float), against, crowd)
    count = min(count, len(cells.places))
    tries = [table.improved(start) for start in _starts(ways, cells, count)]
    chosen = min(tries, key=lambda each: (table.cost(each), each))
    return tuple(_per_cent(scene, cells, place) for place in _ordered(chosen, cells, ways))


@dataclass(frozen=True, slots=True)
class _Cells:
    """The creature in coarse cells, ``side`` tenths of a millimetre wide.

    For each its place (tenths of a millimetre; ``pixels`` in the scene's own), how many pixels
    stand for it, how many it would have to be deeper inside for a whole spot (``reach``) to lie on
    the creature, and the most detail under its spot.
    """

    side: int
    places: np.ndarray
    pixels: np.ndarray
    weights: np.ndarray
    shallow: np.ndarray
    detail: np.ndarray
    reach: int


def _cells(scene: Scene, room: Room) -> _Cells:
    import numpy as np

    figure = scene.rows(scene.figure)
    across = room.width * UNIT / scene.width
    down = room.height * UNIT / scene.height
    reach = max(round(room.spot * UNIT / across), 1)
    depth = _depth(figure, reach)
    detail = _widest(scene.rows(scene.detail) * figure, reach)
    side = 1
    while _filled(figure, side).sum() > MOST_CELLS:
        side += 1
    taken = _filled(figure, side).ravel()
    tiles = _tiled(depth, side)[taken]
    deepest = tiles == tiles.max(axis=1, keepdims=True)
    half = (deepest.sum(axis=1, keepdims=True) + 1) // 2
    at = (deepest.cumsum(axis=1) >= half).argmax(axis=1)  # the one in the middle of the deepest
    columns_of_tiles = -(-scene.width // side)
    tile = np.flatnonzero(taken)
    rows = tile // columns_of_tiles * side + at // side
    columns = tile % columns_of_tiles * side + at % side
    places = np.stack([(2 * columns + 1) * across / 2, (2 * rows + 1) * down / 2], axis=1)
    return _Cells(
        round(side * max(across, down)),
        places.round().astype(np.int32),
        np.stack([rows, columns], axis=1),
        _tiled(figure, side)[taken].sum(axis=1, dtype=np.int64),
        reach - depth[rows, columns],
        detail[rows, columns],
        reach,
    )


def _tiled(values: np.ndarray, side: int) -> np.ndarray:
    """The pixels of each square of ``side`` pixels in a row of its own; nought past the edges."""
    import numpy as np

    high, wide = values.shape
    padded = np.pad(values, ((0, -high % side), (0, -wide % side)))
    tiles = padded.reshape(padded.shape[0] // side, side, -1, side).swapaxes(1, 2)
    return tiles.reshape(-1, side * side)


def _filled(figure: np.ndarray, side: int) -> np.ndarray:
    """Which squares of pixels are the creature's for a third at least."""
    filled: np.ndarray = 3 * _tiled(figure, side).sum(axis=1, dtype="int64") >= side * side
    return filled


def _depth(figure: np.ndarray, most: int) -> np.ndarray:
    """How many pixels it is from each to what is not the creature, or the picture; to ``most``."""
    import numpy as np

    left = np.pad(figure, 1)
    depth = left.astype(np.int64)
    for step in range(1, most):
        left = _shrunk(left, diagonal=step % 2 == 0)
        depth += left
    return depth[1:-1, 1:-1]


def _shrunk(figure: np.ndarray, diagonal: bool) -> np.ndarray:
    """The figure less a rim of one pixel; by fours and by eights in turn it keeps round."""
    inner = figure.copy()
    inner[1:] &= figure[:-1]
    inner[:-1] &= figure[1:]
    inner[:, 1:] &= figure[:, :-1]
    inner[:, :-1] &= figure[:, 1:]
    if diagonal:
        inner[1:, 1:] &= figure[:-1, :-1]
        inner[:-1, :-1] &= figure[1:, 1:]
        inner[1:, :-1] &= figure[:-1, 1:]
        inner[:-1, 1:] &= figure[1:, :-1]
    return inner


def _widest(detail: np.ndarray, reach: int) -> np.ndarray:
    """The most of ``detail`` within ``reach`` pixels, in a disc."""
    import numpy as np

    high, wide = detail.shape
    padded = np.pad(detail, reach)
    most = np.zeros_like(detail)
    for down in range(-reach, reach + 1):
        half = int((reach * reach - down * down) ** 0.5)
        band = padded[reach + down : reach + down + high]
        for across in range(-half, half + 1):
            np.maximum(most, band[:, reach + across : reach + across + wide], out=most)
    return most.astype(np.int64)


def _against(cells: _Cells, room: Room) -> np.ndarray:
    """What speaks against each place on its own."""
    eye = EYE * cells.detail**2 // max(int(cells.detail.max()), PLAIN) ** 2
    against: np.ndarray = eye + EDGE * cells.shallow**2 // cells.reach**2
    return against


def _crowd(places: np.ndarray, apart: int) -> np.ndarray:
    """What it costs that two places are nearer than ``apart``."""
    import numpy as np

    x, y = places.T
    squares = (x[:, None] - x) ** 2 + (y[:, None] - y) ** 2
    straight = np.sqrt(squares).round().astype(np.int64)
    crowd: np.ndarray = CROWD * np.maximum(apart - straight, 0) ** 2
    return crowd


@dataclass(frozen=True, slots=True)
class _Table:
    """What a choice of places costs: ways (squared) by weight, and what speaks against them.

    Ways and weights are whole numbers as floats, whose sums stay below 2**53: they are exact in
    whatever order a machine adds them up.
    """

    squares: np.ndarray
    weights: np.ndarray
    against: np.ndarray
    crowd: np.ndarray

    def cost(self, chosen: tuple[int, ...]) -> int:
        at = list(chosen)
        ways = int((self.squares[at].min(axis=0) @ self.weights) // self.weights.sum())
        crowd = int(self.crowd[at][:, at].sum() - self.crowd[at, at].sum()) // 2
        return ways + int(self.against[at].sum()) // len(at) + crowd // len(at)

    def improved(self, chosen: tuple[int, ...]) -> tuple[int, ...]:
        """One place exchanged at a time for the best there is, until none is better."""
        for _ in range(ROUNDS):
            before = chosen
            for place in range(len(chosen)):
                chosen = self._exchanged(chosen, place)
            if chosen == before:
                break
        return tuple(sorted(chosen))

    def _exchanged(self, chosen: tuple[int, ...], place: int) -> tuple[int, ...]:
        import numpy as np

        others = [at for i, at in enumerate(chosen) if i != place]
        nearest = self.squares[others].min(axis=0) if others else self.squares.max(axis=0)
        ways = np.minimum(nearest, self.squares) @ self.weights // self.weights.sum()
        alone = (self.against + self.crowd[others].sum(axis=0)) // len(chosen)
        costs = ways + alone
        costs[others] = costs.max() + 1
        best = int(costs.argmin())
        if costs[best] >= costs[chosen[place]]:
            return chosen
        return (*chosen[:place], best, *chosen[place + 1 :])


def _starts(ways: np.ndarray, cells: _Cells, count: int) -> list[tuple[int, ...]]:
    """Farthest points from the creature's middle, from its farthest end, and from its top."""
    middle = int((ways.astype("int64") @ cells.weights).argmin())
    firsts = [middle, int(ways[middle].argmax()), 0][:STARTS]
    return [_farthest(ways, first, count) for first in firsts]


def _farthest(ways: np.ndarray, first: int, count: int) -> tuple[int, ...]:
    chosen = [first]
    while len(chosen) < count:
        left = ways[chosen].min(axis=0)
        chosen.append(int(left.argmax()))
    return tuple(chosen)


def _ordered(chosen: tuple[int, ...], cells: _Cells, ways: np.ndarray) -> list[int]:
    top = min(chosen, key=lambda at: (int(cells.places[at][1]), at))
    return sorted(chosen, key=lambda at: (int(ways[top][at]), at))


def _per_cent(scene: Scene, cells: _Cells, place: int) -> tuple[float, float]:
    row, column = cells.pixels[place].tolist()
    x = scene.trim.x + (column + 0.5) / scene.width * scene.trim.width
    y = scene.trim.y + (row + 0.5) / scene.height * scene.trim.height
    return round(100 * x, 1), round(100 * y, 1)
