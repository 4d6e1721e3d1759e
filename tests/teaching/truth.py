"""What makes each sentence of a key true, told by brute force over all solutions.

Shares no code with ``teaching`` and none with the solver. One predicate for each key of a sentence;
``CLAIM_NOTHING`` are heads, labels and rules that say nothing of any page.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any

from bookmaker.model import (
    CertifiedPage,
    Number,
    OrderedBook,
    Said,
    Teaching,
)
from tests.teaching.book_claims import ABOUT_BOOKS
from tests.teaching.class_claims import ABOUT_QUESTIONS
from tests.teaching.known import (
    About,
)
from tests.teaching.page_claims import ABOUT_PAGES, others_are_all, plan_holds, row_holds
from tests.teaching.plan_claims import ABOUT_PLANS

PREDICATES = {**ABOUT_PAGES, **ABOUT_BOOKS, **ABOUT_QUESTIONS, **ABOUT_PLANS}

CLAIM_NOTHING = frozenset(
    [
        "ask.another",
        "ask.even",
        "ask.linked",
        "ask.mirror",
        "ask.multiples",
        "ask.odd",
        "ask.place",
        "ask.second",
        "ask.swap",
        "ask.total",
        "key.alt",
        "key.alt.spot",
        "key.for",
        "key.label.hints",
        "key.label.places",
        "key.label.swaps",
        "key.page",
        "key.spot",
        "key.title",
        "marking.ends.head",
        "marking.many.head",
        "marking.mirror.head",
        "marking.reading",
        "marking.reading.head",
        "marking.same",
        "marking.same.head",
        "marking.sum.head",
        "marking.title",
        "marking.zigzag.head",
        "practice.document",
        "practice.title",
        "wrong.end",
        "wrong.key",
        "wrong.middle",
        "wrong.neighbours",
        "wrong.one",
        "wrong.spots",
    ]
)
"""Heads, labels and questions: answers say all that is to be said."""


def falsehoods(book: OrderedBook, told: Teaching) -> list[str]:
    """Every sentence of ``told`` that is false, or of which nobody says when it is true."""
    wrong = []
    for said, about in sentences(book, told):
        if said.key not in CLAIM_NOTHING and not is_true(said, about):
            names = [page.id for page in said.pages]
            wrong.append(f"{said.key} of {names}: {dict(said.values)} {said.count}")
    for notes in told.pages.values():
        wrong += [f"{row.label.key} {row.numbers}" for row in notes.rows if not row_holds(row)]
        if not others_are_all(notes):
            wrong.append(f"others of {notes.page.id}")
    wrong += [f"plan: {row}" for row in told.plan if not plan_holds(row)]
    return wrong


def is_true(said: Said, about: About) -> bool:
    """Raises KeyError for a key without a predicate."""
    return PREDICATES[said.key](said, about)


def sentences(book: OrderedBook, told: Teaching) -> Iterator[tuple[Said, About]]:
    """All that is said, sentences inside sentences as well."""
    for notes in told.pages.values():
        yield from ((said, About(book, told, notes)) for said in walk(notes))
    rest = (told.chapters, told.marking, told.plan, told.practice)
    yield from ((said, About(book, told)) for said in walk(rest))


def walk(thing: Any) -> Iterator[Said]:
    if isinstance(thing, Said):
        yield thing
        yield from walk(tuple(thing.values.values()))
    elif isinstance(thing, tuple):
        for each in thing:
            yield from walk(each)
    elif is_dataclass(thing) and not isinstance(thing, CertifiedPage | Number):
        for field in fields(thing):
            yield from walk(getattr(thing, field.name))
