"""What all solutions of an instance have in common: which number stands where, which are linked.

What is counted is unfolded: all solutions, not one of each orbit. A symmetry carries what stands
at a vertex to every vertex of its orbit equally often, and leaves the linked numbers linked, so
that one solution of each orbit tells the counts of all.
"""

from __future__ import annotations

from dataclasses import dataclass

from bookmaker.puzzle.instance import Instance
from bookmaker.puzzle.solutions import up_to_symmetry

Table = tuple[tuple[int, ...], ...]


@dataclass(frozen=True)
class Survey:
    """``standing[v][x]``: solutions in which the number at place x stands at vertex v.

    ``linked[x][y]``: solutions in which the numbers at places x < y are linked.
    """

    solutions: int
    standing: Table
    linked: Table


def survey(instance: Instance) -> Survey:
    """Run through all solutions; for instances whose solutions can be counted."""
    n = instance.tree.n
    found = 0
    standing = [[0] * n for _ in range(n)]
    linked = [[0] * n for _ in range(n)]
    for solution in up_to_symmetry(instance):
        found += 1
        for v, place in enumerate(solution):
            standing[v][place] += 1
        for a, b in instance.tree.edges:
            x, y = solution[a], solution[b]
            linked[min(x, y)][max(x, y)] += 1
    symmetries = instance.symmetry.count
    return Survey(
        solutions=found * symmetries,
        standing=tuple(
            tuple(sum(standing[w][x] for w in orbit) * symmetries // len(orbit) for x in range(n))
            for orbit in instance.symmetry.orbits
        ),
        linked=tuple(tuple(times * symmetries for times in row) for row in linked),
    )
