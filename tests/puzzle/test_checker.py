"""The checker against worked labellings from the literature, and against spoilt ones."""

from __future__ import annotations

import ast
from fractions import Fraction
from pathlib import Path

import pytest

from bookmaker.puzzle import Breach, breaches, checker

# Each: edges, labels by vertex. Written out by hand from the constructions in the sources.
WORKED = {
    "path of 6, zigzag (Rosa 1967)": (
        ((0, 1), (1, 2), (2, 3), (3, 4), (4, 5)),
        (0, 5, 1, 4, 2, 3),
    ),
    "star with 5 leaves (Rosa 1967)": (
        ((0, 1), (0, 2), (0, 3), (0, 4), (0, 5)),
        (0, 1, 2, 3, 4, 5),
    ),
    "caterpillar, spine of 3 with 2, 1, 2 leaves (Rosa 1967)": (
        ((0, 1), (0, 2), (0, 3), (3, 4), (3, 5), (5, 6), (5, 7)),
        (0, 7, 6, 5, 1, 2, 4, 3),
    ),
}


def numbers(labels) -> tuple[Fraction, ...]:
    return tuple(Fraction(2 * label + 1) for label in labels)


@pytest.mark.parametrize("name", WORKED)
def test_a_worked_labelling_from_the_literature_is_sound(name: str) -> None:
    edges, labels = WORKED[name]
    assert breaches(edges, numbers(range(len(labels))), {}, numbers(labels)) == ()


EDGES = ((0, 1), (1, 2), (2, 3))
NUMBERS = numbers(range(4))


@pytest.mark.parametrize(
    ("given", "solution", "breach"),
    [
        ({}, (0, 3, 1), Breach("count")),
        ({}, (0, 3, 1, 1), Breach("numbers")),
        ({}, (0, 3, 1, 4), Breach("numbers")),
        ({0: Fraction(3)}, (0, 3, 1, 2), Breach("given", (0,), Fraction(3))),
        ({}, (3, 0, 2, 1), None),
        ({}, (0, 1, 3, 2), Breach("clash", (0, 1, 2, 3), Fraction(2))),
    ],
)
def test_every_kind_of_breach_is_told(given, solution, breach) -> None:
    found = breaches(EDGES, NUMBERS, given, numbers(solution))
    assert (breach in found) if breach else found == ()


def test_breaches_are_told_all_together() -> None:
    found = breaches(EDGES, NUMBERS, {1: Fraction(9)}, numbers((0, 1, 2, 7)))
    assert [breach.kind for breach in found] == ["numbers", "given", "clash"]


def test_the_checker_imports_nothing_of_the_solver() -> None:
    tree = ast.parse(Path(checker.__file__).read_text(encoding="utf-8"))
    modules = {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    modules |= {
        a.name for node in ast.walk(tree) if isinstance(node, ast.Import) for a in node.names
    }
    assert not [module for module in modules if module and "bookmaker" in module]
