"""Teaching: an ordered book in, what its teacher should be told out, as data without words.

Between the mathematics and the printed key: ``pages`` gathers what the key says of each page,
``chapters`` finds questions and wrong ideas that are true of a chapter's own pages (``questions``,
``wrong_ideas``), ``marking`` how to mark, with the ``zigzag`` to look for, ``term`` the plan and
what is practised. A sentence is a ``Said``: its key, its values, and the pages that it is true of.
"""

from __future__ import annotations

from bookmaker.cache import Cache
from bookmaker.model import Matter, OrderedBook, Output, Teaching
from bookmaker.teaching.chapters import notes_of_chapters
from bookmaker.teaching.example import worked_example
from bookmaker.teaching.hint_slips import hint_slips
from bookmaker.teaching.marking import marking_notes
from bookmaker.teaching.pages import notes_of_page
from bookmaker.teaching.practised import Practised, above_grade, as_numbers, practised
from bookmaker.teaching.pupil_answers import (
    NotAnAnswer,
    answer_of,
    answers_of_class,
    mark_answer,
    page_to_mark,
)
from bookmaker.teaching.skills import practises
from bookmaker.teaching.term import plan_rows, practice_notes

__all__ = [
    "NotAnAnswer",
    "Practised",
    "above_grade",
    "answer_of",
    "answers_of_class",
    "as_numbers",
    "hint_slips",
    "mark_answer",
    "matter_for",
    "page_to_mark",
    "plan_rows",
    "practice_notes",
    "practised",
    "practises",
    "teaching",
    "worked_example",
]


def matter_for(ordered: OrderedBook, output: Output, part: str, cache: Cache, seed: int) -> Matter:
    """What stands beside the puzzles in one document of a book, or of the ``part`` so called."""
    example = worked_example(ordered)
    if output == "loose":
        return Matter(example, slips=hint_slips(ordered, cache, seed))
    if output in ("book", "key"):
        return Matter(example, teaching(ordered, cache, seed, whole=not part))
    return Matter(example)


def teaching(ordered: OrderedBook, cache: Cache, seed: int, whole: bool = True) -> Teaching:
    """All for the teacher's section; of a part (not ``whole``) the notes of its pages alone."""
    pages = {page.id: notes_of_page(page, cache, seed) for page in ordered.pages}
    if not whole:
        return Teaching(pages)
    found = practised(ordered, cache, seed)
    return Teaching(
        pages,
        notes_of_chapters(ordered, pages),
        marking_notes(tuple(pages.values())),
        plan_rows(ordered, cache, seed),
        practice_notes(ordered, found),
    )
