"""Marks of arrangements right, wrong, unfinished and misread."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, permutations
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookmaker.puzzle import Clash, Miscalculation, breaches, mark
from bookmaker.puzzle.mending import fewest_changes
from tests.puzzle.reference import brute_force, is_solved, path, progression, random_tree, star

NUMBERS = progression(5)
TREE = path(5)


def at(*numbers: int) -> dict[int, Fraction]:
    return {v: Fraction(x) for v, x in enumerate(numbers)}


def test_a_solution_is_right() -> None:
    marking = mark(TREE, NUMBERS, {}, at(1, 9, 3, 7, 5))
    assert marking.right
    assert marking.swap is None and marking.mends_at_clashes is None


def test_clashes_are_named_link_by_link() -> None:
    marking = mark(TREE, NUMBERS, {}, at(1, 3, 5, 9, 7))
    assert not marking.right
    assert marking.clashes == (Clash(Fraction(2), (0, 1, 3)),)


def test_several_clashes_come_by_their_difference() -> None:
    marking = mark(TREE, NUMBERS, {}, at(5, 9, 7, 3, 1))
    assert marking.clashes == (Clash(Fraction(2), (1, 3)), Clash(Fraction(4), (0, 2)))


def test_what_is_no_arrangement_is_told_in_every_part() -> None:
    answer = {0: Fraction(1), 1: Fraction(9), 2: Fraction(9), 3: Fraction(4)}
    marking = mark(TREE, NUMBERS, {0: Fraction(3)}, answer)
    assert marking.empty == (4,)
    assert marking.missing == (Fraction(3), Fraction(5), Fraction(7))
    assert marking.repeated == ((Fraction(9), (1, 2)),)
    assert marking.foreign == (3,)
    assert marking.moved == (0,)
    assert not marking.is_arrangement and not marking.right
    assert marking.swaps == () and marking.mends_at_clashes is None


def test_given_numbers_need_not_be_written_again() -> None:
    answer = at(1, 9, 3, 7, 5)
    del answer[0]
    assert mark(TREE, NUMBERS, {0: Fraction(1)}, answer).right


def test_differences_worked_out_wrongly_are_told_beside_the_right_ones() -> None:
    written = {0: Fraction(8), 1: Fraction(5), 3: Fraction(2)}
    marking = mark(TREE, NUMBERS, {}, at(1, 9, 3, 7, 5), written)
    assert marking.right
    assert marking.miscalculations == (Miscalculation(1, Fraction(5), Fraction(6)),)


def test_a_difference_beside_an_empty_spot_is_left_alone() -> None:
    assert mark(TREE, NUMBERS, {}, {0: Fraction(1)}, {0: Fraction(3)}).miscalculations == ()


arrangements = st.builds(
    lambda n, seed, chance: (random_tree(n, seed), chance.sample(progression(n), n)),
    st.integers(3, 7),
    st.integers(0, 10**6),
    st.randoms(use_true_random=False),
)


@settings(max_examples=80, deadline=None)
@given(arrangements, st.booleans())
def test_swaps_are_all_those_that_mend(arrangement, give: bool) -> None:
    tree, numbers_at = arrangement
    given = {0: numbers_at[0]} if give else {}
    marking = mark(tree, progression(tree.n), given, dict(enumerate(numbers_at)))
    assert marking.right == is_solved(tree, numbers_at)
    mending = []
    for a, b in combinations(range(int(give), tree.n), 2):
        swapped = list(numbers_at)
        swapped[a], swapped[b] = swapped[b], swapped[a]
        if not breaches(tree.edges, progression(tree.n), given, swapped):
            mending.append((a, b))
    assert marking.swaps == (() if marking.right else tuple(mending))
    assert marking.swap == (marking.swaps[0] if marking.swaps else None)


@settings(max_examples=60, deadline=None)
@given(arrangements)
def test_whether_the_clashes_alone_can_be_mended_is_what_brute_force_says(arrangement) -> None:
    tree, numbers_at = arrangement
    marking = mark(tree, progression(tree.n), {}, dict(enumerate(numbers_at)))
    if marking.right:
        return
    at_clashes = {v for c in marking.clashes for link in c.links for v in tree.edges[link]}
    kept = {v: x for v, x in enumerate(numbers_at) if v not in at_clashes}
    mendable = bool(brute_force(tree, progression(tree.n), kept))
    assert marking.mends_at_clashes == mendable


def test_a_large_arrangement_is_marked_in_a_moment() -> None:
    tree = random_tree(30, 4)
    marking = mark(tree, progression(30), {}, dict(enumerate(progression(30))))
    assert not marking.right
    assert marking.mends_at_clashes in (True, False, None)


def changed(solution, answer) -> int:
    return sum(solution[v] != x for v, x in answer.items())


@pytest.mark.parametrize("seed", range(60))
def test_no_fewer_changes_mend_an_answer_than_the_nearest_solution_asks_for(seed: int) -> None:
    """Arrangements, numbers twice, numbers of no page, given numbers written over."""
    chance = Random(seed)
    n = chance.randint(2, 6)
    tree = random_tree(n, seed)
    numbers = progression(n)
    if seed % 3 == 0:
        numbers = tuple(Fraction(x) for x in sorted(chance.sample(range(2 * n), n)))
    solutions = sorted(brute_force(tree, numbers))
    if not solutions:
        return
    kept = chance.choice(solutions)
    given = {v: kept[v] for v in chance.sample(range(n), chance.choice((0, 0, 1, n // 2)))}
    solutions = [s for s in solutions if all(s[v] == x for v, x in given.items())]
    choices = chance.sample(numbers, n), chance.choices([*numbers, Fraction(99)], k=n)
    answer = dict(enumerate(chance.choice(choices)))
    marking = mark(tree, numbers, given, answer)
    nearest = min(changed(solution, answer) for solution in solutions)
    if nearest == 0:
        assert marking.right and marking.mend is None
        return
    assert marking.mend is not None and marking.mend.proved
    assert len(marking.mend.changes) == nearest
    mended = {**answer, **dict(marking.mend.changes)}
    assert mark(tree, numbers, given, mended).right
    assert tuple(mended[v] for v in range(n)) in solutions


def test_where_the_steps_run_out_a_mend_is_at_most() -> None:
    tree, numbers = random_tree(20, 3), progression(20)
    answer = dict(enumerate(numbers))
    mend = fewest_changes(tree, numbers, {}, answer, steps=100)
    assert mend is not None and not mend.proved
    assert mark(tree, numbers, {}, {**answer, **dict(mend.changes)}).right


def test_an_unfinished_answer_and_a_page_without_a_solution_are_not_mended() -> None:
    assert mark(TREE, NUMBERS, {}, {0: Fraction(1)}).mend is None
    # A star of five with 3 in its middle: 1 and 5 both give 2.
    middle = {0: Fraction(3)}
    assert mark(star(5), NUMBERS, middle, at(3, 1, 5, 7, 9)).mend is None


def test_an_arrangement_is_right_exactly_where_it_solves_the_page() -> None:
    tree = path(4)
    right = {
        order
        for order in permutations(progression(4))
        if mark(tree, progression(4), {}, dict(enumerate(order))).right
    }
    assert right == brute_force(tree, progression(4))


def test_numbers_that_do_not_fit_the_page_are_refused_where_they_matter() -> None:
    with pytest.raises(ValueError):
        mark(path(3), progression(4)[1:] + progression(4)[1:], {}, at(3, 5, 7))
