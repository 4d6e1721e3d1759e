"""When each sentence of the term plan is true: skills counted over all solutions, by pencil."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import combinations

from bookmaker.model import CertifiedPage, Number, Said
from tests.teaching.known import About, Predicate, edges, solutions

Asks = Callable[[Number, Number], bool]


def _whole(*numbers: Number) -> bool:
    return all(x.text.isdigit() for x in numbers)


def _plain(*numbers: Number) -> bool:
    """From nought up, and written whole or as decimals."""
    return all(x.value >= 0 and "/" not in x.text for x in numbers)


def _columns(larger: Number, smaller: Number) -> list[tuple[int, bool]]:
    """Columns that exchange, 0 for the ones, each with whether its neighbour lends from nought;
    as a child does it, digit by digit from the right."""
    if not _plain(larger, smaller):
        return []
    places = max(len(x.text.partition(".")[2]) for x in (larger, smaller))
    tops, bottoms = (
        [int(digit) for digit in reversed(str(int(x.value * 10**places)).zfill(40))]
        for x in (larger, smaller)
    )
    found = []
    for column in range(39):
        if tops[column] < bottoms[column]:
            found.append((column - places, _is_nought(larger, column + 1 - places)))
            tops[column + 1] -= 1
    return found


def _is_nought(number: Number, column: int) -> bool:
    return int(number.value * Fraction(10) ** -column) % 10 == 0


def _crosses(column: int) -> Asks:
    return lambda larger, smaller: column in [at for at, _ in _columns(larger, smaller)]


def _multiples(of: int, not_of: int = 0) -> Asks:
    def asks(larger: Number, smaller: Number) -> bool:
        both = (larger.value, smaller.value)
        fits = _whole(larger, smaller) and min(both) > 0 and all(x % of == 0 for x in both)
        return fits and not (not_of and all(x % not_of == 0 for x in both))

    return asks


def _take_tens(larger: Number, smaller: Number) -> bool:
    fits = _whole(larger, smaller) and smaller.value in range(10, 100, 10)
    return fits and larger.value % 10 != 0


def _below(number: Number) -> int:
    """The denominator as it is written."""
    if "/" in number.text:
        return int(number.text.partition("/")[2])
    return 10 ** len(number.text.partition(".")[2])


def _fractions(kind: Callable[[int, int], bool]) -> Asks:
    def asks(larger: Number, smaller: Number) -> bool:
        some = "/" in larger.text + smaller.text
        return some and kind(_below(larger), _below(smaller))

    return asks


def _within(low: int, high: int) -> Asks:
    return lambda larger, smaller: _whole(larger, smaller) and low <= larger.value <= high


SKILLS: dict[str, Asks] = {
    "exchange": lambda x, y: bool(_columns(x, y)),
    "exchange-twice": lambda x, y: len(_columns(x, y)) > 1,
    "exchange-over-nought": lambda x, y: any(nought for _, nought in _columns(x, y)),
    "across-a-hundred": _crosses(1),
    "across-a-thousand": _crosses(2),
    "across-a-whole": _crosses(-1),
    "decimals-of-different-places": lambda x, y: _plain(x, y) and _below(x) != _below(y),
    "tens": _multiples(10, 100),
    "hundreds": _multiples(100),
    "take-tens": _take_tens,
    "like-denominators": _fractions(lambda a, b: a == b > 1),
    "related-denominators": _fractions(
        lambda a, b: a != b and min(a, b) > 1 and max(a, b) % min(a, b) == 0
    ),
    "unlike-denominators": _fractions(lambda a, b: min(a, b) > 1 and max(a, b) % min(a, b) != 0),
    "fraction-from-a-whole": _fractions(lambda a, b: 1 in (a, b)),
    "across-zero": lambda x, y: x.value >= 0 > y.value,
    "below-zero": lambda x, y: x.value < 0,
    "within-10": _within(0, 10),
    "within-20": _within(11, 20),
}


def _times(page: CertifiedPage, asks: Asks) -> list[int]:
    """How often each solution of ``page`` asks for a skill."""
    pairs = combinations(sorted(page.numbers, key=lambda number: number.value), 2)
    asking = {(low.value, high.value) for low, high in pairs if asks(high, low)}
    both = asking | {(high, low) for low, high in asking}
    links = edges(page)
    return [sum((s[a], s[b]) in both for a, b in links) for s in solutions(page)]


def _span(said: Said, about: About) -> bool:
    name = said.values["skill"]
    assert isinstance(name, Said)
    asks = SKILLS[name.key.removeprefix("skill.")]
    times = [_times(page, asks) for page in said.pages]
    least, most = (sum(map(end, times)) for end in (min, max))
    if said.key == "plan.span-sure":
        return said.values["times"] == least == most
    mean = sum((Fraction(sum(each), len(each)) for each in times), Fraction(0))
    told = said.values["mean"]
    assert isinstance(told, Number)
    ends = (said.values["least"], said.values["most"])
    return ends == (least, most) and least < most and abs(told.value - mean) <= Fraction(1, 20)


def _practises(said: Said, about: About) -> bool:
    return said.count == sum(len(page.links) for page in said.pages)


def _is_asked(said: Said, about: About) -> bool:
    asks = SKILLS[said.key.removeprefix("skill.")]
    return any(max(_times(page, asks)) > 0 for page in said.pages)


ABOUT_PLANS: dict[str, Predicate] = {
    "plan.practises": _practises,
    "plan.practises-shown": _practises,
    "plan.subtractions": _practises,
    "plan.span": _span,
    "plan.span-sure": _span,
    **{f"skill.{skill}": _is_asked for skill in SKILLS},
}
