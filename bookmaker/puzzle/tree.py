"""Trees: their centre, their canonical form, and which of their branches are alike.

A tree is rooted at its centre, because every symmetry keeps the centre (Jordan 1869). Its form is
then the bracket word of Aho, Hopcroft and Ullman (The Design and Analysis of Computer Algorithms,
1974, section 3.2): a vertex is written as its children's words, in order, between brackets. Two
trees are isomorphic exactly when their words agree.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import chain, groupby, pairwise, permutations
from math import factorial
from typing import TypeVar

Edge = tuple[int, int]
Branch = tuple[int, ...]
N = TypeVar("N", int, Fraction)


@dataclass(frozen=True)
class Tree:
    """A tree on the vertices 0 ... n - 1. Raises ValueError where ``edges`` make no tree."""

    n: int
    edges: tuple[Edge, ...]

    def __post_init__(self) -> None:
        if self.n < 1 or len(self.edges) != self.n - 1:
            raise ValueError(f"{len(self.edges)} edges make no tree of {self.n} vertices")
        if any(not 0 <= end < self.n for edge in self.edges for end in edge):
            raise ValueError(f"an edge leads to no vertex of 0 ... {self.n - 1}")
        if len(self._outward_from(0)) != self.n:
            raise ValueError("the edges form a loop, and leave vertices apart")

    @cached_property
    def neighbours(self) -> tuple[tuple[int, ...], ...]:
        """The neighbours of each vertex, ascending."""
        joined: list[list[int]] = [[] for _ in range(self.n)]
        for a, b in self.edges:
            joined[a].append(b)
            joined[b].append(a)
        return tuple(tuple(sorted(ends)) for ends in joined)

    @cached_property
    def degrees(self) -> tuple[int, ...]:
        return tuple(len(ends) for ends in self.neighbours)

    @cached_property
    def longest_path(self) -> tuple[int, ...]:
        """The vertices of one longest path, end to end."""
        end, _ = self._outward_from(0)[-1]
        outward = self._outward_from(end)
        parent = dict(outward)
        path = [outward[-1][0]]
        while path[-1] != end:
            path.append(parent[path[-1]])
        return tuple(path)

    @property
    def diameter(self) -> int:
        """Edges on a longest path."""
        return len(self.longest_path) - 1

    @cached_property
    def centre(self) -> tuple[int, ...]:
        """The one or two vertices in the middle of every longest path."""
        path = self.longest_path
        return path[(len(path) - 1) // 2 : len(path) // 2 + 1]

    @property
    def is_caterpillar(self) -> bool:
        """Whether every vertex lies on one path or next to it."""
        spine = set(self.longest_path)
        return all(degree == 1 or v in spine for v, degree in enumerate(self.degrees))

    def relabelled(self, order: tuple[int, ...]) -> Tree:
        """The tree in which vertex i is this one's ``order[i]``; its edges sorted."""
        place = {v: i for i, v in enumerate(order)}
        ends = (sorted((place[a], place[b])) for a, b in self.edges)
        return Tree(self.n, tuple(sorted((a, b) for a, b in ends)))

    def _outward_from(self, root: int) -> list[tuple[int, int]]:
        """Vertices in the order of their distance from ``root``, each with the one before it."""
        reached = [(root, -1)]
        seen = {root}
        for v, _ in reached:
            for w in self.neighbours[v]:
                if w not in seen:
                    seen.add(w)
                    reached.append((w, v))
        return reached


