"""Prints the table of all shapes with 3 to 8 spots: ``python -m tests.benchmarks.shapes``.

One row a shape, in Markdown, by spots and then by work; below it Kendall's tau-b (Kendall 1945,
Biometrika 33) of rarity, of what the two pupils need, and of work.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from math import sqrt

import networkx as nx

from bookmaker.cache import MemoryCache
from bookmaker.model import Certificate
from bookmaker.puzzle import Tree, certify

SPOTS = range(3, 9)

Measure = Callable[["Row"], tuple[float, float]]


@dataclass(frozen=True)
class Row:
    """A shape: its degrees, largest first, how its vertices hang together, and what it is worth."""

    spots: int
    degrees: str
    certificate: Certificate

    @property
    def rarity(self) -> float:
        assert self.certificate.one_in is not None
        return self.certificate.one_in


def rows() -> Iterator[Row]:
    """All shapes, by spots and then by work."""
    cache = MemoryCache()
    for spots in SPOTS:
        numbers = [Fraction(2 * i + 1) for i in range(spots)]
        of_size = []
        for graph in nx.nonisomorphic_trees(spots):
            tree = Tree(spots, tuple(graph.edges()))
            degrees = " ".join(map(str, sorted(tree.degrees, reverse=True)))
            of_size.append(Row(spots, degrees, certify(tree, numbers, {}, cache=cache)))
        yield from sorted(of_size, key=lambda row: row.certificate.work)


def tau(pairs: Sequence[tuple[float, float]]) -> float:
    """Kendall's tau-b of two rankings: 1 where they agree, -1 where one is the other reversed."""
    agree = differ = ties_one = ties_other = 0
    for (a, x), (b, y) in combinations(pairs, 2):
        order = (a - b) * (x - y)
        agree += order > 0
        differ += order < 0
        ties_one += a == b and x != y
        ties_other += x == y and a != b
    told = agree + differ
    return (agree - differ) / sqrt((told + ties_one) * (told + ties_other))


def main() -> None:
    table = list(rows())
    print("| spots | degrees | shape | solutions | one in | trying | building | work | band |")
    print("|---:|---|---|---:|---:|---:|---:|---:|---|")
    for row in table:
        certificate = row.certificate
        print(
            f"| {row.spots} | {row.degrees} | `{certificate.shape}` | {certificate.solutions} "
            f"| {row.rarity:.1f} | {certificate.trying.mean:.1f} | {certificate.building.mean:.1f} "
            f"| {certificate.work:.1f} | {certificate.band} |"
        )
    print()
    measures: dict[str, Measure] = {
        "rarity and trying": lambda row: (row.rarity, row.certificate.trying.mean),
        "rarity and building": lambda row: (row.rarity, row.certificate.building.mean),
        "rarity and work": lambda row: (row.rarity, row.certificate.work),
        "trying and building": lambda row: (
            row.certificate.trying.mean,
            row.certificate.building.mean,
        ),
        "spots and work": lambda row: (row.spots, row.certificate.work),
    }
    for name, measure in measures.items():
        agreement = tau([measure(row) for row in table])
        print(f"Kendall's tau of {name}, all {len(table)} shapes: {agreement:.2f}")


if __name__ == "__main__":
    main()
