"""Work against the definition: solved in exact fractions, and played by a pupil written apart."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, permutations
from math import sqrt
from random import Random
from statistics import mean, stdev

import pytest

from bookmaker.puzzle import every_solution
from bookmaker.puzzle.instance import normalize
from bookmaker.puzzle.pupils import Pupils
from bookmaker.puzzle.quasi_stationary import quasi_stationary_trying
from bookmaker.puzzle.simulation import simulated_trying
from bookmaker.puzzle.trying import expected_trying
from tests.puzzle.reference import (
    all_trees,
    brute_force,
    path,
    progression,
    pupil,
    random_tree,
    star,
)


def work(tree, numbers, given=None) -> float:
    found = expected_trying(normalize(tree, numbers, given or {}).instance, seed=0)
    assert found.error == 0
    return found.mean


def by_fractions(tree, numbers, given=None) -> Fraction:
    """The chain of all arrangements, none left out, by Gauss's elimination in exact fractions."""
    given = given or {}
    free = [v for v in range(tree.n) if v not in given]
    left = [x for x in numbers if x not in given.values()]
    states = [
        tuple({**given, **dict(zip(free, order, strict=True))}[v] for v in range(tree.n))
        for order in permutations(left)
    ]
    number = {state: i for i, state in enumerate(states)}
    rows = []
    for i, at in enumerate(states):
        row = [Fraction(0)] * (len(states) + 1)
        row[i] += 1
        difference = {link: abs(at[link[0]] - at[link[1]]) for link in tree.edges}
        times = list(difference.values())
        clashing = [
            [v for v in link if v in free]
            for link in tree.edges
            if times.count(difference[link]) > 1
        ]
        clashing = [ends for ends in clashing if ends]
        for ends in clashing:
            for one in ends:
                for other in free:
                    if other == one:
                        continue
                    chance = Fraction(1, len(clashing) * len(ends) * (len(free) - 1))
                    to = list(at)
                    to[one], to[other] = to[other], to[one]
                    row[number[tuple(to)]] -= chance
                    touched = sum(len({one, other} & set(link)) == 1 for link in tree.edges)
                    row[-1] += chance * touched
        rows.append(row)
    to_come = eliminated(rows)
    return tree.n - 1 + Fraction(sum(to_come), len(to_come))


def eliminated(rows: list[list[Fraction]]) -> list[Fraction]:
    """The unknowns of the equations in ``rows``, each of which ends with its right side."""
    for i in range(len(rows)):
        pivot = next(row for row in rows[i:] if row[i])
        rows.remove(pivot)
        rows.insert(i, [x / pivot[i] for x in pivot])
        for j, row in enumerate(rows):
            if j != i and row[i]:
                rows[j] = [x - row[i] * y for x, y in zip(row, rows[i], strict=True)]
    return [row[-1] for row in rows]


def test_the_path_of_three_takes_twenty_three_ninths() -> None:
    # By hand. Two subtractions; with chance 1/3 the middle number stands in the middle, and both
    # links clash. Of a clashing link's ends, the middle spot (chance 1/2) swaps with an end: one
    # subtraction, solved. The end (1/2) swaps with the middle (1/2): the same; or with the other
    # end (1/2): two subtractions, not solved. So x = 3/4 * 1 + 1/4 * (2 + x) = 5/3.
    x = (Fraction(3, 4) + Fraction(1, 2)) / Fraction(3, 4)
    assert 2 + x / 3 == Fraction(23, 9)
    assert work(path(3), progression(3)) == pytest.approx(23 / 9, abs=1e-12)


@pytest.mark.parametrize("tree", [path(2), path(3), path(4), star(4)])
def test_work_is_what_exact_fractions_give(tree) -> None:
    numbers = progression(tree.n)
    assert work(tree, numbers) == pytest.approx(float(by_fractions(tree, numbers)), rel=1e-9)


@pytest.mark.parametrize("seed", range(12))
def test_work_under_given_numbers_is_what_exact_fractions_give(seed: int) -> None:
    chance = Random(seed)
    n = chance.randint(4, 6)
    tree = random_tree(n, seed)
    numbers = tuple(Fraction(x) for x in sorted(chance.sample(range(2 * n), n)))
    if seed % 2:
        numbers = progression(n)
    solution = min(brute_force(tree, numbers))
    given = {v: solution[v] for v in chance.sample(range(n), n - chance.randint(2, 4))}
    exact = float(by_fractions(tree, numbers, given))
    assert work(tree, numbers, given) == pytest.approx(exact, rel=1e-9)


def test_given_numbers_that_the_mirror_exchanges_change_nothing_in_the_sum() -> None:
    numbers = progression(5)
    given = {0: numbers[1], 4: numbers[-2]}
    exact = float(by_fractions(path(5), numbers, given))
    assert work(path(5), numbers, given) == pytest.approx(exact, rel=1e-9)


@pytest.mark.parametrize("n", range(3, 8))
def test_a_pupil_written_apart_needs_as_much_within_three_standard_errors(n: int) -> None:
    chance = Random(n)
    for tree in all_trees(n):
        runs = [pupil(tree, range(n), {}, chance) for _ in range(250)]
        error = stdev(runs) / sqrt(len(runs))
        assert abs(mean(runs) - work(tree, progression(n))) < 3 * error, tree