@dataclass(frozen=True)
class Symmetry:
    """The form of a tree whose vertices may carry colours, and its symmetries.

    ``form`` is equal for isomorphic coloured trees, and for no others. ``order`` lists the
    vertices, centre first and parents before children, so that equal forms match vertex by vertex.
    ``alike`` holds groups of branches that may be exchanged: each branch lists its vertices,
    the top one first, and the i-th vertices of a group's branches answer each other.
    """

    form: str
    order: tuple[int, ...]
    alike: tuple[tuple[Branch, ...], ...]

    @property
    def count(self) -> int:
        """How many symmetries there are: a group of k alike branches can stand in k! ways."""
        product = 1
        for group in self.alike:
            product *= factorial(len(group))
        return product

    def renamed(self) -> Symmetry:
        """The same of the tree in which each vertex is called by its place in ``order``."""
        place = {v: i for i, v in enumerate(self.order)}
        alike = tuple(
            tuple(tuple(place[v] for v in branch) for branch in group) for group in self.alike
        )
        return Symmetry(self.form, tuple(range(len(self.order))), alike)

    @property
    def exchanges(self) -> tuple[tuple[Edge, ...], ...]:
        """Symmetries that generate all: each exchanges two branches, as pairs of vertices."""
        return tuple(
            tuple(zip(one, other, strict=True))
            for group in self.alike
            for one, other in pairwise(group)
        )

    @property
    def elements(self) -> list[tuple[int, ...]]:
        """All symmetries, each as the vertex to which it moves vertex 0, 1, ...

        The branches of every group are put in every order, the inner groups before the outer.
        """
        identity = tuple(sorted(self.order))
        elements = [identity]
        for group in reversed(self.alike):
            orders = []
            for chosen in permutations(group):
                moves = list(identity)
                for branch, other in zip(group, chosen, strict=True):
                    for v, w in zip(branch, other, strict=True):
                        moves[v] = w
                orders.append(moves)
            elements = [tuple(moves[v] for v in inner) for moves in orders for inner in elements]
        return elements

    @property
    def orbits(self) -> tuple[tuple[int, ...], ...]:
        """For each vertex, the vertices to which symmetries carry it, ascending."""
        orbit = {v: {v} for v in self.order}
        for pairs in self.exchanges:
            for a, b in pairs:
                if orbit[a] is not orbit[b]:
                    orbit[a] |= orbit[b]
                    for v in orbit[a]:
                        orbit[v] = orbit[a]
        return tuple(tuple(sorted(orbit[v])) for v in range(len(self.order)))

    @property
    def ascents(self) -> tuple[Edge, ...]:
        """Pairs (a, b) such that every arrangement has just one image with smaller at a than at b.

        Exchanging alike branches permutes their tops freely, so that asking the tops of every
        group to ascend picks one arrangement out of each orbit.
        """
        return tuple((one[0], other[0]) for group in self.alike for one, other in pairwise(group))


def settled(values: Sequence[N], alike: Iterable[Sequence[Branch]]) -> tuple[N, ...]:
    """Of all images of ``values``, one for each vertex, the one in which the tops of each group of
    ``alike`` branches ascend."""
    image = list(values)
    for group in alike:
        filled = sorted([image[v] for v in branch] for branch in group)
        for branch, inside in zip(group, filled, strict=True):
            for v, value in zip(branch, inside, strict=True):
                image[v] = value
    return tuple(image)


def find_symmetry(tree: Tree, colours: Mapping[int, int] | None = None) -> Symmetry:
    """The symmetries of ``tree`` that keep the ``colours`` of the vertices that have one."""
    grow = _Grower(tree, colours or {}).grow
    root, *other = sorted(
        (grow(centre, -1) for centre in tree.centre),
        key=lambda branch: (branch.word, -branch.order[0]),
        reverse=True,
    )
    alike = root.alike
    if other:
        here, there = root.order[0], other[0].order[0]
        halves = (grow(here, there), grow(there, here))
        if halves[0].word == halves[1].word:
            alike = ((halves[0].order, halves[1].order), *alike)
    return Symmetry(root.word, root.order, alike)


@dataclass(frozen=True, slots=True)
class _Branch:
    """A vertex and all that lies beyond it: its word, its vertices and the branches alike in it."""

    word: str
    order: Branch
    alike: tuple[tuple[Branch, ...], ...]


class _Grower:
    """Grows branches of one coloured tree, each once."""

    def __init__(self, tree: Tree, colours: Mapping[int, int]) -> None:
        self._neighbours = tree.neighbours
        self._colours = colours
        self._grown: dict[Edge, _Branch] = {}

    def grow(self, v: int, parent: int) -> _Branch:
        """The branch of ``v`` away from ``parent``; inside it, larger words stand first."""
        if (v, parent) not in self._grown:
            children = [self.grow(w, v) for w in self._neighbours[v] if w != parent]
            children.sort(key=_word, reverse=True)
            words = "".join([child.word for child in children])
            groups = (tuple(child.order for child in same) for _, same in groupby(children, _word))
            alike = [group for group in groups if len(group) > 1]
            self._grown[v, parent] = _Branch(
                word=f"({self._colours.get(v, '')}{words})",
                order=(v, *chain.from_iterable([child.order for child in children])),
                alike=(*alike, *chain.from_iterable([child.alike for child in children])),
            )
        return self._grown[v, parent]


def _word(branch: _Branch) -> str:
    return branch.word
