"""Certificates: a solution and the counts that go with it, kept by the question's normal form."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import factorial
from typing import Any

from bookmaker.cache import Cache
from bookmaker.model import Certificate
from bookmaker.puzzle.finding import find
from bookmaker.puzzle.question import Asked, Question, ask
from bookmaker.puzzle.solutions import count
from bookmaker.puzzle.tree import Tree
from bookmaker.puzzle.work import expected_work

VERSION = 1


def certify(
    tree: Tree,
    numbers: Sequence[Fraction],
    given: Mapping[int, Fraction],
    *,
    cache: Cache,
    seed: int = 0,
) -> Certificate:
    """The certificate of ``numbers`` on ``tree``, ``given`` numbers at their vertices.

    Counts cover the arrangements that agree with what is given; they are None above 12 vertices
    (8 free ones where the numbers are no progression). Work is exact up to 8 free vertices.
    ``seed`` moves only what is searched or simulated above that. The same for an empty and a warm
    cache.

    Raises Unsolvable, and ValueError where the numbers do not fit the tree.
    """
    asked = ask(tree, numbers, given)
    facts = _facts(asked.question, cache, seed)
    return _certificate(asked, facts)


def _facts(question: Question, cache: Cache, seed: int) -> dict[str, Any]:
    key = f"puzzle/certificate/{VERSION}/{seed}/{question.key}"
    kept = cache.get(key)
    if kept is None:
        kept = json.dumps(_compute(question, cache, seed)).encode()
        cache.put(key, kept)
    facts: dict[str, Any] = json.loads(kept)
    return facts


def _compute(question: Question, cache: Cache, seed: int) -> dict[str, Any]:
    solution = find(question, seed)
    counts = count(question, cache)
    work = expected_work(question, seed)
    return {
        "solution": solution,
        "solutions": counts and counts.solutions,
        "distinct": counts and counts.distinct,
        "work": work.mean,
        "error": work.error,
    }


def _certificate(asked: Asked, facts: dict[str, Any]) -> Certificate:
    solutions = facts["solutions"]
    arrangements = factorial(len(asked.question.free))
    return Certificate(
        shape=asked.shape,
        solution=asked.told(tuple(facts["solution"])),
        solutions=solutions,
        distinct_solutions=facts["distinct"],
        one_in=None if solutions is None else arrangements / solutions,
        work=facts["work"],
        work_error=facts["error"],
    )
