"""The hint ladder and where numbers stand, against brute force."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookmaker.cache import MemoryCache
from bookmaker.puzzle import Fact, Unsolvable, certify, domains, hint_ladder
from tests.puzzle.reference import all_trees, brute_force, path, progression, random_tree, star

KEPT = MemoryCache()


def ladder_is_sound(tree, numbers, given) -> None:
    solutions = brute_force(tree, numbers, given)
    ladder = hint_ladder(tree, numbers, given, cache=KEPT)
    assert ladder.solutions == len(solutions)
    alive = solutions
    for rung in ladder.rungs:
        most = max(
            sum(solution[v] == x for solution in alive)
            for v in range(tree.n)
            for x in numbers
            if v not in given
        )
        given = {**given, rung.vertex: rung.number}
        alive = {solution for solution in alive if solution[rung.vertex] == rung.number}
        assert rung.left == len(alive) == most
    assert len(alive) == 1


@pytest.mark.parametrize("n", range(1, 7))
def test_every_rung_keeps_as_many_solutions_alive_as_brute_force_allows(n: int) -> None:
    for tree in all_trees(n):
        ladder_is_sound(tree, progression(n), {})


@settings(max_examples=40, deadline=None)
@given(st.integers(2, 6), st.integers(0, 10**6), st.randoms(use_true_random=False))
def test_ladders_of_other_lists_and_given_numbers_are_sound(n: int, seed: int, chance) -> None:
    tree = random_tree(n, seed)
    numbers = tuple(Fraction(x) for x in sorted(chance.sample(range(2 * n), n)))
    solution = chance.choice(sorted(brute_force(tree, numbers)))
    ladder_is_sound(tree, numbers, {})
    ladder_is_sound(tree, numbers, {0: solution[0]})


@pytest.mark.parametrize("n", [5, 8, 10])
def test_the_ladder_leads_to_the_solution_of_the_certificate(n: int) -> None:
    tree = random_tree(n, 2)
    solution = certify(tree, progression(n), {}, cache=KEPT).solution
    ladder = hint_ladder(tree, progression(n), {}, cache=KEPT)
    assert all(solution[rung.vertex] == rung.number for rung in ladder.rungs)


def test_beyond_counting_the_ladder_gives_the_busiest_spots_first() -> None:
    tree = random_tree(22, 6)
    solution = certify(tree, progression(22), {}, cache=KEPT).solution
    ladder = hint_ladder(tree, progression(22), {}, cache=KEPT)
    busy = [tree.degrees[rung.vertex] for rung in ladder.rungs]
    assert busy == sorted(busy, reverse=True)
    assert all(rung.left is None for rung in ladder.rungs)
    assert all(solution[rung.vertex] == rung.number for rung in ladder.rungs)


def test_the_first_hint_of_a_progression_links_the_smallest_and_the_largest() -> None:
    for n in (2, 5, 9, 20):
        ladder = hint_ladder(path(n), progression(n), {}, cache=KEPT)
        assert ladder.fact == Fact("linked", (Fraction(1), Fraction(2 * n - 1)))


@settings(max_examples=60, deadline=None)
@given(st.integers(2, 6), st.integers(0, 10**6), st.randoms(use_true_random=False))
def test_the_first_hint_is_true_of_every_solution(n: int, seed: int, chance) -> None:
    tree = random_tree(n, seed)
    numbers = tuple(Fraction(x) for x in sorted(chance.sample(range(2 * n), n)))
    solutions = brute_force(tree, numbers)
    given = {}
    if chance.random() < 0.5:
        numbers = progression(n)
        solutions = brute_force(tree, numbers)
        kept = min(solutions)
        given = {kept.index(numbers[0]): numbers[0], kept.index(numbers[-1]): numbers[-1]}
        solutions = brute_force(tree, numbers, given)
    fact = hint_ladder(tree, numbers, given, cache=KEPT).fact
    linked = [
        {frozenset((solution[a], solution[b])) for a, b in tree.edges} for solution in solutions
    ]
    assert not fact.numbers or not set(fact.numbers) <= set(given.values())
    assert fact_holds(fact, solutions, linked)
    if fact.kind == "barred":
        assert fact.vertex not in given and fact.numbers[0] not in given.values()
        assert len({solution[fact.vertex] for solution in solutions}) > 2
    if fact.kind in ("either", "barred", "try", "different"):
        for x in numbers:
            for y in numbers:
                if x < y and not {x, y} <= set(given.values()):
                    times = sum(frozenset((x, y)) in links for links in linked)
                    assert 0 < times < len(linked)


def fact_holds(fact: Fact, solutions, linked) -> bool:
    pairs = [frozenset(fact.numbers[i : i + 2]) for i in range(0, len(fact.numbers), 2)]
    if fact.kind == "linked":
        return all(pairs[0] in links for links in linked)
    if fact.kind == "apart":
        return not any(pairs[0] in links for links in linked)
    if fact.kind == "either":
        return all(pairs[0] in links or pairs[1] in links for links in linked)
    if fact.kind == "barred":
        return all(solution[fact.vertex] != fact.numbers[0] for solution in solutions)
    if fact.kind == "try":
        return any(pairs[0] in links for links in linked)
    return not fact.numbers


@pytest.mark.parametrize("seed", range(40))
def test_no_ladder_begins_with_an_empty_hint_and_none_leads_past_what_it_says_to_try(
    seed: int,
) -> None:
    chance = Random(seed)
    n = chance.randint(3, 7)
    tree = random_tree(n, seed)
    numbers = tuple(Fraction(x) for x in sorted(chance.sample(range(25), n)))
    fact = hint_ladder(tree, numbers, {}, cache=KEPT).fact
    assert fact.kind != "different" and fact.numbers
    if fact.kind == "try":
        solution = certify(tree, numbers, {}, cache=KEPT).solution
        pairs = [{solution[a], solution[b]} for a, b in tree.edges]
        assert set(fact.numbers) in pairs


def test_with_both_ends_given_the_next_difference_makes_a_hint() -> None:
    numbers = progression(20)
    tree = random_tree(20, 3)
    solution = certify(tree, numbers, {}, cache=KEPT).solution
    given = {solution.index(x): x for x in (numbers[0], numbers[-1])}
    fact = hint_ladder(tree, numbers, given, cache=KEPT).fact
    assert fact == Fact("either", (numbers[0], numbers[-2], numbers[1], numbers[-1]))


@settings(max_examples=60, deadline=None)
@given(st.integers(2, 6), st.integers(0, 10**6), st.randoms(use_true_random=False))
def test_a_ladder_taken_from_first_and_last_leads_to_the_mirror(n: int, seed: int, chance) -> None:
    tree = random_tree(n, seed)
    numbers = progression(n)
    if chance.random() < 0.3:
        numbers = tuple(Fraction(x) for x in sorted(chance.sample(range(2 * n), n)))
    solutions = brute_force(tree, numbers)
    given = {}
    if chance.random() < 0.5:
        kept = chance.choice(sorted(solutions))
        given = {v: kept[v] for v in chance.sample(range(n), chance.randint(1, max(1, n // 2)))}
        solutions = brute_force(tree, numbers, given)
    total = numbers[0] + numbers[-1]
    mirrors = all(tuple(total - x for x in solution) in solutions for solution in solutions)
    rungs = hint_ladder(tree, numbers, given, cache=KEPT).rungs
    told = [rung for rung in rungs if rung.mirror]
    changed = [rung for rung in rungs if 2 * rung.number != total]
    assert len(told) == (1 if mirrors and changed else 0)
    if told:
        assert told[0] == changed[0]
        assert told[0].mirror == (total - told[0].number, total)
        at = {rung.vertex: total - rung.number for rung in rungs}
        assert sum(all(s[v] == x for v, x in at.items()) for s in solutions) == 1


@settings(max_examples=40, deadline=None)
@given(st.integers(1, 6), st.integers(0, 10**6), st.randoms(use_true_random=False))
def test_numbers_stand_where_brute_force_puts_them(n: int, seed: int, chance) -> None:
    tree = random_tree(n, seed)
    numbers = progression(n, start=3, step=4)
    given = {0: chance.choice(numbers)} if chance.random() < 0.5 else {}
    solutions = brute_force(tree, numbers, given)
    if not solutions:
        with pytest.raises(Unsolvable):
            domains(tree, numbers, given, cache=KEPT)
        return
    found = domains(tree, numbers, given, cache=KEPT)
    assert found is not None
    for v in range(n):
        assert list(found[v]) == sorted({solution[v] for solution in solutions})


def test_the_middle_of_a_star_takes_the_smallest_or_the_largest() -> None:
    found = domains(star(7), progression(7), {}, cache=KEPT)
    assert found is not None
    assert found[0] == (Fraction(1), Fraction(13))


def test_where_numbers_stand_on_large_pages_is_not_known() -> None:
    assert domains(random_tree(20, 1), progression(20), {}, cache=KEPT) is None


@pytest.mark.parametrize(
    ("n", "count"), [(2, 0), (3, 0), (4, 0), (5, 0), (6, 1), (7, 1), (8, 3), (9, 3)]
)
def test_trees_with_a_spot_closed_to_the_smallest_number_are_as_many_as_published(
    n: int, count: int
) -> None:
    # OEIS A373721: 0, 0, 0, 0, 0, 0, 1, 1, 3, 3, 4, 5, 9 for n = 0, 1, ...
    closed = 0
    for tree in all_trees(n):
        found = domains(tree, progression(n), {}, cache=KEPT)
        assert found is not None
        closed += not all(Fraction(1) in numbers for numbers in found)
    assert closed == count
