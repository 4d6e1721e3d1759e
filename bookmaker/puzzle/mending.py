"""Mending a wrong answer: which numbers to change so that it solves the page, as few as can be.

For 0, 1, 2, ... changes in turn every choice of spots is looked at: the other numbers stay, and
the numbers left over go into the chosen spots in every way that brings about no difference twice.
What is found first is therefore proved to be the fewest, unless the steps ran out before.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

from bookmaker.puzzle.board import Board
from bookmaker.puzzle.finding import Unsolvable, find
from bookmaker.puzzle.instance import normalize
from bookmaker.puzzle.tree import Tree

STEPS = 200_000
"""Choices of spots and numbers tried, after which the fewest changes are not known: a second."""

FEW_TRIES = 20
"""Fresh starts of the search for any solution at all: a moment's work."""


@dataclass(frozen=True)
class Mend:
    """The number that goes into each vertex that has to change; ``proved``: no fewer will do."""

    changes: tuple[tuple[int, Fraction], ...]
    proved: bool


def fewest_changes(
    tree: Tree,
    numbers: Sequence[Fraction],
    given: Mapping[int, Fraction],
    answer: Mapping[int, Fraction],
    steps: int = STEPS,
) -> Mend | None:
    """The changes that make ``answer``, a number at each vertex, a solution of the page.

    Given numbers go back to where they were given. A number may stand twice in the answer, or be
    none of the page's. None where no solution was found, or where there is none.
    """
    search = _Mending(tree, numbers, given, answer, steps)
    try:
        for count in range(len(search.movable) + 1):
            for spots in combinations(search.movable, count):
                found = search.filled(spots)
                if found is not None:
                    return Mend(_changes(found, answer), proved=True)
    except _OutOfSteps:
        return _some_mend(tree, numbers, given, answer)
    return None


class _OutOfSteps(Exception):
    """Raised by a search that has spent its steps."""


class _Mending:
    """One answer being mended; vertices and places are those of the page's normal form.

    ``movable`` are the vertices whose number may stay or go, those in conflicts first.
    """

    def __init__(
        self,
        tree: Tree,
        numbers: Sequence[Fraction],
        given: Mapping[int, Fraction],
        answer: Mapping[int, Fraction],
        steps: int,
    ) -> None:
        self._normal = normalize(tree, numbers, {})
        self._board = Board(self._normal.instance)
        self._steps = steps
        place = {number: i for i, number in enumerate(self._normal.numbers)}
        order = self._normal.order
        self._fixed = {v: place[given[w]] for v, w in enumerate(order) if w in given}
        self._stands = {
            v: place[answer[w]]
            for v, w in enumerate(order)
            if v not in self._fixed and answer[w] in place
        }
        self._must_move = [
            v for v in range(tree.n) if v not in self._fixed and v not in self._stands
        ]
        self._conflicts = list(self._find_conflicts())
        together = 0
        for mask in self._conflicts:
            together |= mask
        self.movable = sorted(self._stands, key=lambda v: (not together >> v & 1, v))

    def filled(self, spots: Sequence[int]) -> tuple[Fraction, ...] | None:
        """A solution in which only the numbers at ``spots`` are others than in the answer."""
        self._spend()
        chosen = sum(1 << v for v in spots)
        if any(not mask & chosen for mask in self._conflicts):
            return None
        kept = {v: x for v, x in self._stands.items() if not chosen >> v & 1} | self._fixed
        board = self._board
        used = 0
        for v, x in kept.items():
            after = board.after(v, x, board.kinds, used)
            assert after is not None, "conflicts are all that can stand in the way"
            used = after
            board.put(((v, x),))
        free = [*self._must_move, *spots]
        left = [x for x, where in enumerate(board.where) if where < 0]
        found = self._fill(free, left, used)
        result = self._normal.denormalize(tuple(board.at)) if found else None
        board.take([(v, x) for v, x in enumerate(board.at) if x >= 0])
        return result

    def _fill(self, free: Sequence[int], left: Sequence[int], used: int) -> bool:
        """Put the places ``left`` at the vertices ``free``; leaves them there if that goes."""
        if not free:
            return True
        v, *others = free
        for x in left:
            self._spend()
            after = self._board.after(v, x, self._board.kinds, used)
            if after is None:
                continue
            self._board.put(((v, x),))
            if self._fill(others, [y for y in left if y != x], after):
                return True
            self._board.take(((v, x),))
        return False

    def _find_conflicts(self) -> Iterator[int]:
        """Bit masks of vertices of which one at least has to change its number."""
        at = {**self._stands, **self._fixed}
        for v, w in combinations(at, 2):
            if at[v] == at[w]:
                yield self._movable_among((v, w))
        links = [edge for edge in self._normal.instance.tree.edges if set(edge) <= set(at)]
        difference = self._board.difference
        for one, other in combinations(links, 2):
            gap = difference[at[one[0]]][at[one[1]]]
            if gap and gap == difference[at[other[0]]][at[other[1]]]:
                yield self._movable_among((*one, *other))

    def _movable_among(self, vertices: Sequence[int]) -> int:
        return sum(1 << v for v in set(vertices) if v in self._stands)

    def _spend(self) -> None:
        self._steps -= 1
        if self._steps < 0:
            raise _OutOfSteps


def _some_mend(
    tree: Tree,
    numbers: Sequence[Fraction],
    given: Mapping[int, Fraction],
    answer: Mapping[int, Fraction],
) -> Mend | None:
    """Some changes that mend, keeping what is at no clash if that goes; not proved the fewest."""
    differences = [abs(answer[a] - answer[b]) for a, b in tree.edges]
    repeated = {d for d in differences if differences.count(d) > 1}
    linked = zip(tree.edges, differences, strict=True)
    leave = {v for edge, d in linked if d in repeated for v in edge}
    values = list(answer.values())
    kept = {
        v: x
        for v, x in answer.items()
        if v not in leave and x in numbers and values.count(x) == 1 and x not in given.values()
    }
    for hold in ({**kept, **given}, dict(given)):
        normal = normalize(tree, numbers, hold)
        try:
            found = find(normal.instance, seed=0, tries=FEW_TRIES)
        except Unsolvable:
            continue
        return Mend(_changes(normal.denormalize(found), answer), proved=False)
    return None


def _changes(
    solution: Sequence[Fraction], answer: Mapping[int, Fraction]
) -> tuple[tuple[int, Fraction], ...]:
    return tuple((v, x) for v, x in enumerate(solution) if answer[v] != x)
