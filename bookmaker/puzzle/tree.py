"""Trees: their centre, their canonical form, and which of their branches are alike.

A tree is rooted at its centre, because every symmetry keeps the centre (Jordan 1869). Its form is
then the bracket word of Aho, Hopcroft and Ullman (The Design and Analysis of Computer Algorithms,
1974, section 3.2): a vertex is written as its children's words, in order, between brackets. Two
trees are isomorphic exactly when their words agree.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import factorial

Edge = tuple[int, int]
Branch = tuple[int, ...]


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

    @property
    def exchanges(self) -> tuple[tuple[Edge, ...], ...]:
        """Symmetries that generate all: each exchanges two branches, as pairs of vertices."""
        return tuple(
            tuple(zip(one, other, strict=True))
            for group in self.alike
            for one, other in pairwise(group)
        )

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


def find_symmetry(tree: Tree, colours: Mapping[int, int] | None = None) -> Symmetry:
    """The symmetries of ``tree`` that keep the ``colours`` of the vertices that have one."""
    walk = _Walk(tree, colours or {})
    roots = [(walk.branch(c, -1), c) for c in tree.centre]
    form, root = max(roots, key=lambda rooted: (rooted[0], -rooted[1]))
    order = walk.preorder(root, -1)
    alike = walk.alike_below(root, -1)
    if len(roots) == 2:
        other = next(c for c in tree.centre if c != root)
        if walk.branch(root, other) == walk.branch(other, root):
            halves = (walk.preorder(root, other), walk.preorder(other, root))
            alike = [halves, *alike]
    return Symmetry(form, order, tuple(alike))


class _Walk:
    """Words of the branches of one coloured tree; a branch is a vertex seen from another."""

    def __init__(self, tree: Tree, colours: Mapping[int, int]) -> None:
        self._tree = tree
        self._colours = colours
        self._words: dict[Edge, str] = {}

    def branch(self, v: int, parent: int) -> str:
        word = self._words.get((v, parent))
        if word is None:
            below = "".join(self.branch(w, v) for w in self._children(v, parent))
            word = self._words[v, parent] = f"({self._colours.get(v, '')}{below})"
        return word

    def preorder(self, v: int, parent: int) -> Branch:
        below = (self.preorder(w, v) for w in self._children(v, parent))
        return (v, *(u for branch in below for u in branch))

    def alike_below(self, v: int, parent: int) -> list[tuple[Branch, ...]]:
        children = self._children(v, parent)
        groups: dict[str, list[Branch]] = {}
        for w in children:
            groups.setdefault(self.branch(w, v), []).append(self.preorder(w, v))
        here = [tuple(group) for group in groups.values() if len(group) > 1]
        return here + [group for w in children for group in self.alike_below(w, v)]

    def _children(self, v: int, parent: int) -> list[int]:
        """Away from ``parent``, largest word first; those that are alike by index."""
        children = [w for w in self._tree.neighbours[v] if w != parent]
        return sorted(children, key=lambda w: self.branch(w, v), reverse=True)
