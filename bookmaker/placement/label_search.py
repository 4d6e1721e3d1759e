"""Seating all tags at once: the least sum of distances from the middles, exactly.

Tags that could touch each other form groups; each group is solved by branch and bound over its
seats, nearest to the middle first.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray

from bookmaker.placement.geometry import Array, Flags, box_distances
from bookmaker.placement.sizes import Sizes

TRIES = 2000
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
    near = box_distances(at[:, None], at[None], size) < sizes.tag_gap
    np.fill_diagonal(near, False)
    return near


def _could_touch(centres: Array, free: Flags, sizes: Sizes) -> Flags:
    """(L, L) whether any free seats of two tags come near each other (by bounding boxes)."""
    low = np.where(free[..., None], centres, np.inf).min(axis=1)
    high = np.where(free[..., None], centres, -np.inf).max(axis=1)
    size = np.array([sizes.tag_width, sizes.tag_height]) + sizes.tag_gap
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
    """Branch and bound with forward checking over the seats of one group of tags.

    Sets of seats are integers, one bit a seat, the nearest to the middle lowest.
    """

    def __init__(
        self,
        group: list[int],
        centres: Array,
        off: Array,
        free: Flags,
        order: NDArray[np.intp],
        sizes: Sizes,
    ) -> None:
        self.order = order[group]
        rows = np.array(group)[:, None]
        self.off = off[rows, self.order].tolist()
        self.free = _bits(free[rows, self.order])
        at = centres[rows, self.order]
        size = (sizes.tag_width, sizes.tag_height)
        apart = box_distances(at[:, :, None, None], at[None, None], size)
        self.beside = _bits(apart >= sizes.tag_gap)
        self.best: list[int] | None = None
        self.best_cost = float("inf")
        self.left = TRIES

    def solve(self) -> list[int] | None:
        self._descend(self.free, {})
        if self.best is None:
            return None
        return [int(self.order[tag, seat]) for tag, seat in enumerate(self.best)]

    def _descend(self, open_seats: list[int], taken: dict[int, int]) -> None:
        self.left -= 1
        if not all(open_seats):
            return
        firsts = [(seats & -seats).bit_length() - 1 for seats in open_seats]
        cost = sum(self.off[tag][seat] for tag, seat in enumerate(firsts))
        if cost >= self.best_cost:
            return
        touching = [tag for tag in self._touching(firsts) if tag not in taken]
        if not touching:
            self.best, self.best_cost = firsts, cost
            return
        tag = min(touching, key=lambda k: (open_seats[k].bit_count(), k))
        for seat in _members(open_seats[tag]):
            dearer = cost + self.off[tag][seat] - self.off[tag][firsts[tag]]
            if dearer >= self.best_cost or self.left <= 0:
                return
            narrowed = [
                1 << seat if other == tag else seats & self.beside[tag][seat][other]
                for other, seats in enumerate(open_seats)
            ]
            self._descend(narrowed, {**taken, tag: seat})

    def _touching(self, seats: list[int]) -> list[int]:
        """The tags that touch another in these seats."""
        touching = set()
        for tag, seat in enumerate(seats):
            for other in range(tag):
                if not self.beside[tag][seat][other] >> seats[other] & 1:
                    touching |= {tag, other}
        return sorted(touching)


def _bits(flags: Flags) -> Any:
    """Nested lists of integers: the last axis of ``flags`` as the bits of one, the first lowest."""
    if flags.ndim > 1:
        return [_bits(part) for part in flags]
    return int.from_bytes(np.packbits(flags, bitorder="little").tobytes(), "little")


def _members(seats: int) -> Iterator[int]:
    """The places of the bits that are set, lowest first."""
    while seats:
        yield (seats & -seats).bit_length() - 1
        seats &= seats - 1
