"""Questions for the class and wrong ideas to expect, true of a chapter's own pages.

Each finder looks at the pages of a chapter and gives a question with its answer, or None where
nothing of the kind is true of them. A chapter takes those that the book has asked least so far.
Which questions are worth asking is common practice, no source.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from itertools import permutations

from bookmaker.model import (
    CertifiedPage,
    ChapterNotes,
    Number,
    OrderedBook,
    OrderedChapter,
    PageNotes,
    Question,
    Said,
    SpotOf,
    difference,
    write_like,
)
from bookmaker.teaching.pages import step_of

QUESTIONS, WRONG_IDEAS = 3, 2
HARDER = 1.5
"""A page is called harder where it takes this many times the work of another."""

Pages = Sequence[PageNotes]
Finder = Callable[[Pages], Question | None]


def notes_of_chapters(
    ordered: OrderedBook, pages: Mapping[str, PageNotes]
) -> tuple[ChapterNotes, ...]:
    """Three questions and two wrong ideas for each chapter, as far as its pages bear them."""
    asked: Counter[str] = Counter()
    return tuple(_notes(chapter, pages, asked) for chapter in ordered.chapters)


def _notes(
    chapter: OrderedChapter, pages: Mapping[str, PageNotes], asked: Counter[str]
) -> ChapterNotes:
    own = [pages[page.id] for page in chapter.pages]
    return ChapterNotes(
        chapter.title,
        chapter.pages[0],
        _chosen(ASKED, own, asked, QUESTIONS),
        _chosen(EXPECTED, own, asked, WRONG_IDEAS),
    )


def _chosen(
    finders: Sequence[Finder], pages: Pages, asked: Counter[str], most: int
) -> tuple[Question, ...]:
    """The ``most`` findings that were asked least so far, in the finders' own order."""
    found = [question for finder in finders if (question := finder(pages))]
    rare = sorted(range(len(found)), key=lambda i: (asked[found[i].asks.key], i))[:most]
    chosen = tuple(found[i] for i in sorted(rare))
    asked.update(question.asks.key for question in chosen)
    return chosen


def linked(pages: Pages) -> Question | None:
    """The smallest and the largest number are linked in every solution."""
    notes = next((n for n in pages if n.fact == "linked" and step_of(n.page)), None)
    if notes is None:
        return None
    low, high = _ends(notes.page)
    gap = difference(high, low)
    return _question("linked", {"page": notes.page}, {"a": low, "b": high, "difference": gap})


def parity(pages: Pages) -> Question | None:
    """Every difference is even, because all numbers are odd, or all even."""
    numbers = [number for notes in pages for number in notes.page.numbers]
    rests = {number.value % 2 for number in numbers}
    if rests == {1}:
        return _question("odd", {}, {})
    return _question("even", {}, {}) if rests == {0} else None


def multiples(pages: Pages) -> Question | None:
    """Every difference is a multiple of the step, which is a whole number over two."""
    for notes in pages:
        step = step_of(notes.page)
        if step and step.value > 2 and step.value.denominator == 1:
            first, second = notes.page.numbers[:2]
            values = {"step": step}
            return _question("multiples", values, {"a": first, "b": second, **values})
    return None


def place(pages: Pages) -> Question | None:
    """A spot of several links at which few of a page's numbers can stand."""
    best: tuple[float, PageNotes, str, tuple[Number, ...]] | None = None
    for notes in pages:
        for spot, numbers in notes.standing:
            share = len(numbers) / len(notes.page.numbers)
            is_open = _links(notes.page, spot) > 1 and spot not in dict(notes.page.given)
            if is_open and len(numbers) <= 3 and share < 0.6 and (not best or share < best[0]):
                best = (share, notes, spot, numbers)
    if best is None:
        return None
    _, notes, spot, numbers = best
    where = SpotOf(notes.page, spot)
    asks = {"page": notes.page, "spot": where}
    return _question("place", asks, {"numbers": numbers, "spot": where}, len(numbers))


def barred(pages: Pages) -> Question | None:
    """A number that can't stand at one spot, though all others, or nearly all, can."""
    for notes in pages:
        for spot, numbers in notes.standing:
            missing = [x for x in notes.page.numbers if x not in numbers]
            if len(missing) == 1 and len(numbers) > 1:
                asks = {"page": notes.page, "spot": SpotOf(notes.page, spot)}
                return _question("barred", asks, {"number": missing[0]})
    return None


def total(pages: Pages) -> Question | None:
    """The differences of a page add up to the same in every solution."""
    notes = _largest([n for n in pages if step_of(n.page)])
    if notes is None:
        return None
    gaps = sorted(notes.page.differences.values(), key=lambda gap: gap.value)
    whole = write_like(sum((gap.value for gap in gaps), Fraction(0)), tuple(gaps))
    return _question("total", {"page": notes.page}, {"numbers": tuple(gaps), "total": whole})


def mirror(pages: Pages) -> Question | None:
    """A solution taken from first + last is another solution."""
    notes = next((n for n in reversed(pages) if n.mirror), None)
    if notes is None:
        return None
    low, high = _ends(notes.page)
    both = write_like(low.value + high.value, (low, high))
    return _question("mirror", {"page": notes.page, "sum": both}, {"a": low, "b": high})


def second(pages: Pages) -> Question | None:
    """The second largest difference can come from two pairs only."""
    notes = next((n for n in pages if len(n.page.numbers) > 3 and not n.page.given), None)
    if notes is None or not step_of(notes.page):
        return None
    numbers = _ascending(notes.page)
    gap = difference(numbers[-1], numbers[1])
    pairs = {"a": numbers[0], "b": numbers[-2], "c": numbers[1], "d": numbers[-1]}
    return _question("second", {"page": notes.page, "difference": gap}, pairs)


