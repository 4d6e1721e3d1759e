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


class Builder:
    """One building pupil, written from the definition in words and nothing else."""

    def __init__(
        self, tree: Tree, numbers: Sequence[int], given: Mapping[int, int], liberties: bool
    ) -> None:
        self.links = [frozenset(edge) for edge in tree.edges]
        self.numbers, self.given, self.liberties = sorted(numbers), dict(given), liberties
        self.spots = range(tree.n)
        self.all_differences = sorted(
            {abs(a - b) for a in numbers for b in numbers if a != b}, reverse=True
        )

    def written(self, at: Mapping[int, int]) -> list[int]:
        ends = [tuple(link) for link in self.links]
        return [abs(at[a] - at[b]) for a, b in ends if a in at and b in at]

    def fits(self, before: dict[int, int], after: dict[int, int], difference: int) -> bool:
        """Every difference that came about is new, none is larger, and this one is among them."""
        fresh = list(self.written(after))
        for old in self.written(before):
            fresh.remove(old)
        together = self.written(after)
        return (
            difference in fresh and max(fresh) == difference and len(set(together)) == len(together)
        )

    def options(self, at: dict[int, int], d: int) -> list[dict[int, int]]:
        """All that he may do about difference ``d``, as the page after it."""
        empty = [v for v in self.spots if v not in at]
        unused = [x for x in self.numbers if x not in at.values()]
        singles = [
            {**at, v: x}
            for v in empty
            for x in unused
            if any(abs(x - at[w]) == d for w in at if {v, w} in self.links)
        ]
        found = [page for page in singles if self.fits(at, page, d)]
        if not found or self.liberties:
            doubles = [
                {**at, a: x, b: y}
                for a in empty
                for b in empty
                if {a, b} in self.links
                for x in unused
                for y in unused
                if y - x == d
            ]
            found += [page for page in doubles if self.fits(at, page, d)]
        if not found or self.liberties:
            missing = len(self.links) - len(self.written(at))
            smaller = [e for e in self.all_differences if e < d and e not in self.written(at)]
            if len(smaller) >= missing:
                found.append(dict(at))
        return found

    def can_succeed(self, at: dict[int, int] | None = None, place: int = 0) -> bool:
        at = dict(self.given) if at is None else at
        if len(self.written(at)) == len(self.links):
            return True
        if place == len(self.all_differences):
            return False
        d = self.all_differences[place]
        if d in self.written(at):
            return self.can_succeed(at, place + 1)
        return any(self.can_succeed(page, place + 1) for page in self.options(at, d))

    def subtractions(self, chance: random.Random) -> int:
        """What he writes until the page is solved; ``can_succeed`` must hold."""
        given = len(self.written(self.given))
        total = given
        while True:
            at = dict(self.given)
            for d in self.all_differences:
                if len(self.written(at)) == len(self.links):
                    break
                if d in self.written(at):
                    continue
                options = self.options(at, d)
                if not options:
                    break
                at = chance.choice(options)
            total += len(self.written(at)) - given
            if len(self.written(at)) == len(self.links):
                return total


def builder(tree: Tree, numbers: Sequence[int], given: Mapping[int, int]) -> Builder:
    """The building pupil of a page that has a solution: with liberties where he must take them."""
    plain = Builder(tree, numbers, given, liberties=False)
    return plain if plain.can_succeed() else Builder(tree, numbers, given, liberties=True)
