"""Building: the subtractions of a pupil who makes the differences from the largest down.

He takes the largest difference, of all that two of the numbers have, that is not there yet and that
he has not left out. He puts it where it fits: a number beside one that stands, if that goes
anywhere, else two numbers at the ends of a link that is still empty; every fitting place alike
likely. It fits where it brings about no difference that is there already or is larger than it.
Where it fits nowhere he leaves it out if enough smaller ones are left for the links without a
difference (in a progression never), and else is at a dead end: he rubs out all but the given
numbers and begins again. He is done when every link has its difference.

Each difference that comes about is a subtraction written, those that are rubbed out again included;
those between two given numbers are written once and stand. So his work is

    (subtractions between given numbers)
    + (subtractions to expect of one attempt) / (chance that an attempt succeeds).

On some pages with given numbers or a list he would never succeed like this. There he takes
liberties: every fitting place, beside a number or on an empty link, is alike likely, and so is
leaving the difference out, if enough are left. That succeeds wherever there is a solution.
"""

from __future__ import annotations

from math import inf, sqrt
from random import Random

from bookmaker.model import Estimate
from bookmaker.puzzle.board import EMPTY, Board, Move, Placement
from bookmaker.puzzle.instance import Arrangement, Instance
from bookmaker.puzzle.tree import settled

MOST_STATES = 5_000
"""Half-filled pages, alike ones counted once, up to which all are looked at: about 0.1 s."""

MOST_STEPS = 100_000
"""Differences looked at, in all attempts together, after which an estimate is what it is."""

ENOUGH = 0.03
"""The standard error, as a part of the estimate, at which attempts may stop."""


def expected_building(instance: Instance, seed: int) -> Estimate:
    """The building pupil's work on an instance that has a solution.

    Exact where at most ``MOST_STATES`` half-filled pages can come about, else estimated from
    ``seed``. Where no attempt succeeded, it is "at least", with an error as large as itself.
    """
    for takes_liberties in (False, True):
        builder = _Builder(instance, takes_liberties)
        work = builder.exact() or builder.simulated(seed)
        if work.error < work.mean:  # some attempt succeeded
            break
    return Estimate(builder.written.bit_count() + work.mean, work.error)


class _Builder:
    """A pupil who builds, on one instance; ``written`` are the differences between given numbers.

    Differences are spoken of as on a ``Board``.
    """

    def __init__(self, instance: Instance, takes_liberties: bool) -> None:
        self._instance = instance
        self._takes_liberties = takes_liberties
        self._board = Board(instance)
        self._links = instance.tree.n - 1
        written = self._board.give(instance.given)
        assert written is not None, "given numbers that clash have no solution"
        self.written = written

    def exact(self) -> Estimate | None:
        """Subtractions until solved, from all half-filled pages; None where they are too many.

        Pages that a symmetry or the mirror carries into each other are as likely to be solved, and
        stand as one. Infinite, with an infinite error, where no attempt succeeds.
        """
        board = self._board
        pages = {tuple(board.at): (1.0, self.written)}
        subtractions = solved = 0.0
        states = 0
        for d in range(board.kinds, -1, -1):
            after: dict[Arrangement, tuple[float, int]] = {}
            for at, (chance, used) in pages.items():
                if used.bit_count() == self._links:
                    solved += chance
                    continue
                states += 1
                if states > MOST_STATES:
                    return None
                moves = self._fill(at, d, used)
                for filled, now_used in moves:
                    share = chance / len(moves)
                    subtractions += share * (now_used.bit_count() - used.bit_count())
                    before, _ = after.get(filled, (0.0, 0))
                    after[filled] = before + share, now_used
            pages = after
        return Estimate(subtractions / solved, 0.0) if solved else Estimate(inf, inf)

    def simulated(self, seed: int) -> Estimate:
        """Subtractions until solved, from attempts drawn at random: a ratio of two means."""
        random = Random(seed)
        steps = attempts = solved = written = written_solving = squares = 0
        mean, error = 0.0, inf
        while steps < MOST_STEPS and error > ENOUGH * mean:
            subtractions, succeeded, looked_at = self._attempt(random)
            attempts += 1
            steps += looked_at
            written += subtractions
            squares += subtractions**2
            if succeeded:
                solved += 1
                written_solving += subtractions
            if solved and attempts % 100 == 0:
                mean, error = _ratio(written, solved, written_solving, squares)
        if not solved:
            return Estimate(float(written), float(written))
        return Estimate(*_ratio(written, solved, written_solving, squares))

    def _attempt(self, random: Random) -> tuple[int, bool, int]:
        """Subtractions of one attempt, whether it succeeded, and differences looked at."""
        board = self._board
        used = self.written
        put: list[Placement] = []
        d = board.kinds
        while d and used.bit_count() < self._links:
            moves = self._moves(d, used)
            if not moves:
                break
            placements, used = random.choice(moves)
            board.put(placements)
            put += placements
            d -= 1
        board.take(put)
        new = used.bit_count() - self.written.bit_count()
        return new, used.bit_count() == self._links, board.kinds - d + 1

    def _fill(self, at: Arrangement, d: int, used: int) -> list[tuple[Arrangement, int]]:
        """The pages that come of ``at`` with difference ``d`` made, or left out."""
        board = self._board
        fresh = [
            (v, x) for v, x in enumerate(at) if x != EMPTY and v not in self._instance.given_at
        ]
        board.put(fresh)
        pages = []
        for placements, now_used in self._moves(d, used):
            board.put(placements)
            pages.append((self._canonical(board.at) if placements else at, now_used))
            board.take(placements)
        board.take(fresh)
        return pages

    def _moves(self, d: int, used: int) -> list[Move]:
        """What the pupil may do about difference ``d``; nothing at a dead end."""
        if used >> d & 1:
            return [((), used)]
        moves = list(self._board.beside(d, used))
        if not moves or self._takes_liberties:
            moves += self._board.on_empty_links(d, used)
        if (not moves or self._takes_liberties) and self._may_leave_out(d, used):
            moves.append(((), used))
        return moves

    def _may_leave_out(self, d: int, used: int) -> bool:
        """Whether enough smaller differences than ``d`` are left for the links without one."""
        smaller = used & ((1 << d) - 1)
        return d - 1 - smaller.bit_count() >= self._links - used.bit_count()

    def _canonical(self, at: list[int]) -> Arrangement:
        """The one image of a half-filled page under the symmetries and the mirror."""
        inner_first = self._instance.symmetry.alike[::-1]
        image = settled(at, inner_first)
        mirror = self._instance.mirror
        if mirror is None:
            return image
        mirrored = [EMPTY] * len(at)
        for v, to in enumerate(mirror):
            if at[v] != EMPTY:
                mirrored[to] = len(at) - 1 - at[v]
        return min(image, settled(mirrored, inner_first))


def _ratio(written: int, solved: int, written_solving: int, squares: int) -> tuple[float, float]:
    """Subtractions for each success, and the standard error, to first order.

    ``squares`` sums the squares of the subtractions of each attempt; ``written_solving`` are
    those of attempts that succeeded.
    """
    mean = written / solved
    spread = squares - 2 * mean * written_solving + mean**2 * solved
    return mean, sqrt(spread) / solved
