"""Seating all tags at once: the least sum of distances from the middles, exactly.

Tags that could touch each other form groups; each group is solved by branch and bound over its
seats, nearest to the middle first.
"""

from __future__ import annotations

from collections import Counter

import numpy as np
from numpy.typing import NDArray

from bookmaker.layout.tree.geometry import Array, Flags, box_distances
from bookmaker.layout.tree.sizes import EASE, Sizes

TRIES = 4000
"""How many partial seatings of a group are looked at; the best so far then has to do."""


def seat_all(
    centres: Array, off: Array, free: Flags, sizes: Sizes
) -> tuple[NDArray[np.intp] | None, Counter[int]]:
    """A seat for each of L tags out of T: centres (L, T, 2), distances ``off`` and which are free.

    Returns the seats' indices, or None and the tags that stand in each other's way.
    """
    order = np.where(free, off, np.inf).argsort(axis=1, kind="stable")
    chosen = order[:, 0].copy()
    links = np.arange(len(free))
    touching = _touching(centres[links, chosen], sizes)
    if not touching.any():
        return chosen, Counter()
    could_touch = _could_touch(centres, free, sizes)
    for group in _groups(could_touch):
        if not touching[np.ix_(group, group)].any():
            continue
        found = _Group(group, centres, off, free, order, sizes).solve()
        if found is None:
            return None, Counter(dict.fromkeys(group, 1))
        chosen[group] = found
    return chosen, Counter()


def _touching(at: Array, sizes: Sizes) -> Flags:
    """(L, L) whether tags with these centres are too near each other."""
    size = (sizes.tag_width, sizes.tag_height)
    near = box_distances(at[:, None], at[None], size) < sizes.tag_gap + EASE
    np.fill_diagonal(near, False)
    return near


def _could_touch(centres: Array, free: Flags, sizes: Sizes) -> Flags:
    """(L, L) whether any free seats of two tags come near each other (by bounding boxes)."""
    low = np.where(free[..., None], centres, np.inf).min(axis=1)
    high = np.where(free[..., None], centres, -np.inf).max(axis=1)
    size = np.array([sizes.tag_width, sizes.tag_height]) + sizes.tag_gap + EASE
    near: Flags = ((low[:, None] <= high[None] + size) & (high[:, None] >= low[None] - size)).all(
        axis=2
    )
    return near


def _groups(joined: Flags) -> list[list[int]]:
    """The connected groups of more than one."""
    groups, left = [], set(range(len(joined)))
    while left:
        group, front = set(), {min(left)}
        while front:
            group |= front
            front = {int(k) for i in front for k in np.nonzero(joined[i])[0]} - group
        left -= group
        if len(group) > 1:
            groups.append(sorted(group))
    return groups


class _Group:
    """Branch and bound over the seats of one group of tags, the one with fewest seats first."""

    def __init__(
        self,
        group: list[int],
        centres: Array,
        off: Array,
        free: Flags,
        order: NDArray[np.intp],
        sizes: Sizes,
    ) -> None:
        self.group = group
        self.turn = sorted(range(len(group)), key=lambda i: int(free[group[i]].sum()))
        self.seats = [[int(seat) for seat in order[link] if free[link, seat]] for link in group]
        self.off = [[float(off[link, seat]) for seat in range(off.shape[1])] for link in group]
        size = (sizes.tag_width, sizes.tag_height)
        at = centres[group]
        apart = box_distances(at[:, :, None, None], at[None, None], size)
        self.apart = (apart >= sizes.tag_gap + EASE).tolist()
        self.least = [self.off[i][self.seats[i][0]] for i in self.turn]
        self.best: list[int] | None = None
        self.best_cost = float("inf")
        self.left = TRIES

    def solve(self) -> list[int] | None:
        self._place(0, [], 0.0)
        if self.best is None:
            return None
        found = dict(zip(self.turn, self.best, strict=True))
        return [found[i] for i in range(len(self.group))]

    def _place(self, depth: int, seated: list[int], cost: float) -> None:
        if depth == len(self.turn):
            self.best, self.best_cost = list(seated), cost
            return
        tag = self.turn[depth]
        rest = sum(self.least[depth + 1 :])
        for seat in self.seats[tag]:
            self.left -= 1
            if cost + self.off[tag][seat] + rest >= self.best_cost or self.left < 0:
                return
            if all(
                self.apart[tag][seat][other][taken]
                for other, taken in zip(self.turn, seated, strict=False)
            ):
                seated.append(seat)
                self._place(depth + 1, seated, cost + self.off[tag][seat])
                seated.pop()
