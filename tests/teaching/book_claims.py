"""When each sentence about a whole book is true: how to mark, what is practised."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from itertools import combinations, pairwise

import networkx as nx

from bookmaker.curricula import CURRICULA
from bookmaker.model import (
    GRADES,
    CertifiedPage,
    Number,
    OrderedBook,
    Said,
)
from tests.teaching import school
from tests.teaching.known import (
    About,
    Predicate,
    edges,
    gaps,
    joined,
    num,
    nums,
    one,
    shown,
    solutions,
    step,
    values,
)
from tests.teaching.page_claims import crossing
from tests.teaching.random_books import Solution
from tests.teaching.school import holds, is_above, is_below


def _many(said: Said, about: About) -> bool:
    counts = [
        len(solutions(page)) for page in about.book.pages if page.certificate.solutions is not None
    ]
    return said.count == len(solutions(one(said))) == max(counts)


def _mirror(said: Said, about: About) -> bool:
    page, both = one(said), num(said, "sum")
    mirror = tuple(nums(said.values["mirror"]))
    return (
        tuple(nums(said.values["solution"])) == shown(page)
        and mirror == tuple(both - x for x in shown(page))
        and mirror in solutions(page)
    )


def _ends(said: Said, about: About) -> bool:
    page = said.values["page"]
    assert isinstance(page, CertifiedPage)
    low, high = num(said, "a"), num(said, "b")
    pairs = [pair for pair in combinations(values(page), 2) if pair[1] - pair[0] == high - low]
    even = [each for each in about.book.pages if step(each)]
    return (
        pairs == [(low, high)]
        and {each.id for each in said.pages} == {each.id for each in even}
        and all(
            frozenset((min(values(each)), max(values(each)))) in joined(each, solution)
            for each in even
            for solution in solutions(each)
        )
    )


def _sum(said: Said, about: About) -> bool:
    page = said.values["page"]
    assert isinstance(page, CertifiedPage)
    n = len(page.spots)
    for each in said.pages:
        count, by = len(each.spots), step(each)
        assert by is not None
        total = Fraction(count * (count - 1), 2) * by
        if any(sum(gaps(each, solution)) != total for solution in solutions(each)):
            return False
    return (
        said.count == n
        and said.values["before"] == n - 1
        and num(said, "step") == step(page)
        and all(sum(gaps(page, solution)) == num(said, "total") for solution in solutions(page))
    )


def zigzags(page: CertifiedPage, solution: Solution) -> bool:
    """Whether numbers go up and down in turn along a longest path, and each link's difference is
    smaller than those of the links before it, where all spots lie on that path or next to it."""
    graph = nx.Graph(list(edges(page)))
    paths = dict(nx.all_pairs_shortest_path(graph))
    longest = max(len(path) for ends in paths.values() for path in ends.values())
    every = [p for ends in paths.values() for p in ends.values() if len(p) == longest]
    return any(_zigzags_along(graph, path, solution) for path in every)


def _zigzags_along(graph: nx.Graph[int], path: list[int], solution: Solution) -> bool:
    least: Fraction | None = None
    up = solution[path[1]] > solution[path[0]]
    seen = set(path)
    for here, there in pairwise(path):
        aside = [w for w in graph[here] if w not in path]
        seen |= set(aside)
        for w in (*aside, there):
            if (solution[w] > solution[here]) != up:
                return False
        beside = [abs(solution[w] - solution[here]) for w in aside]
        onward = abs(solution[there] - solution[here])
        if least is not None and max([onward, *beside]) >= least:
            return False
        if beside and min(beside) <= onward:
            return False
        least, up = onward, not up
    return len(seen) == len(graph)


def _zigzag(said: Said, about: About) -> bool:
    page = said.values["page"]
    assert isinstance(page, CertifiedPage)
    arranged = tuple(nums(said.values["solution"]))
    can = {each.id for each in about.book.pages if any(map(_along(each), solutions(each)))}
    return (
        arranged in solutions(page)
        and zigzags(page, arranged)
        and said.values["all"] == len(about.book.pages)
        and said.count == len(can)
        and {each.id for each in said.pages} == can
    )


def _along(page: CertifiedPage) -> Callable[[Solution], bool]:
    return lambda solution: zigzags(page, solution)


def _times(said: Said, about: About) -> bool:
    """How often a difference occurs when every page of the book is solved once."""
    expected = occurs(about.book)[num(said, "difference")]
    assert said.count is not None
    return abs(said.count - expected) <= Fraction(1, 2)


def occurs(book: OrderedBook) -> Mapping[Fraction, Fraction]:
    times: dict[Fraction, Fraction] = {}
    for page in book.pages:
        known = solutions(page)
        for solution in known:
            for gap in gaps(page, solution):
                times[gap] = times.get(gap, Fraction(0)) + Fraction(1, len(known))
    return times


def _common(said: Said, about: About) -> bool:
    """No difference that is left out is as common; without "about", the figures are exact."""
    told, expected = said.values["differences"], occurs(about.book)
    assert isinstance(told, tuple)
    named = {num(each, "difference"): each.count for each in told}
    least = min(expected[gap] for gap in named)
    exact = all(expected[gap] == count for gap, count in named.items())
    return all(times < least for gap, times in expected.items() if gap not in named) and (
        exact or said.key.endswith("about")
    )


def _sums(said: Said, about: About) -> bool:
    every = [x for page in about.book.pages for x in values(page)]
    links = sum(len(page.links) for page in about.book.pages)
    return said.count == links and num(said, "largest") == max(every)


def _crossing(said: Said, about: About) -> bool:
    expected = sum((crossing(page) for page in about.book.pages), Fraction(0))
    assert said.count is not None
    return expected > 0 and abs(said.count - expected) < 1


def _standard(said: Said, about: About) -> bool:
    """Quoted words, and ranges told in ours, are true of every page that is named."""
    says = said.values["says"]
    whole = len(said.pages) == len(about.book.pages)
    quoted = not isinstance(says, str) or all(holds(says, page.numbers) for page in said.pages)
    return (
        quoted
        and (whole or said.key != "practice.standard")
        and said.values.get("all", len(about.book.pages)) == len(about.book.pages)
        and said.count in (None, len(said.pages))
        and said.values.get("pages", said.pages) == said.pages
    )


def _range_of(fits: Callable[[Said, CertifiedPage], bool]) -> Predicate:
    return lambda said, about: all(fits(said, page) for page in said.pages)


def _places(said: Said, page: CertifiedPage) -> bool:
    assert said.count is not None
    return school.decimals(page.numbers, said.count)


def _step(said: Said, about: About) -> bool:
    """From this week on the graded pages have numbers that begin so, until the next step."""
    week = said.values["week"]
    rows = [row for row in about.told.plan if row.week == week and row.page.graded]
    told = [num(said, each) for each in "abc"]
    return all([x.value for x in row.page.numbers][:3] == told for row in rows)


def _grows(said: Said, about: About) -> bool:
    steps = said.values["steps"]
    assert isinstance(steps, tuple)
    weeks = [each.values["week"] for each in steps]
    return _grade(said, about) and weeks == sorted(set(weeks))


def _grade(said: Said, about: About) -> bool:
    """The grade as teachers write it where the curriculum holds."""
    names = CURRICULA[about.book.curriculum].grades
    return said.values["grade"] == names.get(GRADES.index(about.book.grade), about.book.grade)


def _below(said: Said, about: About) -> bool:
    lies = (about.book.grade, about.book.curriculum)
    return _grade(said, about) and all(is_below(p.numbers, *lies) for p in about.book.pages)


def _above(said: Said, about: About) -> bool:
    lies = (about.book.grade, about.book.curriculum)
    above = {page.id for page in about.book.pages if is_above(page.numbers, *lies)}
    return (
        _grade(said, about)
        and {page.id for page in said.pages} == above
        and said.count in (None, len(above))
        and said.values.get("pages", said.pages) == said.pages
        and said.values.get("all", len(about.book.pages)) == len(about.book.pages)
    )


def _suggest(said: Said, about: About) -> bool:
    """Suggested numbers suit the grade on every page of the book."""
    pairs, lies = said.values["numbers"], (about.book.grade, about.book.curriculum)
    assert isinstance(pairs, tuple)
    for pair in pairs:
        start, by = num(pair, "start"), num(pair, "step")
        decimal = "." in pair.values["start"].text
        for page in about.book.pages:
            run = [start + i * by for i in range(len(page.spots))]
            text = [str(float(x)) if decimal and x % 1 else str(x) for x in run]
            numbers = tuple(map(Number.parse, text))
            if is_above(numbers, *lies) or is_below(numbers, *lies):
                return False
    return True


def _pair(said: Said, about: About) -> bool:
    return num(said, "step") > 0


ABOUT_BOOKS: dict[str, Predicate] = {
    "marking.many": _many,
    "marking.mirror": _mirror,
    "marking.ends": _ends,
    "marking.sum": _sum,
    "marking.zigzag": _zigzag,
    "practice.sums": _sums,
    "practice.crossing": _crossing,
    "practice.common": _common,
    "practice.common-about": _common,
    "practice.times": _times,
    "practice.step": _step,
    "practice.grows": _grows,
    "range.whole": _range_of(lambda said, page: school.whole(page.numbers)),
    "range.whole-to": _range_of(lambda s, page: school.whole(page.numbers, int(num(s, "limit")))),
    "range.decimal": _range_of(_places),
    "range.like-fractions": _range_of(lambda said, page: school.alike(page.numbers)),
    "range.related-fractions": _range_of(lambda said, page: school.related(page.numbers)),
    "range.unlike-fractions": _range_of(lambda said, page: school.fractions(page.numbers)),
    "range.negative": _range_of(lambda said, page: school.negative(page.numbers)),
    "range.across-zero": _range_of(lambda said, page: school.across(page.numbers)),
    "practice.standard": _standard,
    "practice.standard-on": _standard,
    "practice.standard-of": _standard,
    "practice.below": _below,
    "practice.above": _above,
    "practice.above-on": _above,
    "practice.suggest": _suggest,
    "practice.pair": _pair,
}
