"""Certificates against brute force over all arrangements, and the laws that counts obey."""

from __future__ import annotations

from fractions import Fraction
from math import factorial
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookmaker.cache import Cache, MemoryCache
from bookmaker.model import Certificate
from bookmaker.puzzle import Tree, Unsolvable, breaches, certify, rarity
from tests.puzzle.reference import (
    all_trees,
    brute_force,
    is_solved,
    orbits,
    path,
    progression,
    random_tree,
    star,
)

KEPT = MemoryCache()  # the same for an empty and a warm cache: tested below


def certificate_or_none(tree, numbers, given, cache: Cache = KEPT) -> Certificate | None:
    try:
        return certify(tree, numbers, given, cache=cache)
    except Unsolvable as verdict:
        assert verdict.proved
        return None


def agrees_with_brute_force(tree, numbers, given) -> None:
    solutions = brute_force(tree, numbers, given)
    certificate = certificate_or_none(tree, numbers, given)
    if certificate is None:
        assert not solutions
        return
    assert certificate.solution in solutions
    assert certificate.solutions == len(solutions)
    assert certificate.distinct_solutions == len(orbits(tree, numbers, given, solutions))


@pytest.mark.parametrize("n", range(1, 8))
def test_every_tree_up_to_seven_spots_has_as_many_solutions_as_brute_force_finds(n: int) -> None:
    for tree in all_trees(n):
        certificate = certify(tree, progression(n), {}, cache=KEPT)
        solutions = brute_force(tree, progression(n))
        assert certificate.solutions == len(solutions), tree
        assert certificate.solution in solutions


@pytest.mark.parametrize("n", range(1, 8))
def test_rarity_is_arrangements_divided_by_the_solutions_that_brute_force_finds(n: int) -> None:
    for tree in all_trees(n):
        solutions = brute_force(tree, progression(n))
        assert rarity(tree, progression(n), cache=KEPT) == factorial(n) / len(solutions)


def test_rarity_is_not_told_beyond_counting() -> None:
    assert rarity(path(13), progression(13), cache=KEPT) is None


@pytest.mark.parametrize("n", range(1, 7))
def test_distinct_solutions_are_the_orbits_of_what_brute_force_finds(n: int) -> None:
    for tree in all_trees(n):
        agrees_with_brute_force(tree, progression(n), {})


