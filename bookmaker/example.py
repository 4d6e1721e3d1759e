"""The worked example: a tree that no page of the book has, with two the same and a swap."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import permutations

from bookmaker.model import Example, Link, Number, OrderedBook, progression
from bookmaker.puzzle import Tree, breaches, mark
from bookmaker.puzzle.tree import find_symmetry

TREES = (
    ("left-head", "right-head", "head-shell", "shell-tail"),
    ("right-head", "head-shell", "shell-tail"),
    ("left-head", "right-head", "head-shell"),
)
"""Links of the example's creature, a snail: the first tree that gives nothing away is taken."""
ONE, TWO = Number(Fraction(1), "1"), Number(Fraction(2), "2")


def worked_example(ordered: OrderedBook) -> Example:
    """An example in the book's own numbers, unless that would give a page's solution away."""
    taken = {
        (find_symmetry(Tree(len(page.page.spots), page.page.edges)).form, page.page.numbers)
        for page in ordered.pages
    }
    rows = (*_own_rows(ordered), *(progression(start, TWO, 5) for start in (ONE, TWO)))
    trees = [tuple(Link(*name.split("-")) for name in names) for names in TREES]
    free = [
        (links, row[: len(links) + 1])
        for row in rows
        for links in trees
        if (_form(links), row[: len(links) + 1]) not in taken and _worked(links, row) is not None
    ]
    links, row = free[0] if free else (trees[0], progression(TWO, TWO, 5))
    example = _worked(links, row)
    assert example is not None
    return example


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
    """The first arrangement with just two the same that one swap mends, and that swap."""
    spots = _spots(links)
    edges = [(spots.index(link.a), spots.index(link.b)) for link in links]
    numbers = row[: len(spots)]
    values = [number.value for number in numbers]
    tree = Tree(len(spots), tuple(edges))
    for start in permutations(numbers):
        at = dict(enumerate(number.value for number in start))
        clashes = breaches(edges, values, {}, tuple(at.values()))
        if len(clashes) != 1 or len(clashes[0].spots) != 4:
            continue
        found = mark(tree, values, {}, at)
        if found.swap:
            one, other = found.clashes[0].links
            i, j = found.swap
            pairs = tuple(zip(spots, start, strict=True))
            return Example(
                spots, links, pairs, (links[one].name, links[other].name), (spots[i], spots[j])
            )
    return None
