"""What is practised: which subtractions occur in a page's solutions, and how often."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from bookmaker.cache import Cache
from bookmaker.puzzle.facts import facts_of
from bookmaker.puzzle.instance import Instance, normalize
from bookmaker.puzzle.survey import Table
from bookmaker.puzzle.tree import Tree


@dataclass(frozen=True, order=True)
class Subtraction:
    """``larger - smaller``, that occurs ``times`` on average when each page is solved once."""

    larger: Fraction
    smaller: Fraction
    times: Fraction

    @property
    def difference(self) -> Fraction:
        return self.larger - self.smaller

    @property
    def crosses_ten(self) -> bool:
        return crosses_ten(self.larger, self.smaller)


@dataclass(frozen=True)
class Practice:
    """The subtractions of one page or of several, by their numbers.

    ``exact`` where every solution was counted; else a page's own solution speaks for all.
    """

    subtractions: tuple[Subtraction, ...]
    exact: bool = True

    @property
    def times(self) -> Fraction:
        """Subtractions altogether: one for each link."""
        return sum((each.times for each in self.subtractions), Fraction(0))

    @property
    def times_crossing(self) -> Fraction:
        """Those among them that cross a ten."""
        return sum((each.times for each in self.subtractions if each.crosses_ten), Fraction(0))

    @property
    def differences(self) -> dict[Fraction, Fraction]:
        """How often each difference occurs, ascending."""
        times: dict[Fraction, Fraction] = defaultdict(Fraction)
        for each in self.subtractions:
            times[each.difference] += each.times
        return dict(sorted(times.items()))

    @property
    def largest(self) -> Fraction:
        """The largest number met. Raises ValueError where nothing is practised."""
        return max(each.larger for each in self.subtractions)


def practice(
    tree: Tree,
    numbers: Sequence[Fraction],
    given: Mapping[int, Fraction],
    *,
    cache: Cache,
    seed: int = 0,
) -> Practice:
    """What a page practises, all its solutions being equally likely.

    Where they are beyond counting, what its certificate's solution (of ``seed``) does. Raises
    Unsolvable, and ValueError where the numbers do not fit the tree.
    """
    normal = normalize(tree, numbers, given)
    facts = facts_of(normal.instance, cache, seed)
    known = facts.survey
    linked = known.linked if known else _links_of(normal.instance, facts.solution)
    solutions = known.solutions if known else 1
    return Practice(
        tuple(
            Subtraction(normal.numbers[y], normal.numbers[x], Fraction(linked[x][y], solutions))
            for y in range(tree.n)
            for x in range(y)
            if linked[x][y]
        ),
        known is not None,
    )


def practice_together(pages: Iterable[Practice]) -> Practice:
    """What several pages practise, each solved once."""
    times: dict[tuple[Fraction, Fraction], Fraction] = defaultdict(Fraction)
    exact = True
    for page in pages:
        exact = exact and page.exact
        for each in page.subtractions:
            times[each.larger, each.smaller] += each.times
    together = tuple(Subtraction(*pair, count) for pair, count in sorted(times.items()))
    return Practice(together, exact)


def crosses_ten(larger: Fraction, smaller: Fraction) -> bool:
    """Whether ``larger - smaller`` crosses a ten: 34 - 8 does, 38 - 4 and 134 - 62 do not.

    Of whole numbers alone: the ones of the larger are fewer. Neither decimals nor fractions cross
    a ten where they are borrowed from a whole.
    """
    if smaller < 0 or not (_is_whole(larger, 0) and _is_whole(smaller, 0)):
        return False
    return larger % 10 < smaller % 10


def exchanges(larger: Fraction, smaller: Fraction) -> bool:
    """Whether a column of ``larger - smaller`` exchanges: 34 - 8, 134 - 62 and 1.2 - 0.5 do.

    Never where a number is no decimal or below nought.
    """
    places = next((k for k in range(13) if _is_whole(larger, k) and _is_whole(smaller, k)), None)
    if places is None or smaller < 0:
        return False
    from_digits, take_digits = int(larger * 10**places), int(smaller * 10**places)
    while take_digits:
        if from_digits % 10 < take_digits % 10:
            return True
        from_digits, take_digits = from_digits // 10, take_digits // 10
    return False


def _is_whole(number: Fraction, places: int) -> bool:
    return int(10**places) % number.denominator == 0


def _links_of(instance: Instance, solution: Sequence[int]) -> Table:
    """1 for each pair of places x < y whose numbers are linked in the one solution."""
    linked = [[0] * instance.tree.n for _ in solution]
    for a, b in instance.tree.edges:
        x, y = sorted((solution[a], solution[b]))
        linked[x][y] = 1
    return tuple(map(tuple, linked))
