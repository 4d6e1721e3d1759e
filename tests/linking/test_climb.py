"""A climb: links for all pages at once, so that work rises; no better plan is found by trying."""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest
from scipy.stats import spearmanr

from bookmaker.cache import MemoryCache
from bookmaker.linking import climb
from bookmaker.linking.climb import Candidate, plan_climb, targets
from bookmaker.linking.shapes import shape_of
from bookmaker.model import Book, Chapter, Number, Page, Spot, Wish, progression
from tests.layout import sets

CACHE = MemoryCache()
ONE, TWO = Number.parse("1"), Number.parse("2")


def page(name: str, spots: int, seed: int, wish: Wish | None = Wish()) -> Page:  # noqa: B008
    """A page of so many anatomical spots, its links left to us."""
    cases = [case for case in sets.anatomical(60, "a4", seed=seed) if len(case.spots) == spots]
    case, box = cases[0], cases[0].frame
    placed = tuple(
        Spot(spot, 100 * (x - box.x) / box.width, 100 * (y - box.y) / box.height)
        for spot, x, y in case.spots
    )
    numbers = progression(ONE, TWO, spots)
    return Page(name, name, "c", "c.toml", 1, None, "", "", placed, (), numbers, wish=wish)


def book(*chapters: list[Page], optional: int = 0, climb_to: str = "steep") -> Book:
    last = len(chapters) - optional
    made = tuple(
        Chapter(f"c{i}", f"c{i}", "", "c.toml", i >= last, tuple(pages))
        for i, pages in enumerate(chapters)
    )
    return Book(
        "b",
        "B",
        "b.toml",
        "3",
        "a4",
        "ramp",
        "en",
        12,
        climb_to,
        made,
        climb=True,  # type: ignore[arg-type]
    )


def rising(count: int, chapters: int, seed: int) -> Book:
    """Pages of 4 to 8 spots, more of them towards the end."""
    spots = [4 + 5 * place // count for place in range(count)]
    pages = [page(f"p{i}", n, seed + i) for i, n in enumerate(spots)]
    size = count // chapters
    return book(*(pages[i : i + size] for i in range(0, count, size)), climb_to="sheer")


def works(made: Book) -> tuple[list[float], list[float]]:
    """The works that are aimed at, and those of the links that were chosen."""
    choices, aims = plan_climb(made, {}, CACHE, 0), targets(made)
    found = [choices[page.id].certificate for page in made.pages]
    return list(aims.values()), [each.work for each in found if each]


def test_targets_rise_to_the_hardest_band_and_take_a_breath_at_each_chapter() -> None:
    made = book(*([page(f"p{c}{i}", 5, 3) for i in range(3)] for c in range(4)), optional=1)
    aims = list(targets(made).values())
    assert 36 < aims[8] < 70  # steep is from 40 to 69
    for start in (3, 6):
        assert aims[start] < aims[start + 1] < aims[start + 2]
        assert aims[start] < aims[start - 1] * 1.2
    assert min(aims[10:]) > aims[8]


def test_work_rises_on_anatomical_spots_and_no_puzzle_comes_back() -> None:
    """Asked for: Spearman 0.95 on 24 pages (scipy's, as the reference)."""
    made = rising(24, 8, seed=100)
    aims, found = works(made)
    assert spearmanr(range(24), found).statistic >= 0.95
    assert spearmanr(aims, found).statistic >= 0.95
    choices = plan_climb(made, {}, CACHE, 0)
    puzzles = Counter(shape_of(len(each.page.spots), each.page.edges) for each in choices.values())
    of_few_spots = 1 + 2 + 3  # shapes of 4 and 5 spots; what is left over has to come back
    assert len(puzzles) >= min(24, of_few_spots + 12)


def test_a_puzzle_that_the_teacher_linked_is_not_chosen_again_where_another_will_do() -> None:
    made = book([page("a", 5, 1), page("b", 5, 2), page("c", 5, 3)])
    first = plan_climb(made, {}, CACHE, 0)
    written = replace(first["b"].page, wish=None)
    pages = [made.pages[0], written, made.pages[2]]
    again = plan_climb(book(pages), {}, CACHE, 0)
    shapes = [shape_of(5, again[name].page.edges) for name in ("a", "c")]
    assert shape_of(5, written.edges) not in shapes
    assert set(again) == {"a", "c"}


def test_given_numbers_count_in_what_is_chosen() -> None:
    given = (("s0", ONE),)
    pages = [replace(page(f"p{i}", 6, i), wish=Wish()) for i in range(3)]
    pages = [replace(p, given=((p.spots[0].name, ONE),)) for p in pages]
    choices = plan_climb(book(pages), {}, CACHE, 0)
    assert given
    for choice in choices.values():
        assert choice.certificate is not None
        assert choice.certificate.solution[0] == Fraction(1)


@pytest.mark.parametrize("seed", range(12))
def test_no_plan_costs_less(seed: int) -> None:
    """Reference: every way to take one candidate for each page."""
    rng = random.Random(seed)
    puzzles = [(shape, (Fraction(1),)) for shape in range(4)]
    offers = {
        f"p{i}": [
            Candidate(puzzle, ((0, shape),), round(rng.random(), 3))
            for shape, puzzle in enumerate(rng.sample(puzzles, 3))
        ]
        for i in range(5)
    }
    standing = Counter({puzzles[0]: rng.randint(0, 2)})

    def cost(plan: tuple[Candidate, ...]) -> float:
        times = Counter(standing)
        total = 0.0
        for each in plan:
            total += each.price + climb.REPEAT_PRICE * times[each.puzzle]
            times[each.puzzle] += 1
        return total

    taken = climb._cheapest(offers, standing)
    least = min(map(cost, product(*offers.values())))
    assert cost(tuple(taken[name] for name in offers)) == pytest.approx(least, abs=1e-3)
