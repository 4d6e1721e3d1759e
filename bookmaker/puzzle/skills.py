"""Skills: what a subtraction asks of a child, and how often a page asks it, over all solutions.

A subtraction is judged as it is written: 2/4 and 3/4 have one denominator, 0.5 and 0.50 differ in
their places. Columns are spoken of for whole numbers and decimals from nought up alone; fractions
have none, and so never cross a ten.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from typing import Literal

from bookmaker.cache import Cache
from bookmaker.model import Number
from bookmaker.puzzle.facts import facts_of
from bookmaker.puzzle.instance import Normalized, normalize
from bookmaker.puzzle.solutions import is_countable, up_to_symmetry
from bookmaker.puzzle.tree import Tree

Skill = Literal[
    "exchange",
    "exchange twice",
    "exchange over nought",
    "across a ten",
    "across a hundred",
    "across a thousand",
    "across a whole",
    "tens",
    "hundreds",
    "take ones",
    "take tens",
    "within 10",
    "within 20",
    "within 100",
    "within 1000",
    "decimals",
    "decimals of different places",
    "like denominators",
    "related denominators",
    "unlike denominators",
    "fraction from a whole",
    "across zero",
    "below zero",
]
"""- "exchange": at least one column of the written subtraction exchanges (borrows, regroups);
  "exchange twice": two columns or more do; "exchange over nought": a column that has nought to
  lend has to exchange first, as in 402 - 157.
- "across a ten": the ones exchange, as in 34 - 8; "across a hundred": the tens do, as in 120 - 50;
  "across a thousand": the hundreds do; "across a whole": the tenths do, as in 1.2 - 0.5.
- "tens": both numbers are tens, but not both hundreds (50 - 20); "hundreds": both are hundreds.
- "take ones": a number below ten from one that is not; "take tens": tens below a hundred from a
  number above ten that has ones.
- "within N": whole numbers, the larger at most N (and above the N before it).
- "decimals": one of the numbers at least is written as a decimal; "... of different places": they
  are written with different numbers of places (a whole number has none).
- "like denominators": both are written with one denominator; "related": one denominator is a
  multiple of the other; "unlike": neither is; "fraction from a whole": one of the two is whole.
- "across zero": from below nought to nought or more; "below zero": both are below.
"""


@dataclass(frozen=True)
class Span:
    """How many of a page's subtractions: at least, at most, and on average over its solutions."""

    least: int
    most: int
    mean: Fraction

    @property
    def is_certain(self) -> bool:
        """Whether every solution has as many."""
        return self.least == self.most


@dataclass(frozen=True)
class SkillCounts:
    """How often a page asks for each skill; those that no solution asks for are left out.

    ``over_all`` is False where solutions are beyond counting: then it is told of the certificate's
    solution alone. ``subtractions`` is the number of links.
    """

    spans: Mapping[Skill, Span]
    subtractions: int
    over_all: bool

    def __getitem__(self, skill: Skill) -> Span:
        return self.spans.get(skill, Span(0, 0, Fraction(0)))


def count_skills(
    tree: Tree,
    numbers: Sequence[Number],
    given: Mapping[int, Fraction],
    *,
    cache: Cache,
    seed: int = 0,
) -> SkillCounts:
    """How often a page's subtractions ask for each skill, counted over all of its solutions.

    ``numbers`` as they are printed. Raises Unsolvable, and ValueError where the numbers do not fit
    the tree.
    """
    normal = normalize(tree, [number.value for number in numbers], given)
    facts = facts_of(normal.instance, cache, seed)
    over_all = is_countable(normal.instance)
    solutions = up_to_symmetry(normal.instance) if over_all else iter([facts.solution])
    asked = _asked(normal, numbers)
    edges = normal.instance.tree.edges
    totals = [
        Counter(skill for a, b in edges for skill in asked[solution[a]][solution[b]])
        for solution in solutions  # those that symmetries make of one have the same subtractions
    ]
    return SkillCounts(_spans(totals), tree.n - 1, over_all)


def skills_together(pages: Iterable[SkillCounts]) -> SkillCounts:
    """What several pages ask for, each solved once: ranges and means add up."""
    every = list(pages)
    names = dict.fromkeys(skill for page in every for skill in page.spans)
    return SkillCounts(
        {
            skill: Span(
                sum(page[skill].least for page in every),
                sum(page[skill].most for page in every),
                sum((page[skill].mean for page in every), Fraction(0)),
            )
            for skill in names
        },
        sum(page.subtractions for page in every),
        all(page.over_all for page in every),
    )