def puzzles(count: int, largest: int) -> list[tuple[Tree, tuple[Fraction, ...], int]]:
    """Random trees with random lists: tight, loose, symmetric and with fractions."""
    chance = Random(2024)
    found = []
    for i in range(count):
        n = chance.randint(2, largest)
        kind = i % 4
        pool = range(n + 2) if kind == 0 else range(3 * n)
        numbers = sorted(chance.sample(pool, n))
        if kind == 1:  # its own mirror image
            half = sorted(chance.sample(range(2 * n), n // 2))
            middle = [2 * n] if n % 2 else []
            numbers = [*half, *middle, *(4 * n - x for x in reversed(half))]
        below = chance.choice([1, 1, 3, 10])
        values = tuple(Fraction(x, below) for x in numbers)
        found.append((random_tree(n, chance.randrange(10**6)), values, chance.randrange(10**6)))
    return found


@pytest.mark.parametrize("part", range(4))
def test_two_hundred_lists_of_numbers_have_the_solutions_that_brute_force_finds(part: int) -> None:
    for tree, numbers, _ in puzzles(200, 6)[part::4]:
        agrees_with_brute_force(tree, numbers, {})


@pytest.mark.parametrize("part", range(4))
def test_given_numbers_leave_the_solutions_that_brute_force_finds(part: int) -> None:
    for tree, numbers, seed in puzzles(200, 6)[part::4]:
        chance = Random(seed)
        spots = chance.sample(range(tree.n), chance.randint(1, tree.n))
        own = progression(tree.n, start=4, step=3) if seed % 2 else numbers
        agrees_with_brute_force(
            tree, own, dict(zip(spots, chance.sample(own, len(spots)), strict=True))
        )


@pytest.mark.slow
@pytest.mark.parametrize("part", range(4))
def test_longer_lists_have_the_solutions_that_brute_force_finds(part: int) -> None:
    for tree, numbers, _ in puzzles(40, 8)[part::4]:
        certificate = certificate_or_none(tree, numbers, {})
        assert (certificate.solutions if certificate else 0) == len(brute_force(tree, numbers))


def test_given_numbers_that_the_mirror_exchanges_halve_the_distinct_solutions() -> None:
    numbers = progression(5)
    given = {0: numbers[1], 4: numbers[-2]}
    certificate = certify(path(5), numbers, given, cache=KEPT)
    assert certificate.solutions == 2 * certificate.distinct_solutions > 0
    agrees_with_brute_force(path(5), numbers, given)
    agrees_with_brute_force(path(7), progression(7), {3: Fraction(7)})


def test_a_star_of_six_is_solved_one_time_in_three() -> None:
    certificate = certify(star(6), progression(6), {}, cache=KEPT)
    assert (certificate.solutions, certificate.one_in) == (240, 3.0)  # common practice, no source
    assert certificate.solution[0] in (Fraction(1), Fraction(11))


def test_one_in_counts_only_arrangements_that_agree_with_what_is_given() -> None:
    certificate = certify(star(6), progression(6), {0: Fraction(1)}, cache=KEPT)
    assert (certificate.solutions, certificate.one_in) == (120, 1.0)


def test_numbers_that_rule_each_other_out_are_proved_unsolvable() -> None:
    with pytest.raises(Unsolvable) as verdict:
        certify(path(3), progression(3), {1: Fraction(3)}, cache=KEPT)
    assert verdict.value.proved


def test_a_large_page_is_certified_without_counts() -> None:
    tree = random_tree(20, 1)
    certificate = certify(tree, progression(20), {}, cache=MemoryCache(), seed=1)
    assert certificate.solutions is certificate.distinct_solutions is certificate.one_in is None
    assert breaches(tree.edges, progression(20), {}, certificate.solution) == ()
    assert certificate.band == "sheer"


@pytest.mark.parametrize(
    ("numbers", "given"),
    [
        ((1, 3), {}),
        ((1, 3, 3), {}),
        ((1, 3, 5, 7), {}),
        ((1, 3, 5), {0: Fraction(2)}),
        ((1, 3, 5), {3: Fraction(1)}),
        ((1, 3, 5), {0: Fraction(1), 1: Fraction(1)}),
    ],
)
def test_numbers_that_do_not_fit_the_tree_are_refused(numbers, given) -> None:
    with pytest.raises(ValueError):
        certify(path(3), tuple(map(Fraction, numbers)), given, cache=KEPT)


trees = st.builds(random_tree, st.integers(3, 8), st.integers(0, 10**6))


@settings(max_examples=40, deadline=None)
@given(trees, st.integers(0, 100), st.fractions(Fraction(1, 20), 20))
def test_another_start_and_step_change_no_count(tree: Tree, start: int, step: Fraction) -> None:
    plain = certify(tree, progression(tree.n), {}, cache=KEPT)
    numbers = tuple(start + i * step for i in range(tree.n))
    moved = certify(tree, numbers, {}, cache=KEPT)
    assert is_solved(tree, moved.solution)
    assert set(moved.solution) == set(numbers)
    assert (moved.solutions, moved.distinct_solutions, moved.work) == (
        plain.solutions,
        plain.distinct_solutions,
        plain.work,
    )


@settings(max_examples=40, deadline=None)
@given(trees, st.randoms(use_true_random=False), st.booleans())
def test_other_names_for_the_spots_change_no_count(tree: Tree, chance, give: bool) -> None:
    numbers = progression(tree.n)
    spots = {0: numbers[1], 2: numbers[0]} if give else {}
    order = tuple(chance.sample(range(tree.n), tree.n))
    renamed = {order.index(v): x for v, x in spots.items()}
    one = certificate_or_none(tree, numbers, spots, MemoryCache())
    other = certificate_or_none(tree.relabelled(order), numbers, renamed, MemoryCache())
    if one is None or other is None:
        assert one is other is None
        return
    assert (one.shape, one.solutions, one.distinct_solutions, one.work) == (
        other.shape,
        other.solutions,
        other.distinct_solutions,
        other.work,
    )


@settings(max_examples=40, deadline=None)
@given(trees)
def test_the_mirror_of_a_solution_is_a_solution(tree: Tree) -> None:
    numbers = progression(tree.n)
    solution = certify(tree, numbers, {}, cache=KEPT).solution
    mirror = tuple(numbers[0] + numbers[-1] - x for x in solution)
    assert breaches(tree.edges, numbers, {}, mirror) == ()


@pytest.mark.parametrize("n", [4, 7, 9])
def test_an_empty_and_a_warm_cache_give_the_same_certificate(n: int) -> None:
    cache = MemoryCache()
    tree = random_tree(n, 5)
    first = certify(tree, progression(n), {}, cache=cache)
    order = tuple(Random(1).sample(range(n), n))
    again = certify(tree.relabelled(order), progression(n, 8, 7), {}, cache=cache)
    afresh = certify(tree.relabelled(order), progression(n, 8, 7), {}, cache=MemoryCache())
    assert again == afresh
    assert certify(tree, progression(n), {}, cache=cache) == first
