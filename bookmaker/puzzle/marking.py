"""Marking a pupil's arrangement: by its clashes, since a right answer may differ from the key."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import combinations

from bookmaker.puzzle.finding import Unsolvable, find
from bookmaker.puzzle.instance import normalize
from bookmaker.puzzle.mending import FEW_TRIES, Mend, fewest_changes
from bookmaker.puzzle.tree import Edge, Tree


@dataclass(frozen=True)
class Clash:
    """Links, by their place in the tree's edges, that all have one ``difference``."""

    difference: Fraction
    links: tuple[int, ...]


@dataclass(frozen=True)
class Miscalculation:
    """A difference that the pupil worked out wrongly: what he wrote, and what it is."""

    link: int
    written: Fraction
    right: Fraction


@dataclass(frozen=True)
class Marking:
    """Everything there is to say of an arrangement.

    ``right``: every spot has its number and there is no clash. ``empty`` are spots without a
    number; ``missing`` numbers that were not used; ``repeated`` numbers with the spots they stand
    at; ``foreign`` spots whose number is none of the page's; ``moved`` spots whose given number
    was changed. ``swaps`` are all the pairs of spots whose numbers, exchanged, make a solution.
    ``mends_at_clashes``: whether moving only the numbers at the ends of clashing links can make a
    solution; None where that can't be said (the arrangement is right, or not one at all, or no
    solution was found in reasonable time). ``mend``: the fewest numbers to change so that it is
    right, given numbers put back and repeated ones replaced; None where it is right already, has
    empty spots, or no solution was found.
    """

    clashes: tuple[Clash, ...]
    empty: tuple[int, ...]
    missing: tuple[Fraction, ...]
    repeated: tuple[tuple[Fraction, tuple[int, ...]], ...]
    foreign: tuple[int, ...]
    moved: tuple[int, ...]
    miscalculations: tuple[Miscalculation, ...]
    swaps: tuple[Edge, ...] = ()
    mends_at_clashes: bool | None = None
    mend: Mend | None = None

    @property
    def is_arrangement(self) -> bool:
        """Whether every number of the page stands in one spot, the given ones where they were."""
        return not (self.empty or self.missing or self.repeated or self.foreign or self.moved)

    @property
    def right(self) -> bool:
        return self.is_arrangement and not self.clashes

    @property
    def swap(self) -> Edge | None:
        """The first swap that mends the arrangement."""
        return self.swaps[0] if self.swaps else None


def mark(
    tree: Tree,
    numbers: Sequence[Fraction],
    given: Mapping[int, Fraction],
    answer: Mapping[int, Fraction],
    differences: Mapping[int, Fraction] | None = None,
) -> Marking:
    """Mark ``answer``, the pupil's number at each vertex; given numbers may be left out of it.

    ``differences`` are those the pupil wrote, by the link's place in ``tree.edges``. Raises
    ValueError where the page itself is unsound: numbers that do not fit the tree.
    """
    answer = {**given, **answer}
    spots_of: dict[Fraction, list[int]] = defaultdict(list)
    for v, number in sorted(answer.items()):
        spots_of[number].append(v)
    found = Marking(
        clashes=_clashes(tree, answer),
        empty=tuple(v for v in range(tree.n) if v not in answer),
        missing=tuple(number for number in sorted(numbers) if number not in spots_of),
        repeated=tuple((x, tuple(vs)) for x, vs in sorted(spots_of.items()) if len(vs) > 1),
        foreign=tuple(v for v, number in sorted(answer.items()) if number not in numbers),
        moved=tuple(v for v, number in sorted(given.items()) if answer[v] != number),
        miscalculations=_miscalculations(tree, answer, differences or {}),
    )
    if found.right or found.empty:
        return found
    found = replace(found, mend=fewest_changes(tree, numbers, given, answer))
    if not found.is_arrangement:
        return found
    return replace(
        found,
        swaps=_mending_swaps(tree, given, answer),
        mends_at_clashes=_mends_at_clashes(tree, numbers, given, answer, found.clashes),
    )


def _clashes(tree: Tree, answer: Mapping[int, Fraction]) -> tuple[Clash, ...]:
    """Clashes among the links whose two ends have numbers, by their difference."""
    links_with: dict[Fraction, list[int]] = defaultdict(list)
    for link, (a, b) in enumerate(tree.edges):
        if a in answer and b in answer:
            links_with[abs(answer[a] - answer[b])].append(link)
    return tuple(
        Clash(difference, tuple(links))
        for difference, links in sorted(links_with.items())
        if len(links) > 1
    )


def _miscalculations(
    tree: Tree, answer: Mapping[int, Fraction], differences: Mapping[int, Fraction]
) -> tuple[Miscalculation, ...]:
    wrong = []
    for link, written in sorted(differences.items()):
        a, b = tree.edges[link]
        if a in answer and b in answer:
            right = abs(answer[a] - answer[b])
            if written != right:
                wrong.append(Miscalculation(link, written, right))
    return tuple(wrong)


def _mending_swaps(
    tree: Tree, given: Mapping[int, Fraction], answer: Mapping[int, Fraction]
) -> tuple[Edge, ...]:
    """Pairs of free spots whose numbers, exchanged, make a solution."""
    free = [v for v in range(tree.n) if v not in given]
    return tuple(
        (a, b)
        for a, b in combinations(free, 2)
        if not _clashes(tree, {**answer, a: answer[b], b: answer[a]})
    )


def _mends_at_clashes(
    tree: Tree,
    numbers: Sequence[Fraction],
    given: Mapping[int, Fraction],
    answer: Mapping[int, Fraction],
    clashes: tuple[Clash, ...],
) -> bool | None:
    """Whether a solution keeps every number that is given or not at a clash."""
    at_clashes = {v for clash in clashes for link in clash.links for v in tree.edges[link]}
    kept = {v: number for v, number in answer.items() if v in given or v not in at_clashes}
    try:
        find(normalize(tree, numbers, kept).instance, seed=0, tries=FEW_TRIES)
    except Unsolvable as verdict:
        return False if verdict.proved else None
    return True
