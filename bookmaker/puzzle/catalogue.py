"""How many solutions each shape has: all trees of one size, in one sweep.

Write a tree's solution with 0, 1, ..., n - 1 and call each vertex by its number: what is left is a
tree *on the numbers*, with one link for each difference. Choosing for each difference d one of
its pairs (x, x + d), never closing a loop, therefore runs through every solution of every tree of
n vertices, each once up to symmetry. The mirror exchanges the two pairs of the second
largest difference, so that taking one of them leaves each once up to the mirror as well.
(OEIS A337274 counts what the sweep finds.)
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator

from bookmaker.cache import Cache
from bookmaker.puzzle.tree import Edge

LARGEST = 10
"""The catalogue goes up to trees of this many vertices: a tenth of a second."""

VERSION = 1


def catalogue(n: int, cache: Cache) -> dict[str, int]:
    """Solutions up to symmetry and mirror for each tree of ``n`` vertices, by its form.

    Trees without a solution are left out (none is known). 3 <= n <= ``LARGEST``.
    """
    key = f"puzzle/catalogue/{VERSION}/{n}"
    kept = cache.get(key)
    if kept is None:
        kept = json.dumps(sweep(n), sort_keys=True).encode()
        cache.put(key, kept)
    counts: dict[str, int] = json.loads(kept)
    return counts


def sweep(n: int) -> dict[str, int]:
    """Compute what ``catalogue`` gives, from nothing; n >= 3."""
    return dict(Counter(_form(n, links) for links in _solved_trees(n)))


def _solved_trees(n: int) -> Iterator[list[Edge]]:
    """Every tree on the numbers 0 ... n - 1 with one link of each difference, up to the mirror.

    The list that is yielded is the search's own and changes afterwards.
    """
    piece = [1 << x for x in range(n)]  # the numbers joined to each number, as a bit mask
    links: list[Edge] = []

    def down(d: int) -> Iterator[list[Edge]]:
        if d == 0:
            yield links
            return
        for x in range(1 if d == n - 2 else n - d):
            y = x + d
            if piece[x] >> y & 1:
                continue
            before = piece[:]
            joined = piece[x] | piece[y]
            for z in range(n):
                if joined >> z & 1:
                    piece[z] = joined
            links.append((x, y))
            yield from down(d - 1)
            links.pop()
            piece[:] = before

    return down(n - 1)


def _form(n: int, links: list[Edge]) -> str:
    """The form that ``find_symmetry`` gives the tree, quickly.

    Leaves are stripped in layers, until the centre is left. A vertex that goes hangs its word on
    the one neighbour that it still has.
    """
    degree = [0] * n
    onward = [0] * n  # all neighbours that are left, xor-ed: of a leaf, the one neighbour
    for x, y in links:
        degree[x] += 1
        degree[y] += 1
        onward[x] ^= y
        onward[y] ^= x
    hung: list[list[str]] = [[] for _ in range(n)]
    layer = [v for v in range(n) if degree[v] == 1]
    left = n
    while left > 2:
        left -= len(layer)
        inner = []
        for v in layer:
            w = onward[v]
            hung[w].append(_word(hung[v]))
            onward[w] ^= v
            degree[w] -= 1
            if degree[w] == 1:
                inner.append(w)
        layer = inner
    if left == 1:
        return _word(hung[w])
    one, other = layer
    return max(
        _word([*hung[one], _word(hung[other])]),
        _word([*hung[other], _word(hung[one])]),
    )


def _word(hung: list[str]) -> str:
    if not hung:
        return "()"
    hung.sort(reverse=True)
    return f"({''.join(hung)})"
