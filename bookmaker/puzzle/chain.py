"""Work, exactly: the pupil's walk over all arrangements of m numbers on m free spots, solved.

Let x be the expected subtractions still to come, for every arrangement. A solution has x = 0; any
other has x = c + P x, where P holds the chances of the pupil's swaps and c the expected cost of the
next one. Arrangements that a symmetry or the mirror carries into each other have equal x, so that
one unknown stands for all of them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache, cached_property

import numpy as np
from numpy.typing import NDArray

from bookmaker.puzzle.instance import Instance
from bookmaker.puzzle.pupils import Floats, Ints, Pupils, pairs

TOLERANCE = 1e-11
"""What may be left over, against the right side, where a linear system counts as solved."""

MOST_STEPS = 400


def exact_trying(instance: Instance) -> float:
    """Expected subtractions of an instance with 2 to 8 free vertices that has a solution.

    Raises ArithmeticError where the system can't be solved, as it could not if some arrangement
    led to no solution by the pupil's swaps. No such page is known.
    """
    walk = _arrangements(len(instance.free))
    first_of_orbit = _orbits(instance, walk)
    is_first = first_of_orbit == np.arange(walk.count)
    unknown = (np.cumsum(is_first) - 1)[first_of_orbit]
    leads_to = unknown[walk.swaps[:, is_first]]
    pupils = Pupils(instance)
    chosen = pupils.chances(pupils.clashes(pupils.arranged(walk.rows[is_first])))
    chances = np.array([chosen[i] + chosen[j] for i, j in pairs(range(len(chosen)))])
    chances /= len(chosen) - 1
    cost = np.array([float(pupils.costs[a, b]) for a, b in pairs(instance.free)]) @ chances
    ahead = np.empty_like(chances)

    def less_what_is_ahead(x: Floats) -> Floats:
        np.take(x, leads_to, out=ahead, mode="clip")  # unlike the default, goes without a buffer
        left: Floats = x - np.einsum("sa,sa->a", chances, ahead)
        return left

    to_come = solve(less_what_is_ahead, cost)
    return instance.tree.n - 1 + float(np.mean(to_come[unknown]))


class _Arrangements:
    """All arrangements of m things, a row each, numbered in lexicographic order.

    In this order the mirror image of the i-th arrangement is the i-th from the end. A number is
    looked up by the arrangement's digits in base m but the last, which follows from the others.
    """

    def __init__(self, rows: Ints) -> None:
        self.rows = rows
        self.count, m = rows.shape
        self._columns = np.ascontiguousarray(rows.T)
        self._weights = [m ** (m - 2 - i) for i in range(m - 1)] + [0]
        self._number = np.empty(m ** (m - 1), dtype=np.int32)
        self._number[self._digits(range(m))] = np.arange(self.count)

    def image(self, comes_from: Sequence[int]) -> Ints:
        """The number of each arrangement after its things have been moved between the columns."""
        return self._number[self._digits(comes_from)].astype(np.int64)

    @cached_property
    def swaps(self) -> NDArray[np.int32]:
        """Where each swap leads: a row for each pair of columns, a column for each arrangement."""
        digits = self._digits(range(len(self._columns)))
        columns = pairs(range(len(self._columns)))
        swaps = np.empty((len(columns), self.count), dtype=np.int32)
        for s, (i, j) in enumerate(columns):
            change = self._weights[i] - self._weights[j]
            swaps[s] = self._number[digits + (self._columns[j] - self._columns[i]) * change]
        return swaps

    def _digits(self, comes_from: Sequence[int]) -> Ints:
        digits: Ints = np.zeros(self.count, dtype=np.int64)
        for source, weight in zip(comes_from, self._weights, strict=True):
            digits += self._columns[source] * weight
        return digits


@cache
def _arrangements(m: int) -> _Arrangements:
    rows: Ints = np.zeros((1, 1), dtype=np.int64)
    for k in range(2, m + 1):
        rows = np.vstack(
            [np.insert(rows + (rows >= first), 0, first, axis=1) for first in range(k)]
        )
    return _Arrangements(rows)


def _orbits(instance: Instance, walk: _Arrangements) -> Ints:
    """For each arrangement, the first of those that a symmetry or the mirror carries it to."""
    column = {v: i for i, v in enumerate(instance.free)}
    images = []
    for exchange in instance.symmetry.exchanges:
        comes_from = list(range(len(column)))
        for a, b in exchange:
            comes_from[column[a]], comes_from[column[b]] = column[b], column[a]
        images.append(walk.image(comes_from))
    if instance.mirror is not None:
        moves_to = [column[instance.mirror[v]] for v in instance.free]
        comes_from = [moves_to.index(i) for i in range(len(column))]
        images.append(walk.image(comes_from)[::-1])
    orbit = np.arange(walk.count)
    while True:
        before = orbit
        for image in images:
            orbit = np.minimum(orbit, orbit[image])
        if np.array_equal(orbit, before):
            return orbit


def solve(operator: Callable[[Floats], Floats], right: Floats) -> Floats:
    """The x with ``operator(x) == right``, by stabilised biconjugate gradients.

    (Van der Vorst 1992, SIAM J. Sci. Stat. Comput. 13; the names are his.) Raises ArithmeticError
    where ``MOST_STEPS`` are not enough.
    """
    x = np.zeros_like(right)
    r = p = right
    enough = TOLERANCE**2 * _dot(right, right)
    rho = _dot(right, r)
    for _ in range(MOST_STEPS):
        if _dot(r, r) <= enough:
            return x
        v = operator(p)
        alpha = rho / _dot(right, v)
        s = r - alpha * v
        t = operator(s)
        omega = _dot(t, s) / (_dot(t, t) or 1.0)  # s is 0 where half a step was enough
        x = x + alpha * p + omega * s
        r = s - omega * t
        rho, before = _dot(right, r), rho
        if rho:
            p = r + rho / before * alpha / omega * (p - omega * v)
    raise ArithmeticError("the expected work did not settle")


def _dot(a: Floats, b: Floats) -> float:
    """The inner product; einsum, since BLAS starts threads that cost more than they bring."""
    return float(np.einsum("i,i->", a, b))
