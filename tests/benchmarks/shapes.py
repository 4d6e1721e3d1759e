"""Prints the table of all shapes with 3 to 8 spots: ``python -m tests.benchmarks.shapes``.

One row a shape, in Markdown, by spots and then by work; below it Kendall's tau-b of rarity and
work (Kendall 1945, Biometrika 33), over all shapes and for each number of spots.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from math import sqrt

import networkx as nx

from bookmaker.cache import MemoryCache
from bookmaker.model import Certificate
from bookmaker.puzzle import Tree, certify

SPOTS = range(3, 9)


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
    print("| spots | degrees | shape | solutions | one in | work | band |")
    print("|---:|---|---|---:|---:|---:|---|")
    for row in table:
        certificate = row.certificate
        print(
            f"| {row.spots} | {row.degrees} | `{certificate.shape}` | {certificate.solutions} "
            f"| {row.rarity:.1f} | {certificate.work:.1f} | {certificate.band} |"
        )
    print()
    for spots in SPOTS:
        of_size = [(row.rarity, row.certificate.work) for row in table if row.spots == spots]
        if len(of_size) > 2:
            print(f"Kendall's tau of rarity and work, {spots} spots: {tau(of_size):.2f}")
    everything = [(row.rarity, row.certificate.work) for row in table]
    print(f"Kendall's tau of rarity and work, all {len(table)} shapes: {tau(everything):.2f}")
    by_spots = [(row.spots, row.certificate.work) for row in table]
    print(f"Kendall's tau of the number of spots and work, all shapes: {tau(by_spots):.2f}")


if __name__ == "__main__":
    main()
