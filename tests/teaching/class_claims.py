"""When each answer to a question for the class, or to a misconception, is true."""

from __future__ import annotations

from itertools import combinations, pairwise

from bookmaker.model import (
    CertifiedPage,
    Said,
)
from tests.teaching.known import (
    About,
    Predicate,
    at,
    degree,
    differences,
    edges,
    gaps,
    given,
    joined,
    num,
    nums,
    one,
    orbits,
    shown,
    solutions,
    spot,
    stands,
    step,
    turn,
    values,
)


def _largest_answer(said: Said, about: About) -> bool:
    page, gap = one(said), num(said, "difference")
    makes = [pair for pair in combinations(values(page), 2) if pair[1] - pair[0] == gap]
    every = {b - a for a, b in combinations(values(page), 2)}
    return (
        makes == [(num(said, "a"), num(said, "b"))]
        and gap == max(every)
        and said.count == len(every) == len(page.links)
        and all(gap in gaps(page, solution) for solution in solutions(page))
    )


def _odd(said: Said, about: About) -> bool:
    odd = said.key == "ask.odd.answer"
    page = one(said)
    return all(x.denominator == 1 and x % 2 == odd for x in values(page)) and all(
        gap % 2 == 0 for solution in solutions(page) for gap in gaps(page, solution)
    )


def _multiples(said: Said, about: About) -> bool:
    page, by = one(said), num(said, "step")
    return step(page) == by and all(
        gap % by == 0 for solution in solutions(page) for gap in gaps(page, solution)
    )


def _place(said: Said, about: About) -> bool:
    """Only these stand there, and the reason told keeps out all others."""
    page, where = one(said), spot(said)
    kept_out = set(values(page)) - set(nums(said.values["numbers"]))
    return (
        set(nums(said.values["numbers"])) == stands(page, where)
        and said.count == degree(page, where)
        and bool(kept_out)
        and all(differences(x, page) < degree(page, where) for x in kept_out)
    )


def _barred_asked(said: Said, about: About) -> bool:
    return len(set(values(one(said))) - stands(one(said), spot(said))) == 1


def _barred(said: Said, about: About) -> bool:
    page, where, number = one(said), spot(said), num(said, "number")
    return (
        set(values(page)) - stands(page, where) == {number}
        and said.count == degree(page, where)
        and differences(number, page) < degree(page, where)
    )


def _total(said: Said, about: About) -> bool:
    page, told = one(said), nums(said.values["numbers"])
    possible = {b - a for a, b in combinations(values(page), 2)}
    return (
        said.count == len(page.links) == len(possible)
        and sorted(possible) == told
        and all(gaps(page, solution) == told for solution in solutions(page))
        and sum(told) == num(said, "total")
    )


def _mirror_answer(said: Said, about: About) -> bool:
    page = one(said)
    both = num(said, "a") + num(said, "b")
    known = set(solutions(page))
    return num(said, "a") in values(page) and all(
        tuple(both - x for x in solution) in known for solution in known
    )


def _second(said: Said, about: About) -> bool:
    page, gap = one(said), num(said, "difference")
    pairs = {
        frozenset((num(said, "a"), num(said, "b"))),
        frozenset((num(said, "c"), num(said, "d"))),
    }
    makes = {frozenset(p) for p in combinations(values(page), 2) if p[1] - p[0] == gap}
    met = [pairs & joined(page, solution) for solution in solutions(page)]
    return makes == pairs and all(len(each) <= 1 for each in met) and set().union(*met) == pairs


def _swap_answer(said: Said, about: About) -> bool:
    page = one(said)
    a, b, hub = (at(page, spot(said, name)) for name in ("a", "b", "spot"))
    only = all(
        [edge for edge in edges(page) if leaf in edge] in ([(leaf, hub)], [(hub, leaf)])
        for leaf in (a, b)
    )
    known = set(solutions(page))
    for solution in known:
        changed = list(solution)
        changed[a], changed[b] = solution[b], solution[a]
        if tuple(changed) not in known:
            return False
    return only


def _another(said: Said, about: About) -> bool:
    return said.count == orbits(one(said)) and said.count > 1


def _end(said: Said, about: About) -> bool:
    page, where = one(said), spot(said)
    number = num(said, "number")
    is_max = number == max(values(page))
    links = degree(page, where)
    return is_max and number in stands(page, where) and said.count == links > 1


def _one(said: Said, about: About) -> bool:
    return said.count == len(solutions(one(said))) > 1


def _middle(said: Said, about: About) -> bool:
    page, where = one(said), spot(said)
    row = values(page)
    return (
        num(said, "number") == row[len(row) // 2]
        and len(row) % 2 == 1
        and num(said, "number") not in stands(page, where)
        and num(said, "number") not in dict(given(page)).values()
        and set(nums(said.values["numbers"])) == stands(page, where)
    )


def _neighbours(said: Said, about: About) -> bool:
    page = one(said)
    a, b, c = (num(said, name) for name in "abc")
    follow = {frozenset(pair) for pair in pairwise(values(page))}
    return (
        {frozenset((a, b)), frozenset((b, c))} <= follow
        and b - a == c - b == num(said, "difference")
        and all(len(follow & joined(page, solution)) <= 1 for solution in solutions(page))
    )


def _spots(said: Said, about: About) -> bool:
    more, fewer = said.values["a"], said.values["b"]
    assert isinstance(more, CertifiedPage)
    assert isinstance(fewer, CertifiedPage)
    most = more.certificate.work + 2 * more.certificate.work_error
    least = fewer.certificate.work - 2 * fewer.certificate.work_error
    counts = said.count == len(more.spots) > len(fewer.spots) == said.values["fewer"]
    return counts and most < least


def _key(said: Said, about: About) -> bool:
    page, where = one(said), at(one(said), spot(said))
    a, b = num(said, "a"), num(said, "b")
    mirror = tuple(turn(page) - x for x in shown(page))
    return a != b and shown(page)[where] == a and mirror in solutions(page) and mirror[where] == b


ABOUT_QUESTIONS: dict[str, Predicate] = {
    "ask.linked.answer": _largest_answer,
    "ask.odd.answer": _odd,
    "ask.even.answer": _odd,
    "ask.multiples.answer": _multiples,
    "ask.place.answer": _place,
    "ask.barred": _barred_asked,
    "ask.barred.answer": _barred,
    "ask.total.answer": _total,
    "ask.mirror.answer": _mirror_answer,
    "ask.second.answer": _second,
    "ask.swap.answer": _swap_answer,
    "ask.another.answer": _another,
    "wrong.end.answer": _end,
    "wrong.one.answer": _one,
    "wrong.middle.answer": _middle,
    "wrong.neighbours.answer": _neighbours,
    "wrong.spots.answer": _spots,
    "wrong.key.answer": _key,
}
