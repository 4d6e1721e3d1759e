"""The worked example: a tree that no page of the book has, with two the same and a swap."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations, permutations

from bookmaker.model import Example, Link, Number, OrderedBook, progression
from bookmaker.puzzle import Breach, Tree, breaches, find_symmetry

TREES = (
    ("left-head", "right-head", "head-shell", "shell-tail"),
    ("right-head", "head-shell", "shell-tail"),
    ("left-head", "right-head", "head-shell"),
)
"""Links of the example's creature, a snail: the first tree that gives nothing away is taken."""
LONGEST = 5
"""Numbers that the largest of them takes."""
TWO = Number(Fraction(2), "2")


def worked_example(ordered: OrderedBook) -> Example:
    """An example in the book's own numbers, unless that would give a page's solution away."""
    taken = {(_form(page.links), page.numbers) for page in ordered.pages}
    starts = range(1, len(taken) + 3)
    fallback = [progression(Number(Fraction(n), str(n)), TWO, LONGEST) for n in starts]
    own = _own_row(ordered)
    rows = [own, *fallback] if own else fallback
    trees = [tuple(Link(*name.split("-")) for name in names) for names in TREES]
    for row in rows:
        for links in trees:
            numbers = row[: len(links) + 1]
            example = None if (_form(links), numbers) in taken else _worked(links, numbers)
            if example:
                return example
    raise AssertionError("no book has a page for every tree and every row of numbers")


def _own_row(ordered: OrderedBook) -> tuple[Number, ...] | None:
    """The numbers of the first page that has enough of them."""
    rows = (page.numbers[:LONGEST] for page in ordered.pages)
    return next((row for row in rows if len(row) == LONGEST), None)


def _form(links: Sequence[Link]) -> str:
    return find_symmetry(_tree(links)[1]).form


def _tree(links: Sequence[Link]) -> tuple[tuple[str, ...], Tree]:
    """The spots that ``links`` name, and the tree that they make of them."""
    spots = tuple(dict.fromkeys(end for link in links for end in link.ends))
    edges = tuple((spots.index(link.a), spots.index(link.b)) for link in links)
    return spots, Tree(len(spots), edges)


def _worked(links: tuple[Link, ...], row: tuple[Number, ...]) -> Example | None:
    """An arrangement with just two the same, and the swap that mends it, as far apart as can be."""
    spots, tree = _tree(links)
    edges = tree.edges
    best: tuple[int, Example] | None = None
    for start in permutations(row[: len(spots)]):
        clashes = _clashes(edges, start)
        if len(clashes) != 1 or len(clashes[0].spots) != 4:
            continue
        a, b, c, d = clashes[0].spots
        clash = (links[edges.index((a, b))].name, links[edges.index((c, d))].name)
        for i, j in combinations(range(len(spots)), 2):
            apart = _apart(tree, i, j)
            if (best is None or apart > best[0]) and not _clashes(edges, _swapped(start, i, j)):
                pairs = tuple(zip(spots, start, strict=True))
                best = apart, Example(spots, links, pairs, clash, (spots[i], spots[j]))
        if best and best[0] == tree.diameter:
            break
    return best[1] if best else None


def _clashes(edges: tuple[tuple[int, int], ...], at: tuple[Number, ...]) -> tuple[Breach, ...]:
    values = [number.value for number in at]
    return breaches(edges, values, {}, values)


def _swapped(at: tuple[Number, ...], i: int, j: int) -> tuple[Number, ...]:
    changed = list(at)
    changed[i], changed[j] = at[j], at[i]
    return tuple(changed)


def _apart(tree: Tree, one: int, other: int) -> int:
    """Links on the way between two vertices."""
    reached, steps = {one}, 0
    while other not in reached:
        reached |= {w for v in reached for w in tree.neighbours[v]}
        steps += 1
    return steps