def skills_of(one: Number, other: Number) -> frozenset[Skill]:
    """The skills that the larger of two numbers minus the smaller asks for, as they are written."""
    smaller, larger = sorted((one, other), key=lambda number: number.value)
    if smaller.value < 0:
        sign: Skill = "below zero" if larger.value < 0 else "across zero"
        kind = _of_fractions(larger, smaller) if _has_fraction(larger, smaller) else ()
        return frozenset((sign, *kind))
    if _has_fraction(larger, smaller):
        return frozenset(_of_fractions(larger, smaller))
    return frozenset(
        (*_of_columns(larger, smaller), *_of_whole(larger, smaller), *_of_decimals(larger, smaller))
    )


def exchanging_columns(larger: Number, smaller: Number) -> tuple[int, ...]:
    """The columns that exchange when the smaller is taken from the larger, digit under digit.

    0 for the ones, 1 for the tens, -1 for the tenths, and so on, from the right. Both from nought
    up, written whole or as decimals.
    """
    return tuple(column for column, _ in _exchanges(larger, smaller))


def _exchanges(larger: Number, smaller: Number) -> Iterator[tuple[int, bool]]:
    """Each column that exchanges, and whether the one that lends to it has nought itself."""
    places = max(larger.places, smaller.places)
    top, bottom = (int(number.value * 10**places) for number in (larger, smaller))
    column, lent = -places, 0
    while bottom or lent:
        exchanges = top % 10 - lent < bottom % 10
        if exchanges:
            yield column, top // 10 % 10 == 0
        top, bottom, lent = top // 10, bottom // 10, int(exchanges)
        column += 1


def _of_columns(larger: Number, smaller: Number) -> Iterator[Skill]:
    exchanges = list(_exchanges(larger, smaller))
    if exchanges:
        yield "exchange"
    if len(exchanges) > 1:
        yield "exchange twice"
    if any(over_nought for _, over_nought in exchanges):
        yield "exchange over nought"
    across: dict[int, Skill] = {
        -1: "across a whole",
        0: "across a ten",
        1: "across a hundred",
        2: "across a thousand",
    }
    yield from (across[column] for column, _ in exchanges if column in across)


def _of_whole(larger: Number, smaller: Number) -> Iterator[Skill]:
    top, bottom = larger.value, smaller.value
    if top.denominator > 1 or bottom.denominator > 1:
        return
    if top % 100 == bottom % 100 == 0 and bottom:
        yield "hundreds"
    elif top % 10 == bottom % 10 == 0 and bottom:
        yield "tens"
    elif bottom < 10 <= top:
        yield "take ones"
    elif bottom % 10 == 0 and 10 <= bottom < 100:
        yield "take tens"
    limits: tuple[tuple[int, Skill], ...] = (
        (10, "within 10"),
        (20, "within 20"),
        (100, "within 100"),
        (1000, "within 1000"),
    )
    yield from [skill for limit, skill in limits if top <= limit][:1]


def _of_decimals(larger: Number, smaller: Number) -> Iterator[Skill]:
    if larger.places or smaller.places:
        yield "decimals"
        if larger.places != smaller.places:
            yield "decimals of different places"


def _of_fractions(larger: Number, smaller: Number) -> Iterator[Skill]:
    one, other = (_denominator(number) for number in (larger, smaller))
    if 1 in (one, other):
        yield "fraction from a whole"
    elif one == other:
        yield "like denominators"
    elif one % other == 0 or other % one == 0:
        yield "related denominators"
    else:
        yield "unlike denominators"


def _has_fraction(larger: Number, smaller: Number) -> bool:
    return larger.is_fraction or smaller.is_fraction


def _denominator(number: Number) -> int:
    """The denominator as it is written: 4 of "2/4", 100 of "0.25", 1 of "3"."""
    if number.is_fraction:
        return int(number.text.partition("/")[2])
    return int(10**number.places)


def _asked(normal: Normalized, numbers: Sequence[Number]) -> list[list[frozenset[Skill]]]:
    """The skills of the numbers at two places, for all pairs of places."""
    written = {number.value: number for number in numbers}
    at = [written[value] for value in normal.numbers]
    asked = [[frozenset[Skill]()] * len(at) for _ in at]
    for x, y in combinations(range(len(at)), 2):
        asked[x][y] = asked[y][x] = skills_of(at[x], at[y])
    return asked


def _spans(totals: Sequence[Counter[Skill]]) -> dict[Skill, Span]:
    names = dict.fromkeys(skill for total in totals for skill in sorted(total))
    return {
        skill: Span(
            min(total[skill] for total in totals),
            max(total[skill] for total in totals),
            Fraction(sum(total[skill] for total in totals), len(totals)),
        )
        for skill in names
    }