@pytest.mark.parametrize("seed", range(3))
def test_a_pupil_with_another_list_needs_as_much_within_three_standard_errors(seed: int) -> None:
    chance = Random(seed)
    tree = random_tree(7, seed)
    numbers = sorted(chance.sample(range(11), 7))
    runs = [pupil(tree, numbers, {}, chance) for _ in range(300)]
    error = stdev(runs) / sqrt(len(runs))
    assert abs(mean(runs) - work(tree, tuple(map(Fraction, numbers)))) < 3 * error


def test_work_is_exact_for_eight_spots() -> None:
    instance = normalize(path(8), progression(8), {}).instance
    exact = expected_trying(instance, seed=0)
    simulated, error = simulated_trying(instance, seed=1)
    assert exact.error == 0
    assert error < 0.03 * simulated
    assert abs(simulated - exact.mean) < 3 * error


@pytest.mark.parametrize(("n", "given"), [(3, 0), (5, 0), (6, 0), (6, 1), (7, 2)])
def test_the_simulation_agrees_with_the_exact_chain(n: int, given: int) -> None:
    tree = random_tree(n, 4)
    solution = min(brute_force(tree, progression(n)))
    instance = normalize(tree, progression(n), dict(enumerate(solution[:given]))).instance
    simulated, error = simulated_trying(instance, seed=7)
    assert error <= 0.03 * simulated
    assert abs(simulated - expected_trying(instance, 0).mean) < 3 * error


@pytest.mark.parametrize(("n", "given", "seed"), [(7, 0, 1), (8, 0, 2), (8, 0, 3), (8, 1, 4)])
def test_the_quasi_stationary_estimate_agrees_with_the_exact_chain(
    n: int, given: int, seed: int
) -> None:
    tree = random_tree(n, seed)
    first = next(every_solution(tree, progression(n), {}))
    instance = normalize(tree, progression(n), dict(enumerate(first[:given]))).instance
    found = quasi_stationary_trying(instance, seed)
    assert found is not None
    estimate, error = found
    assert 0 < error <= 0.03 * estimate
    assert abs(estimate - expected_trying(instance, 0).mean) < 3 * error


def test_the_quasi_stationary_estimate_and_plain_pupils_agree_on_nine_spots() -> None:
    instance = normalize(random_tree(9, 5), progression(9), {}).instance
    found = quasi_stationary_trying(instance, seed=1)
    assert found is not None
    plain, error = simulated_trying(instance, seed=2)
    assert abs(found[0] - plain) < 3 * (found[1] ** 2 + error**2) ** 0.5


@pytest.mark.slow
def test_the_errors_of_the_quasi_stationary_estimate_are_as_large_as_they_are_said_to_be() -> None:
    instance = normalize(random_tree(8, 3), progression(8), {}).instance
    exact = expected_trying(instance, 0).mean
    scores = [
        (estimate - exact) / error
        for estimate, error in (quasi_stationary_trying(instance, seed) for seed in range(60))
    ]
    assert abs(mean(scores)) < 0.4
    assert 0.75 < stdev(scores) < 1.3


@pytest.mark.parametrize("n", [10, 11, 12])
def test_work_is_told_within_three_per_cent_as_far_as_solutions_are_counted(n: int) -> None:
    instance = normalize(random_tree(n, 1), progression(n), {}).instance
    found = expected_trying(instance, seed=1)
    assert 0 < found.error <= 0.03 * found.mean


def test_work_is_told_where_given_numbers_leave_few_solutions() -> None:
    tree = random_tree(11, 5)
    solution = next(every_solution(tree, progression(11), {}))
    given = dict(enumerate(solution[:2]))
    assert len(list(every_solution(tree, progression(11), given))) < 100
    found = expected_trying(normalize(tree, progression(11), given).instance, seed=1)
    assert 0 < found.error <= 0.03 * found.mean


def test_where_solutions_are_beyond_counting_there_is_no_quasi_stationary_estimate() -> None:
    assert (
        quasi_stationary_trying(normalize(random_tree(13, 1), progression(13), {}).instance, 0)
        is None
    )
    assert quasi_stationary_trying(normalize(star(12), progression(12), {}).instance, 0) is None


def test_nine_spots_are_simulated_within_three_per_cent_and_from_the_seed_alone() -> None:
    instance = normalize(star(9), progression(9), {}).instance
    once, again, other = (expected_trying(instance, seed) for seed in (1, 1, 2))
    assert once == again != other
    assert 0 < once.error <= 0.03 * once.mean


def test_a_page_beyond_trying_is_given_up_with_an_error_as_large_as_the_estimate() -> None:
    instance = normalize(random_tree(20, 3), progression(20), {}).instance
    estimate, error = simulated_trying(instance, seed=0, first_look=50_000)
    assert estimate > 1000
    assert error > 0.9 * estimate


def test_who_has_no_choice_left_does_each_subtraction_once() -> None:
    numbers = progression(4)
    solution = (numbers[0], numbers[3], numbers[1], numbers[2])
    assert work(path(4), numbers, dict(enumerate(solution))) == 3
    assert work(path(4), numbers, dict(enumerate(solution[:3]))) == 3


def test_costs_are_the_links_that_touch_exactly_one_of_two_spots() -> None:
    tree = random_tree(7, 2)
    instance = normalize(tree, progression(7), {}).instance
    costs = Pupils(instance).costs
    for a, b in combinations(range(7), 2):
        touched = sum(len({a, b} & set(edge)) == 1 for edge in instance.tree.edges)
        assert costs[a, b] == costs[b, a] == touched
