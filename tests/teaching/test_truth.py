"""Nothing false is printed: every sentence of a key is tried against all solutions."""

from __future__ import annotations

from collections import Counter

import pytest

from bookmaker.model import LettersOf, Number, Said
from bookmaker.teaching import hint_slips, teaching
from bookmaker.words import load
from tests.teaching.random_books import KEPT, random_book
from tests.teaching.truth import (
    CLAIM_NOTHING,
    PREDICATES,
    falsehoods,
    sentences,
)

QUICK, LONG = 120, 10_000
CLAIMING = (
    "key.",
    "band.",
    "marking.",
    "practice.",
    "plan.practises",
    "plan.span",
    "plan.subtractions",
    "skill.",
    "range.",
    "ask.",
    "wrong.",
)


def told_of(seed: int) -> tuple[list[str], Counter[str]]:
    """What is false in the book of ``seed``, and how often each sentence is said."""
    book = random_book(seed)
    told = teaching(book, KEPT, 0)
    keys = Counter(said.key for said, _ in sentences(book, told))
    return [f"book {seed}: {fault}" for fault in falsehoods(book, told)], keys


def test_no_sentence_is_false_on_random_books() -> None:
    faults, said = [], Counter[str]()
    for seed in range(QUICK):
        found, keys = told_of(seed)
        faults += found
        said += keys
    assert faults == []
    assert len(said) > 60


@pytest.mark.parametrize(
    "books",
    [
        pytest.param(300, marks=pytest.mark.slow),
        pytest.param(LONG, marks=pytest.mark.patient),
    ],
)
def test_no_sentence_is_false_on_thousands_of_random_books(books: int) -> None:
    faults, said = [], Counter[str]()
    for seed in range(books):
        found, keys = told_of(seed)
        faults += found
        said += keys
    assert faults == []
    unsaid = set(PREDICATES) - set(said) - {"key.rung", "key.rung-or", "plan.practises-shown"}
    assert books < LONG or unsaid == set(), "never said, so never tried"


def test_every_sentence_of_a_key_has_a_predicate_or_claims_nothing() -> None:
    claiming = {key for key in load("en").table if key.startswith(CLAIMING)}
    assert claiming == set(PREDICATES) | CLAIM_NOTHING
    assert not set(PREDICATES) & CLAIM_NOTHING


def test_no_question_comes_back_in_one_key() -> None:
    for seed in range(QUICK):
        told = teaching(random_book(seed), KEPT, 0)
        asked = [q for c in told.chapters for q in (*c.questions, *c.wrong)]
        texts = [(q.asks.key, without_pages(q.answer), without_pages(q.asks)) for q in asked]
        assert len(set(texts)) == len(texts)


def without_pages(said: Said) -> str:
    told = {name: value for name, value in said.values.items() if name != "page"}
    return f"{sorted(told.items(), key=str)} {said.count}"


def test_hints_on_slips_are_those_of_the_key() -> None:
    """So what is true of the key's is true of them."""
    for seed in range(30):
        book = random_book(seed)
        told = teaching(book, KEPT, 0)
        slips = hint_slips(book, KEPT, 0)
        for page in book.pages:
            own = [slip for slip in slips if slip.page is page]
            hints = told.pages[page.id].hints
            assert [slip.step for slip in own] == list(range(1, len(hints) + 1))
            for slip, hint in zip(own, hints, strict=True):
                numbers = [x for x in hint.values.values() if isinstance(x, Number)]
                assert list(slip.numbers) == numbers
                spots = [x.names[0] for x in hint.values.values() if isinstance(x, LettersOf)]
                assert [slip.spot] == (spots or [""])
                assert (slip.fact is None) == hint.key.startswith("key.rung")
                assert slip.fact is None or hint.key == f"key.fact.{slip.fact}"
                mirror = hint.values.get("mirror")
                assert bool(slip.mirror) == isinstance(mirror, Said)
                if isinstance(mirror, Said):
                    assert slip.mirror == tuple(mirror.values.values())
