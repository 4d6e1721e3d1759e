"""When each sentence about one page is true: counts, swaps, places, hints, rows, the plan."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations
from math import factorial

from bookmaker.model import (
    CertifiedPage,
    PageNotes,
    PlanRow,
    Row,
    Said,
)
from tests.teaching.known import (
    About,
    Predicate,
    at,
    edges,
    images,
    joined,
    num,
    nums,
    one,
    orbits,
    shown,
    solutions,
    spot,
    stands,
    turn,
    values,
)


def _solutions(said: Said, about: About) -> bool:
    return said.count == len(solutions(one(said)))


def _distinct(said: Said, about: About) -> bool:
    return said.count == orbits(one(said))


def _uncounted(said: Said, about: About) -> bool:
    return one(said).certificate.solutions is None


def share(page: CertifiedPage) -> Fraction:
    free = len(page.spots) - len(page.given)
    return Fraction(len(solutions(page)), factorial(free))


def _chance(said: Said, about: About) -> bool:
    some, every = said.values["some"], said.values["all"]
    return Fraction(int(str(some)), int(str(every))) == share(one(said))


def _about_chance(said: Said, about: About) -> bool:
    told = Fraction(int(str(said.values["some"])), int(str(said.values["all"])))
    return abs(told / share(one(said)) - 1) < Fraction(1, 10)


def _work(said: Said, about: About) -> bool:
    certificate = one(said).certificate
    return certificate.work_error == 0 and _is(said.values["work"], certificate.work, 0.5)


def _about_work(said: Said, about: About) -> bool:
    certificate = one(said).certificate
    return certificate.work_error > 0 and _near(said.values["work"], certificate.work)


def _two_pupils(said: Said, about: About) -> bool:
    """The one needs few subtractions for each link, the other many."""
    page = one(said)
    trying, building = (getattr(page.certificate, name).mean for name in ("trying", "building"))
    told = _near(said.values["trying"], trying) and _near(said.values["building"], building)
    if said.key == "key.tries":
        return told and trying < building
    return told and trying >= 10 * building


def _near(told: object, mean: float) -> bool:
    return _is(told, mean, max(0.5, mean / 19))


def _is(told: object, mean: float, most: float) -> bool:
    return abs(int(str(told)) - mean) <= most


def _band(said: Said, about: About) -> bool:
    return said.key == f"band.{one(said).certificate.band}"


def _swap(said: Said, about: About) -> bool:
    """Any two of the branches exchange their numbers in any solution and leave a solution."""
    page, branches = one(said), said.values["spots"]
    known = set(solutions(page))
    assert isinstance(branches, tuple)
    assert (len(branches) == 2) == (said.key == "key.swap")
    for here, there in combinations(branches, 2):
        pairs = list(zip(here.names, there.names, strict=True))
        for solution in known:
            changed = list(solution)
            for a, b in pairs:
                changed[at(page, a)] = solution[at(page, b)]
                changed[at(page, b)] = solution[at(page, a)]
            if tuple(changed) not in known:
                return False
    return True


def _stands(said: Said, about: About) -> bool:
    return set(nums(said.values["numbers"])) == stands(one(said), spot(said))


def _linked(said: Said, about: About) -> bool:
    pair = frozenset((num(said, "a"), num(said, "b")))
    return all(pair in joined(one(said), solution) for solution in solutions(one(said)))


def _apart(said: Said, about: About) -> bool:
    pair = frozenset((num(said, "a"), num(said, "b")))
    return not any(pair in joined(one(said), solution) for solution in solutions(one(said)))


def _rung(said: Said, about: About) -> bool:
    """What is left after this rung and all before it."""
    assert about.notes is not None
    return said.count == _left_after(about.notes, said, one(said), None)


def _bare_rung(said: Said, about: About) -> bool:
    assert about.notes is not None
    return _left_after(about.notes, said, one(said), None) > 0


def _left_after(notes: PageNotes, last: Said, page: CertifiedPage, both: Fraction | None) -> int:
    alive = list(solutions(page))
    for each in notes.hints:
        if each.key.startswith("key.rung"):
            number = num(each, "number") if both is None else both - num(each, "number")
            alive = [solution for solution in alive if solution[at(page, spot(each))] == number]
        if each is last:
            break
    return len(alive)


def _mirror_hint(said: Said, about: About) -> bool:
    """The other number stands there in the mirror, and all hints taken from ``turn`` hold of it;
    those before this one are the mirror's own as they stand."""
    assert about.notes is not None
    page, both = one(said), num(said, "turn")
    rungs = [each for each in about.notes.hints if each.key.startswith("key.rung")]
    (own,) = [each for each in rungs if each.values.get("mirror") is said]
    before = rungs[: rungs.index(own)]
    lefts = [_left_after(about.notes, each, page, both) for each in rungs]
    return (
        num(said, "other") == both - num(own, "number") != num(own, "number")
        and all(2 * num(each, "number") == both for each in before)
        and all(left > 0 for left in lefts)
        and all(each.count in (None, left) for each, left in zip(rungs, lefts, strict=True))
    )


