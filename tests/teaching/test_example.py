"""The worked example: wrong by just one clash, mended by its swap, and nobody's page."""

from __future__ import annotations

from fractions import Fraction

import networkx as nx
import pytest

from bookmaker.model import Example, Number, OrderedBook, progression
from bookmaker.teaching.example import TREES, worked_example
from tests.layout.books import ONE, TWO, Shape, ordered_book
from tests.making import book_of, page_of


def differences(example: Example, numbers: tuple[tuple[str, Number], ...]) -> dict[str, Fraction]:
    at = dict(numbers)
    return {link.name: abs(at[link.a].value - at[link.b].value) for link in example.links}


def tree(links: list[tuple[str, str]]) -> nx.Graph[str]:
    return nx.Graph(links)


def example_trees() -> list[list[tuple[str, str]]]:
    return [[(a, b) for a, b in (name.split("-") for name in names)] for names in TREES]


def test_just_two_differences_are_the_same_before_the_swap() -> None:
    example = worked_example(ordered_book(Shape(1, 1)))
    found = differences(example, example.start)
    one, other = example.clash
    assert found[one] == found[other]
    assert len(set(found.values())) == len(found) - 1


def test_the_swap_makes_all_differences_different() -> None:
    example = worked_example(ordered_book(Shape(1, 1)))
    found = differences(example, example.solution)
    assert len(set(found.values())) == len(found)
    changed = {a for (a, x), (_, y) in zip(example.start, example.solution, strict=True) if x != y}
    assert changed == set(example.swap)


@pytest.mark.parametrize("used", [0, 1, 2, 3])
def test_no_page_has_the_examples_tree_with_its_numbers(used: int) -> None:
    """Isomorphism by networkx, which the program does not use."""
    book: OrderedBook = book_of(
        [page_of(f"p{i}", links, ONE, TWO) for i, links in enumerate(example_trees()[:used])]
        or [page_of("p", [("a", "b")], ONE, TWO)]
    )
    example = worked_example(book)
    ours = tree([link.ends for link in example.links])
    numbers = {number.value for _, number in example.start}
    for page in book.pages:
        theirs = tree([link.ends for link in page.links])
        same_numbers = numbers == {number.value for number in page.numbers}
        assert not (same_numbers and nx.is_isomorphic(ours, theirs))


def test_the_example_uses_the_numbers_of_the_book() -> None:
    start, step = Number.parse("0.3"), Number.parse("0.4")
    links = [("a", "b"), ("b", "c"), ("c", "d"), ("d", "e")]
    example = worked_example(book_of([page_of("p", links, start, step)]))
    used = {number.text for _, number in example.start}
    assert used <= {number.text for number in progression(start, step, 5)}
