"""Questions for the class and wrong ideas to expect, true of a chapter's own pages.

Each finder looks at the pages of a chapter and gives every question of its kind that is true of
one of them, with its answer. A chapter takes the kinds that the book has asked least so far, and
no question that the book asks already of the same numbers. Which questions are worth asking is
common practice, no source.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from bookmaker.model import (
    CertifiedPage,
    ChapterNotes,
    OrderedBook,
    OrderedChapter,
    PageNotes,
    Question,
    SpotOf,
)
from bookmaker.teaching.questions import ASKED, Finder
from bookmaker.teaching.wrong_ideas import EXPECTED

QUESTIONS, WRONG_IDEAS = 3, 2


def notes_of_chapters(
    ordered: OrderedBook, pages: Mapping[str, PageNotes]
) -> tuple[ChapterNotes, ...]:
    """Three questions and two wrong ideas for each chapter, as far as its pages bear them."""
    asked = _Asked()
    return tuple(_notes(chapter, pages, asked) for chapter in ordered.chapters)


def _notes(chapter: OrderedChapter, pages: Mapping[str, PageNotes], asked: _Asked) -> ChapterNotes:
    own = [pages[page.id] for page in chapter.pages]
    return ChapterNotes(
        chapter.title,
        chapter.pages[0],
        asked.next(ASKED, own, QUESTIONS),
        asked.next(EXPECTED, own, WRONG_IDEAS),
    )


@dataclass(slots=True)
class _Asked:
    """What a book asks so far: how often each kind, and which questions."""

    kinds: Counter[str] = field(default_factory=Counter)
    questions: set[tuple[object, ...]] = field(default_factory=set)

    def next(
        self, finders: Sequence[Finder], pages: Sequence[PageNotes], most: int
    ) -> tuple[Question, ...]:
        """The ``most`` kinds that were asked least so far, in the finders' own order."""
        found = [question for finder in finders if (question := self._new(finder, pages))]
        rare = sorted(range(len(found)), key=lambda i: (self.kinds[found[i].asks.key], i))[:most]
        chosen = tuple(found[i] for i in sorted(rare))
        self.kinds.update(question.asks.key for question in chosen)
        self.questions.update(map(_content, chosen))
        return chosen

    def _new(self, finder: Finder, pages: Sequence[PageNotes]) -> Question | None:
        found = (question for question in finder(pages))
        return next((each for each in found if _content(each) not in self.questions), None)


def _content(question: Question) -> tuple[object, ...]:
    """What a question is about, whichever page it names."""
    told: list[object] = [question.asks.key, question.answer.count]
    for said in (question.asks, question.answer):
        told += [_plain(v) for v in said.values.values() if not isinstance(v, CertifiedPage)]
    return tuple(told)


def _plain(value: object) -> object:
    return (value.page.id, value.name) if isinstance(value, SpotOf) else value
