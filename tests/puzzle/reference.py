"""References that share no code with the solver: brute force, networkx, a pupil written apart."""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import permutations

import networkx as nx
from networkx.algorithms.isomorphism import GraphMatcher

from bookmaker.puzzle import Tree


def progression(n: int, start: int = 1, step: int = 2) -> tuple[Fraction, ...]:
    return tuple(Fraction(start + step * i) for i in range(n))


def all_trees(n: int) -> Iterator[Tree]:
    """One tree of each shape, with its vertices named at random, as networkx lists them."""
    if n == 1:
        yield Tree(1, ())
        return
    shuffle = random.Random(n)
    for graph in nx.nonisomorphic_trees(n):
        names = shuffle.sample(range(n), n)
        yield Tree(n, tuple((names[a], names[b]) for a, b in graph.edges()))


def random_tree(n: int, seed: int) -> Tree:
    if n == 1:
        return Tree(1, ())
    return Tree(n, tuple(nx.random_labeled_tree(n, seed=seed).edges()))


def path(n: int) -> Tree:
    return Tree(n, tuple((i, i + 1) for i in range(n - 1)))


def star(n: int) -> Tree:
    return Tree(n, tuple((0, i) for i in range(1, n)))


def graph_of(tree: Tree) -> nx.Graph:
    graph = nx.Graph(list(tree.edges))
    graph.add_nodes_from(range(tree.n))
    return graph


def automorphisms(tree: Tree) -> list[dict[int, int]]:
    graph = graph_of(tree)
    return list(GraphMatcher(graph, graph).isomorphisms_iter())


def is_solved(tree: Tree, numbers_at: Sequence[Fraction]) -> bool:
    differences = [abs(numbers_at[a] - numbers_at[b]) for a, b in tree.edges]
    return len(set(differences)) == len(differences)


def brute_force(
    tree: Tree, numbers: Sequence[Fraction], given: Mapping[int, Fraction] | None = None
) -> set[tuple[Fraction, ...]]:
    """Every solution, out of all n! arrangements."""
    return {
        arrangement
        for arrangement in permutations(numbers)
        if all(arrangement[v] == x for v, x in (given or {}).items())
        and is_solved(tree, arrangement)
    }


def images(
    tree: Tree, numbers: Sequence[Fraction], given: Mapping[int, Fraction]
) -> list[tuple[dict[int, int], bool]]:
    """Symmetries, each with and without the mirror, that keep what is given where it is."""
    total = min(numbers) + max(numbers)
    has_mirror = {total - x for x in numbers} == set(numbers)
    kept = []
    for moves in automorphisms(tree):
        for mirrored in (False, True) if has_mirror else (False,):
            carried = {moves[v]: total - x if mirrored else x for v, x in given.items()}
            if carried == dict(given):
                kept.append((moves, mirrored))
    return kept


def orbits(
    tree: Tree,
    numbers: Sequence[Fraction],
    given: Mapping[int, Fraction],
    solutions: set[tuple[Fraction, ...]],
) -> list[frozenset[tuple[Fraction, ...]]]:
    """The solutions, grouped by what symmetries and mirror carry into each other."""
    total = min(numbers) + max(numbers)
    group = images(tree, numbers, given)
    found = set()
    for solution in solutions:
        orbit = set()
        for moves, mirrored in group:
            image = {moves[v]: total - x if mirrored else x for v, x in enumerate(solution)}
            orbit.add(tuple(image[v] for v in range(tree.n)))
        found.add(frozenset(orbit))
    return list(found)


def pupil(
    tree: Tree, numbers: Sequence[int], given: Mapping[int, int], chance: random.Random
) -> int:
    """The subtractions of one pupil, written from the definition of work and nothing else."""
    free = [v for v in range(tree.n) if v not in given]
    left = [x for x in numbers if x not in given.values()]
    chance.shuffle(left)
    at = {**given, **dict(zip(free, left, strict=True))}
    subtractions = tree.n - 1
    while True:
        difference = {(a, b): abs(at[a] - at[b]) for a, b in tree.edges}
        all_of_them = list(difference.values())
        clashing = [
            link
            for link in tree.edges
            if all_of_them.count(difference[link]) > 1 and not set(link) <= set(given)
        ]
        if not clashing:
            return subtractions
        one = chance.choice([v for v in chance.choice(clashing) if v not in given])
        other = chance.choice([v for v in free if v != one])
        at[one], at[other] = at[other], at[one]
        subtractions += sum(1 for link in tree.edges if len({one, other} & set(link)) == 1)


def unfolded(tree: Tree, solutions: Iterable[tuple[Fraction, ...]]) -> set[tuple[Fraction, ...]]:
    """All images of solutions in a progression under the symmetries and the mirror."""
    found = set()
    group = automorphisms(tree)
    for solution in solutions:
        total = min(solution) + max(solution)
        for numbers in (solution, tuple(total - x for x in solution)):
            for moves in group:
                image = {moves[v]: x for v, x in enumerate(numbers)}
                found.add(tuple(image[v] for v in range(tree.n)))
    return found
