"""The checker of certificates. It shares no code with what finds solutions, and stays trivial.

It runs on every page of every build, on the numbers that are about to be printed.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal


@dataclass(frozen=True)
class Breach:
    """A way in which a solution is unsound.

    ``kind`` "count": not one number for each spot; "numbers": not the numbers of the page, each
    once; "given": a given number is not where it was given; "clash": the links between ``spots``
    (an end and the other end of each in turn) all have the difference ``number``.
    """

    kind: Literal["count", "numbers", "given", "clash"]
    spots: tuple[int, ...] = ()
    number: Fraction | None = None


def breaches(
    edges: Sequence[tuple[int, int]],
    numbers: Sequence[Fraction],
    given: Mapping[int, Fraction],
    solution: Sequence[Fraction],
) -> tuple[Breach, ...]:
    """All that is unsound in ``solution``, a number for each spot; empty where it is sound."""
    if len(solution) != len(edges) + 1:
        return (Breach("count"),)
    found = []
    if sorted(solution) != sorted(numbers):
        found.append(Breach("numbers"))
    for spot, number in sorted(given.items()):
        if solution[spot] != number:
            found.append(Breach("given", (spot,), number))
    links_with = defaultdict(list)
    for a, b in edges:
        links_with[abs(solution[a] - solution[b])].append((a, b))
    for difference, links in sorted(links_with.items()):
        if len(links) > 1:
            spots = tuple(spot for link in links for spot in link)
            found.append(Breach("clash", spots, difference))
    return tuple(found)
