"""All solutions: each once up to symmetry and mirror, and the same sets as CP-SAT's."""

from __future__ import annotations

from fractions import Fraction
from itertools import islice

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookmaker.puzzle import every_solution, exchangeable
from bookmaker.puzzle.instance import normalize
from bookmaker.puzzle.solutions import all_solutions
from tests.puzzle.reference import (
    all_trees,
    brute_force,
    is_solved,
    orbits,
    path,
    progression,
    random_tree,
    star,
    unfolded,
)
from tests.puzzle.solver_reference import cp_sat_solutions


def meets_each_orbit_once(tree, numbers, given) -> None:
    listed = list(every_solution(tree, numbers, given))
    classes = orbits(tree, numbers, given, brute_force(tree, numbers, given))
    assert len(listed) == len(set(listed)) == len(classes)
    assert all(any(solution in orbit for solution in listed) for orbit in classes)


@pytest.mark.parametrize("n", range(1, 7))
def test_each_solution_is_listed_once_up_to_symmetry_and_mirror(n: int) -> None:
    for tree in all_trees(n):
        meets_each_orbit_once(tree, progression(n), {})


@settings(max_examples=60, deadline=None)
@given(
    st.integers(2, 6), st.integers(0, 10**6), st.randoms(use_true_random=False), st.integers(0, 3)
)
def test_given_numbers_and_other_lists_are_listed_as_well(n: int, seed: int, chance, k) -> None:
    tree = random_tree(n, seed)
    numbers = progression(n, 8, 7)
    if chance.random() < 0.5:
        numbers = tuple(Fraction(x) for x in sorted(chance.sample(range(2 * n), n)))
    k = min(k, n)
    spots = dict(zip(chance.sample(range(n), k), chance.sample(numbers, k), strict=True))
    meets_each_orbit_once(tree, numbers, spots)


@pytest.mark.parametrize("n", range(3, 8))
def test_all_solutions_unfolded_are_those_of_cp_sat(n: int) -> None:
    for tree in all_trees(n):
        assert unfolded(tree, every_solution(tree, progression(n), {})) == cp_sat_solutions(tree)


@pytest.mark.slow
def test_all_solutions_of_eight_spots_unfolded_are_those_of_cp_sat() -> None:
    for tree in all_trees(8):
        assert unfolded(tree, every_solution(tree, progression(8), {})) == cp_sat_solutions(tree)


@pytest.mark.parametrize("n", range(1, 7))
def test_unfolding_gives_every_solution_once(n: int) -> None:
    for tree in all_trees(n):
        normal = normalize(tree, progression(n), {})
        unfolded_here = [
            normal.denormalize(solution) for solution in all_solutions(normal.instance)
        ]
        assert len(unfolded_here) == len(set(unfolded_here))
        assert set(unfolded_here) == brute_force(tree, progression(n))


def test_solutions_are_streamed_where_they_are_too_many_to_list() -> None:
    tree = random_tree(12, 4)
    squares = tuple(Fraction(i * i) for i in range(12))
    first = list(islice(every_solution(tree, squares, {}), 100))
    assert len(set(first)) == 100
    assert all(is_solved(tree, solution) for solution in first)


def test_the_order_does_not_depend_on_the_names_of_the_spots() -> None:
    tree = random_tree(7, 9)
    renamed = tree.relabelled((3, 1, 6, 0, 2, 5, 4))
    back = (3, 1, 6, 0, 2, 5, 4)
    listed = list(every_solution(tree, progression(7), {}))
    other = list(every_solution(renamed, progression(7), {}))
    assert [tuple(solution[v] for v in back) for solution in listed] == other


def test_spots_that_may_be_exchanged_are_named() -> None:
    assert exchangeable(star(5), {}) == (((1,), (2,), (3,), (4,)),)
    assert exchangeable(star(5), {2: Fraction(3)}) == (((1,), (3,), (4,)),)
    assert exchangeable(path(5), {}) == (((1, 0), (3, 4)),)
    assert exchangeable(path(5), {1: Fraction(3)}) == ()
