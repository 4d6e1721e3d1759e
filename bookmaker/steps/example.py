"""The worked example: a tree that no page of the book has, with two the same and a swap."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, permutations

from bookmaker.model import Example, Link, Number, OrderedBook, progression
from bookmaker.puzzle import Breach, Tree, breaches
from bookmaker.puzzle.tree import find_symmetry

TREES = (
    ("left-head", "right-head", "head-shell", "shell-tail"),
    ("right-head", "head-shell", "shell-tail"),
    ("left-head", "right-head", "head-shell"),
)
"""Links of the example's creature, a snail: the first tree that gives nothing away is taken."""
TWO = Number(Fraction(2), "2")


def worked_example(ordered: OrderedBook) -> Example:
    """An example in the book's own numbers, unless that would give a page's solution away."""
    taken = {
        (find_symmetry(Tree(len(page.page.spots), page.page.edges)).form, page.page.numbers)
        for page in ordered.pages
    }
    starts = range(1, len(taken) + 3)
    fallback = (progression(Number(Fraction(n), str(n)), TWO, 5) for n in starts)
    rows = (*_own_rows(ordered), *fallback)
    trees = [tuple(Link(*name.split("-")) for name in names) for names in TREES]
    for row in rows:
        for links in trees:
            numbers = row[: len(links) + 1]
            example = None if (_form(links), numbers) in taken else _worked(links, numbers)
            if example:
                return example
    raise AssertionError("no book has a page for every tree and every row of numbers")


def _own_rows(ordered: OrderedBook) -> Iterator[tuple[Number, ...]]:
    """The numbers of the first page that has enough of them."""
    rows = (page.page.numbers for page in ordered.pages if len(page.page.numbers) >= 5)
    yield from (row[:5] for row in list(rows)[:1])


def _spots(links: tuple[Link, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(end for link in links for end in link.ends))


def _form(links: tuple[Link, ...]) -> str:
    spots = _spots(links)
    edges = tuple((spots.index(link.a), spots.index(link.b)) for link in links)
    return find_symmetry(Tree(len(spots), edges)).form


def _worked(links: tuple[Link, ...], row: tuple[Number, ...]) -> Example | None:
    """An arrangement with just two the same, and the swap that mends it, as far apart as can be."""
    spots = _spots(links)
    edges = tuple((spots.index(link.a), spots.index(link.b)) for link in links)
    tree = Tree(len(spots), edges)
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
