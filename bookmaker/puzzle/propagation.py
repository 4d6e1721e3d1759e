"""One solution by constraint propagation: for large pages on which many numbers are given.

Each vertex has a domain, the places of the numbers that can still stand there. Domains shrink until
nothing more follows: a number stands at one vertex only, and must stand somewhere; a link whose
difference is in use elsewhere is closed to it; where every difference is needed, one that a single
link can still make is made there. Then the vertex with the fewest choices is tried, in random
order, with fresh starts after more and more failures (Luby, Sinclair and Zuckerman 1993, Inf.
Process. Lett. 47, on restarts; domains and propagation as in Mackworth 1977, Artif. Intell. 8).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random

from bookmaker.puzzle.board import Board, Placement
from bookmaker.puzzle.instance import Arrangement, Instance

FIRST_FAILURES = 30
"""Dead ends of the first try; each try after it may have a quarter more."""

GROWTH = 1.25

MOST_FAILURES = 4_000
"""Dead ends of all tries together after which the search gives up."""


class OutOfFailures(Exception):
    """Raised by a search that has met all the dead ends it may."""


def propagating(
    instance: Instance, random: Random, most_failures: int = MOST_FAILURES
) -> Arrangement | None:
    """A solution, or None where all possibilities were ruled out.

    Raises OutOfFailures where neither was found within ``most_failures`` dead ends.
    """
    allowed, left = float(FIRST_FAILURES), most_failures
    while left > 0:
        search = _Propagation(instance, random, min(int(allowed), left))
        try:
            return search.solution()
        except OutOfFailures:
            left -= int(allowed)
            allowed *= GROWTH
    raise OutOfFailures


class _Propagation:
    """One try. Domains and sets of differences are bit masks; differences go by their rank."""

    def __init__(self, instance: Instance, random: Random, failures: int) -> None:
        board = Board(instance)
        tree = instance.tree
        self._edges = tree.edges
        self._difference = board.difference
        self._kinds = board.kinds
        self._needs_all = board.kinds == tree.n - 1
        self._all = (1 << tree.n) - 1
        self._partners = [
            [sum(1 << y for y in range(tree.n) if row[y] == d) for d in range(board.kinds + 1)]
            for row in board.difference
        ]
        self._domains = [self._all] * tree.n
        for v, place in instance.given:
            self._domains[v] = 1 << place
        self._degrees = tree.degrees
        self._random = random
        self._failures = failures

    def solution(self) -> Arrangement | None:
        """Search on from the given numbers; raises OutOfFailures."""
        found = self._search(self._domains)
        if found is None:
            return None
        return tuple(domain.bit_length() - 1 for domain in found)

    def _search(self, domains: list[int]) -> list[int] | None:
        domains = domains[:]
        if not self._shrink(domains):
            self._failures -= 1
            if self._failures < 0:
                raise OutOfFailures
            return None
        choices = self._choices(domains)
        if not choices:
            return domains
        self._random.shuffle(choices)
        for choice in choices:
            tried = domains[:]
            for v, place in choice:
                tried[v] &= 1 << place
            found = self._search(tried)
            if found is not None:
                return found
        return None

    def _choices(self, domains: list[int]) -> list[list[Placement]]:
        """The fewest possibilities of which one must hold; none where every vertex is settled.

        They are the numbers of a vertex or, in a progression, the ways to make a difference.
        """
        open_vertices = [v for v, domain in enumerate(domains) if domain & (domain - 1)]
        if not open_vertices:
            return []
        v = min(
            open_vertices,
            key=lambda w: (domains[w].bit_count(), -self._degrees[w], self._random.random()),
        )
        fewest = [[(v, place)] for place in _bits(domains[v])]
        if self._needs_all:
            used = self._used(domains) or 0
            for d in range(self._kinds, 0, -1):
                if len(fewest) > 2 and not used >> d & 1:
                    ways = self._ways(domains, d, len(fewest))
                    if len(ways) < len(fewest):
                        fewest = ways
        return fewest

    def _ways(self, domains: list[int], d: int, most: int) -> list[list[Placement]]:
        """Ways to make difference ``d``; ``most`` of them where there are more."""
        ways: list[list[Placement]] = []
        for a, b in self._edges:
            x, y = domains[a], domains[b]
            if x & (x - 1) or y & (y - 1):
                ways += [[(a, low), (b, low + d)] for low in _bits(x & (y >> d))]
                ways += [[(b, low), (a, low + d)] for low in _bits(y & (x >> d))]
                if len(ways) >= most:
                    break
        return ways

    def _shrink(self, domains: list[int]) -> bool:
        """Take from ``domains`` all that can be ruled out; False where one is left with nothing."""
        while True:
            before = domains[:]
            if not self._each_number_once(domains):
                return False
            used = self._used(domains)
            if used is None or not self._links_agree(domains, used):
                return False
            if self._needs_all and not self._each_difference_somewhere(domains):
                return False
            if domains == before:
                return True

    def _each_number_once(self, domains: list[int]) -> bool:
        """Take settled numbers from the other domains."""
        settled = 0
        for domain in domains:
            if not domain & (domain - 1):
                if not domain or settled & domain:
                    return False
                settled |= domain
        for v, domain in enumerate(domains):
            if domain & (domain - 1):
                domains[v] &= ~settled
        return self._each_number_somewhere(domains)

    def _each_number_somewhere(self, domains: list[int]) -> bool:
        """Settle the vertex that alone can still take a number."""
        once = twice = 0
        for domain in domains:
            twice |= once & domain
            once |= domain
        if once != self._all:
            return False
        alone = once & ~twice
        for v, domain in enumerate(domains):
            here = domain & alone
            if here & (here - 1):
                return False
            if here:
                domains[v] = here
        return all(domains)

    def _used(self, domains: Sequence[int]) -> int | None:
        """The differences of links whose ends are settled, None where one comes twice."""
        used = 0
        for a, b in self._edges:
            x, y = domains[a], domains[b]
            if not x & (x - 1) and not y & (y - 1):
                bit = 1 << self._difference[x.bit_length() - 1][y.bit_length() - 1]
                if used & bit:
                    return None
                used |= bit
        return used

    def _links_agree(self, domains: list[int], used: int) -> bool:
        """Whether each number at an open link's end has one for the other end; others are taken."""
        taken = list(_bits(used))
        fitting = [self._all & ~(1 << x) for x in range(len(domains))]
        for x, partners in enumerate(self._partners):
            for d in taken:
                fitting[x] &= ~partners[d]
        for a, b in self._edges:
            x, y = domains[a], domains[b]
            if x & (x - 1) or y & (y - 1):
                for v, w in ((a, b), (b, a)):
                    other = domains[w]
                    reached = 0
                    for place in _bits(domains[v]):
                        if not fitting[place] & other:
                            domains[v] ^= 1 << place
                        else:
                            reached |= fitting[place]
                    domains[w] &= reached
                    if not domains[v] or not domains[w]:
                        return False
        return True

    def _each_difference_somewhere(self, domains: list[int]) -> bool:
        """In a progression each difference occurs: where one link can still make it, it does."""
        used = self._used(domains)  # anew: domains have shrunk since
        if used is None:
            return False
        open_links = [
            (a, b)
            for a, b in self._edges
            if domains[a] & (domains[a] - 1) or domains[b] & (domains[b] - 1)
        ]
        for d in range(1, self._kinds + 1):
            if used >> d & 1:
                continue
            makers = [
                (a, b)
                for a, b in open_links
                if (domains[a] >> d) & domains[b] or (domains[b] >> d) & domains[a]
            ]
            if not makers:
                return False
            if len(makers) == 1:
                a, b = makers[0]
                x, y = domains[a], domains[b]
                domains[a] = x & (y << d | y >> d)
                domains[b] = y & (x << d | x >> d)
        return True


def _bits(mask: int) -> Iterator[int]:
    """The numbers of the bits that are set, ascending."""
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low
