"""Propagation on pages with many given numbers, against OR-Tools CP-SAT."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest

from bookmaker.puzzle import Tree, Unsolvable
from bookmaker.puzzle.finding import find
from bookmaker.puzzle.instance import Normalized, normalize
from bookmaker.puzzle.propagation import OutOfFailures, propagating
from tests.puzzle.reference import brute_force, progression, random_tree, star
from tests.puzzle.solver_reference import is_solvable


def is_sound(normal: Normalized, tree: Tree, given, solution) -> bool:
    at = normal.denormalize(solution)
    differences = {abs(at[a] - at[b]) for a, b in tree.edges}
    kept = all(at[v] == x for v, x in given.items())
    return kept and sorted(at) == list(normal.numbers) and len(differences) == tree.n - 1


def random_page(seed: int, n: int, uneven: bool, given: int) -> tuple[Tree, list[int], dict]:
    """A page with ``given`` numbers of a solution; every other time two of them are exchanged."""
    chance = Random(seed)
    tree = random_tree(n, seed)
    numbers = sorted(chance.sample(range(2 * n), n)) if uneven else list(range(n))
    normal = normalize(tree, list(map(Fraction, numbers)), {})
    solution = normal.denormalize(find(normal.instance, seed))
    held = {v: solution[v] for v in chance.sample(range(n), given)}
    if seed % 2:
        one, other = chance.sample(sorted(held), 2)
        held[one], held[other] = held[other], held[one]
    return tree, numbers, held


@pytest.mark.parametrize("uneven", [False, True])
@pytest.mark.parametrize("seed", range(12))
def test_propagation_says_what_the_other_solver_says(seed: int, uneven: bool) -> None:
    n = 13 + seed
    tree, numbers, given = random_page(seed, n, uneven, given=n // 2)
    normal = normalize(tree, list(map(Fraction, numbers)), given)
    try:
        solution = propagating(normal.instance, Random(0))
    except OutOfFailures:
        pytest.fail("it gave up")
    verdict = is_solvable(tree, numbers, {v: int(x) for v, x in given.items()})
    assert verdict is not None
    assert (solution is not None) == verdict
    assert solution is None or is_sound(normal, tree, given, solution)


@pytest.mark.parametrize("seed", range(30))
def test_on_small_pages_propagation_says_what_brute_force_says(seed: int) -> None:
    chance = Random(seed)
    n = chance.randint(2, 6)
    tree, numbers = random_tree(n, seed), progression(n)
    if seed % 3:
        numbers = tuple(Fraction(x) for x in sorted(chance.sample(range(2 * n), n)))
    held = dict(zip(chance.sample(range(n), n // 2), chance.sample(numbers, n // 2), strict=True))
    normal = normalize(tree, numbers, held)
    found = propagating(normal.instance, Random(seed))
    assert (found is not None) == bool(brute_force(tree, numbers, held))
    assert found is None or is_sound(normal, tree, held, found)


@pytest.mark.parametrize("given", [15, 17, 19, 21])
def test_thirty_five_spots_with_many_given_numbers_are_solved(given: int) -> None:
    for seed in range(0, 6, 2):
        tree, numbers, held = random_page(seed, 35, uneven=False, given=given)
        normal = normalize(tree, list(map(Fraction, numbers)), held)
        assert is_sound(normal, tree, held, find(normal.instance, seed=0))


def test_a_page_that_the_searches_could_not_settle_is_proved_to_have_no_solution() -> None:
    # With 2 in the middle of a star of 20, 1 and 3 both give 1.
    normal = normalize(star(20), progression(20, 0, 1), {0: Fraction(2)})
    with pytest.raises(Unsolvable) as verdict:
        find(normal.instance, seed=0)
    assert verdict.value.proved


def test_who_may_meet_no_dead_end_gives_up() -> None:
    tree = random_tree(35, 2)
    with pytest.raises(OutOfFailures):
        propagating(normalize(tree, progression(35), {}).instance, Random(0), most_failures=1)