def swap(pages: Pages) -> Question | None:
    """Two spots that may always exchange their numbers."""
    for notes in reversed(pages):
        for group in notes.alike:
            if all(len(branch) == 1 for branch in group):
                one, two = (SpotOf(notes.page, branch[0]) for branch in group[:2])
                ends = [link.ends for link in notes.page.links if group[0][0] in link.ends]
                (hub,) = {end for pair in ends for end in pair} - {group[0][0]}
                if hub != group[1][0]:
                    names = {"a": one, "b": two, "page": notes.page}
                    return _question("swap", names, {"spot": SpotOf(notes.page, hub)})
    return None


def harder(pages: Pages) -> Question | None:
    """Two pages with as many spots, of which one is clearly harder."""
    for one, two in permutations([notes.page for notes in pages], 2):
        alike = len(one.spots) == len(two.spots) and one.certificate.one_in
        if alike and two.certificate.one_in and _is_harder(two, one):
            return _question("harder", {"a": one, "b": two}, {"b": two})
    return None


def another(pages: Pages) -> Question | None:
    """A page with several essentially different solutions."""
    counted = [n for n in pages if (n.page.certificate.distinct_solutions or 0) > 1]
    notes = min(counted, key=lambda n: n.page.certificate.distinct_solutions or 0, default=None)
    if notes is None:
        return None
    count = notes.page.certificate.distinct_solutions
    return _question("another", {"page": notes.page}, {}, count)


def at_an_end(pages: Pages) -> Question | None:
    """Wrong: the largest number belongs at an end. It can stand where several links meet."""
    found: list[tuple[int, str, CertifiedPage]] = []
    for notes in pages:
        _, largest = _ends(notes.page)
        for spot, numbers in notes.standing:
            links = _links(notes.page, spot)
            if links > 1 and largest in numbers:
                found.append((links, spot, notes.page))
    if not found:
        return None
    links, spot, page = max(found, key=lambda each: each[0])
    _, largest = _ends(page)
    return _wrong("end", {"page": page, "spot": SpotOf(page, spot), "number": largest}, links)


def only_one(pages: Pages) -> Question | None:
    """Wrong: there is one answer."""
    many = [n.page for n in pages if (n.page.certificate.solutions or 0) > 1]
    page = max(many, key=lambda page: page.certificate.solutions or 0, default=None)
    return _wrong("one", {"page": page}, page.certificate.solutions) if page else None


def in_the_middle(pages: Pages) -> Question | None:
    """Wrong: the number in the middle of the row belongs in the middle of the creature."""
    for notes in pages:
        numbers = _ascending(notes.page)
        middle = numbers[len(numbers) // 2]
        hub = max(notes.standing, key=lambda pair: _links(notes.page, pair[0]), default=None)
        if hub and len(numbers) % 2 and middle not in hub[1]:
            values = {"page": notes.page, "spot": SpotOf(notes.page, hub[0]), "number": middle}
            return _wrong("middle", {**values, "numbers": hub[1]})
    return None


def neighbours(pages: Pages) -> Question | None:
    """Wrong: numbers that follow each other go side by side. Only one such link is possible."""
    notes = _largest([n for n in pages if step_of(n.page)])
    if notes is None or len(notes.page.numbers) < 4:
        return None
    a, b, c = _ascending(notes.page)[:3]
    return _wrong("neighbours", {"a": a, "b": b, "c": c, "difference": difference(a, b)})


def more_spots(pages: Pages) -> Question | None:
    """Wrong: a page of more spots is harder."""
    for one, two in permutations([notes.page for notes in pages], 2):
        if len(one.spots) > len(two.spots) and _is_harder(two, one):
            return _wrong("spots", {"a": one, "b": two}, len(one.spots))
    return None


def like_the_key(pages: Pages) -> Question | None:
    """Wrong: an answer that is not the key's is wrong."""
    notes = next((n for n in pages if n.mirror), None)
    if notes is None or notes.mirror is None:
        return None
    spot = notes.page.spot_names[0]
    values = {"page": notes.page, "spot": SpotOf(notes.page, spot)}
    return _wrong("key", {**values, "a": notes.page.solution[spot], "b": notes.mirror[0]})


ASKED: tuple[Finder, ...] = (
    linked,
    parity,
    multiples,
    place,
    barred,
    total,
    swap,
    second,
    mirror,
    harder,
    another,
)
EXPECTED: tuple[Finder, ...] = (
    at_an_end,
    only_one,
    in_the_middle,
    neighbours,
    more_spots,
    like_the_key,
)


def _question(
    name: str, asks: Mapping[str, object], answer: Mapping[str, object], count: int | None = None
) -> Question:
    return Question(Said(f"ask.{name}", asks), Said(f"ask.{name}.answer", answer, count))


def _wrong(name: str, values: Mapping[str, object], count: int | None = None) -> Question:
    return Question(Said(f"wrong.{name}", values), Said(f"wrong.{name}.answer", values, count))


def _ascending(page: CertifiedPage) -> list[Number]:
    return sorted(page.numbers, key=lambda number: number.value)


def _ends(page: CertifiedPage) -> tuple[Number, Number]:
    """The smallest and the largest number of a page."""
    low, *_, high = _ascending(page)
    return low, high


def _largest(pages: Pages) -> PageNotes | None:
    return max(pages, key=lambda notes: len(notes.page.spots), default=None)


def _is_harder(one: CertifiedPage, other: CertifiedPage) -> bool:
    return one.certificate.work >= HARDER * other.certificate.work


def _links(page: CertifiedPage, spot: str) -> int:
    return sum(spot in link.ends for link in page.links)