def _either(said: Said, about: About) -> bool:
    """In every solution one of the two pairs is joined."""
    page = one(said)
    pairs = {frozenset((num(said, x), num(said, y))) for x, y in ("ab", "cd")}
    return all(pairs & joined(page, solution) for solution in solutions(page))


def _never_there(said: Said, about: About) -> bool:
    return num(said, "a") not in stands(one(said), spot(said, "letter"))


def _try(said: Said, about: About) -> bool:
    """They are joined in a solution."""
    pair = frozenset((num(said, "a"), num(said, "b")))
    return any(pair in joined(one(said), solution) for solution in solutions(one(said)))


def _label(said: Said, about: About) -> bool:
    """Its row is looked at by ``row_holds``."""
    assert about.notes is not None
    return any(row.label is said for row in about.notes.rows)


def row_holds(row: Row) -> bool:
    page, told = row.label.pages[0], tuple(nums(row.numbers))
    plain = tuple(turn(page) - x for x in shown(page))
    if told not in solutions(page):
        return False
    if row.label.key == "key.label.mirror":
        return told == plain
    if row.label.key == "key.label.twisted":
        return plain not in solutions(page) and told in images(page, shown(page), (True,))
    return told not in images(page, shown(page), (False, True))


def others_are_all(notes: PageNotes) -> bool:
    """Where other solutions are listed, all of them are, each once up to symmetry."""
    page = notes.page
    others = [tuple(nums(r.numbers)) for r in notes.rows if r.label.key == "key.label.others"]
    families = {frozenset(images(page, other, (False, True))) for other in others}
    return not others or len(families) == len(others) == orbits(page) - 1


def plan_holds(row: PlanRow) -> bool:
    return row.largest.value == max(values(row.page))


def crossing(page: CertifiedPage) -> Fraction:
    """How many subtractions cross a ten, on average over all solutions: the ones are fewer."""
    known = solutions(page)
    times = 0
    for solution in known:
        for a, b in edges(page):
            low, high = sorted((solution[a], solution[b]))
            if low >= 0 and low.denominator == high.denominator == 1:
                times += int(str(high)[-1]) < int(str(low)[-1])
    return Fraction(times, len(known))


ABOUT_PAGES: dict[str, Predicate] = {
    "key.solutions": _solutions,
    "key.distinct": _distinct,
    "key.uncounted": _uncounted,
    "key.chance": _chance,
    "key.about-chance": _about_chance,
    "key.work": _work,
    "key.work-about": _about_work,
    "key.builds": _two_pupils,
    "key.tries": _two_pupils,
    **{f"band.{band}": _band for band in ("gentle", "steady", "steep", "sheer")},
    "key.swap": _swap,
    "key.swap-all": _swap,
    "key.stands": _stands,
    "key.fact.linked": _linked,
    "key.fact.apart": _apart,
    "key.fact.either": _either,
    "key.fact.barred": _never_there,
    "key.fact.try": _try,
    "key.rung": _bare_rung,
    "key.rung-left": _rung,
    "key.rung-or": _bare_rung,
    "key.rung-or-left": _rung,
    "key.mirror-hint": _mirror_hint,
    "key.label.mirror": _label,
    "key.label.twisted": _label,
    "key.label.others": _label,
}
