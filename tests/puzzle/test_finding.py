"""One solution of trees however large, and honesty where none is found."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.puzzle import Tree, Unsolvable
from bookmaker.puzzle.finding import caterpillar, find
from bookmaker.puzzle.instance import normalize
from tests.puzzle.reference import all_trees, progression, random_tree, star


def found(tree: Tree, numbers, given=None, **bounds) -> tuple[Fraction, ...]:
    normal = normalize(tree, numbers, given or {})
    return normal.denormalize(find(normal.instance, seed=1, **bounds))


def is_sound(tree: Tree, numbers, solution) -> bool:
    differences = {abs(solution[a] - solution[b]) for a, b in tree.edges}
    return set(solution) == set(numbers) and len(differences) == tree.n - 1


def primes(n: int) -> tuple[Fraction, ...]:
    return tuple(Fraction(x) for x in range(2, 200) if all(x % y for y in range(2, x)))[:n]


@given(st.integers(1, 35), st.randoms(use_true_random=False))
def test_the_closed_form_solves_caterpillars_with_any_numbers(spine: int, chance) -> None:
    links = [(i, i + 1) for i in range(spine - 1)]
    for leaf in range(spine, chance.randint(spine, 36)):
        links.append((chance.randrange(spine), leaf))
    tree = Tree(len(links) + 1, tuple(links))
    numbers = tuple(Fraction(x) for x in sorted(chance.sample(range(100), tree.n)))
    places = caterpillar(tree)
    assert is_sound(tree, numbers, [numbers[place] for place in places])


@pytest.mark.parametrize("n", range(1, 11))
def test_every_caterpillar_has_a_solution_by_the_closed_form(n: int) -> None:
    # Rosa 1967, in Theory of Graphs (Rome 1966), 349-355.
    for tree in all_trees(n):
        if tree.is_caterpillar:
            assert is_sound(tree, range(n), caterpillar(tree))


@pytest.mark.parametrize("n", [13, 21, 35])
def test_random_trees_up_to_thirty_five_spots_are_solved(n: int) -> None:
    # Every tree of at most 35 vertices has a solution: Fang 2010, arXiv:1003.3045.
    for seed in range(12):
        tree = random_tree(n, seed)
        assert is_sound(tree, progression(n), found(tree, progression(n)))


def awkward_trees() -> dict[str, Tree]:
    binary = nx.balanced_tree(2, 4)
    ternary = nx.balanced_tree(3, 3)
    legs = [(0, 1 + 4 * leg) for leg in range(8)]
    legs += [(4 * leg + k, 4 * leg + k + 1) for leg in range(8) for k in (1, 2, 3)]
    comb = [(i, i + 1) for i in range(10)] + [(i, 11 + 2 * i) for i in range(11)]
    comb += [(11 + 2 * i, 12 + 2 * i) for i in range(11)]
    return {
        "binary of 31": Tree(31, tuple(binary.edges())),
        "ternary of 35": Tree(35, tuple(e for e in ternary.edges() if max(e) < 35)),
        "spider with eight legs of four": Tree(33, tuple(legs)),
        "comb with teeth of two": Tree(33, tuple(comb)),
    }


@pytest.mark.parametrize("name", awkward_trees())
def test_regular_trees_are_solved_as_well(name: str) -> None:
    tree = awkward_trees()[name]
    assert is_sound(tree, progression(tree.n), found(tree, progression(tree.n)))


@pytest.mark.parametrize("seed", range(6))
def test_trees_of_diameter_at_most_five_are_solved(seed: int) -> None:
    # Hrnciar and Haviar 2001, Discrete Math. 233.
    chance = Random(seed)
    links = [(0, 1)] + [(chance.randrange(2), v) for v in range(2, 10)]
    links += [(chance.randrange(2, 10), v) for v in range(10, 30)]
    tree = Tree(30, tuple(links))
    assert tree.diameter <= 5
    assert is_sound(tree, progression(30), found(tree, progression(30)))


@pytest.mark.parametrize("left_out", [1, 17, 34])
def test_a_progression_with_a_hole_is_solved_on_large_trees(left_out: int) -> None:
    numbers = tuple(Fraction(x) for x in range(36) if x != left_out)
    for seed in range(3):
        tree = random_tree(35, seed)
        assert is_sound(tree, numbers, found(tree, numbers))


def test_primes_and_squares_are_solved_on_large_trees() -> None:
    tree = random_tree(35, 3)
    for numbers in (primes(35), tuple(Fraction(i * i) for i in range(35))):
        assert is_sound(tree, numbers, found(tree, numbers))


def test_given_numbers_are_kept_on_large_trees() -> None:
    tree = random_tree(20, 8)
    numbers = progression(20)
    given = {tree.degrees.index(max(tree.degrees)): Fraction(1), 11: Fraction(19)}
    solution = found(tree, numbers, given)
    assert is_sound(tree, numbers, solution)
    assert {v: solution[v] for v in given} == given


def test_the_same_seed_finds_the_same_solution() -> None:
    tree = random_tree(30, 2)
    assert found(tree, progression(30)) == found(tree, progression(30))


def test_what_can_not_be_ruled_out_is_said_to_be_not_found() -> None:
    # With 5 in the middle of a star, 3 and 7 clash wherever they stand.
    with pytest.raises(Unsolvable) as verdict:
        found(star(20), primes(20), {0: Fraction(5)}, tries=1)
    assert not verdict.value.proved
    assert verdict.value.steps == 400


def test_a_large_page_is_proved_unsolvable_where_the_search_runs_dry() -> None:
    tree = star(20)
    with pytest.raises(Unsolvable) as verdict:
        found(tree, progression(20), {0: Fraction(3), 1: Fraction(1), 2: Fraction(5)})
    assert verdict.value.proved


def test_eight_spots_are_proved_unsolvable_whatever_the_numbers() -> None:
    with pytest.raises(Unsolvable) as verdict:
        found(star(8), tuple(map(Fraction, (1, 2, 3, 4, 6, 8, 11, 20))), {0: Fraction(2)})
    assert verdict.value.proved
