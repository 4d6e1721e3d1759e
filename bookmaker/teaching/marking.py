"""How to mark, with examples from the book; each paragraph stands where it is true of the book."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from bookmaker.model import CertifiedPage, MarkingNotes, Number, PageNotes, Said, Values, write_like
from bookmaker.teaching.pages import ascending, step_of
from bookmaker.teaching.zigzag import zigzag

MIDDLING = 5
"""Spots that a page should have to be the example."""


def marking_notes(notes: Sequence[PageNotes]) -> MarkingNotes:
    """The paragraphs of "how to mark", in their order."""
    pages = tuple(each.page for each in notes)
    told = (
        Said("marking.same", ()),
        _many(pages),
        *_of_example(notes),
        _zigzag(pages),
        Said("marking.reading", ()),
    )
    return MarkingNotes(tuple((Said(f"{each.key}.head", ()), each) for each in told if each))


def _many(pages: Sequence[CertifiedPage]) -> Said | None:
    """The page with the most answers."""
    counted = [page for page in pages if (page.certificate.solutions or 0) > 1]
    page = max(counted, key=lambda page: page.certificate.solutions or 0, default=None)
    if page is None:
        return None
    return Said("marking.many", (page,), {"page": page}, page.certificate.solutions)


def _of_example(notes: Sequence[PageNotes]) -> Iterator[Said]:
    """The mirror, the ends and the sum, on a page of middling size whose numbers climb evenly."""
    fitting = [each for each in notes if step_of(each.page) and each.mirror]
    example = min(fitting, key=lambda each: abs(len(each.page.spots) - MIDDLING), default=None)
    if example is None or example.mirror is None:
        return
    page, count = example.page, len(example.page.spots)
    numbers, step = ascending(page), step_of(page)
    assert step is not None
    low, high = numbers[0], numbers[-1]
    shown: Values = {
        "page": page,
        "sum": write_like(low.value + high.value, numbers),
        "solution": tuple(page.solution.values()),
        "mirror": example.mirror,
    }
    yield Said("marking.mirror", (page,), shown)
    even = tuple(each.page for each in notes if step_of(each.page))
    yield Said("marking.ends", even, {"page": page, "a": low, "b": high})
    total = write_like(step.value * (count * (count - 1) // 2), numbers)
    sums: Values = {"page": page, "before": count - 1, "step": step, "total": total}
    yield Said("marking.sum", even, sums, count)


def _zigzag(pages: Sequence[CertifiedPage]) -> Said | None:
    """What to look for in a class: the one way that solves most pages."""
    solved: dict[str, tuple[CertifiedPage, tuple[Number, ...]]] = {}
    for page in pages:
        found = zigzag(page)
        if found:
            solved[page.id] = (page, found)
    if not solved:
        return None
    # The longer the line, the better the zigzag shows; few given numbers stand in its way.
    page, arranged = max(
        solved.values(), key=lambda each: (-len(each[0].given), _near_middling(each[0]))
    )
    values: Values = {
        "page": page,
        "solution": arranged,
        "all": len(pages),
    }
    return Said("marking.zigzag", tuple(each for each, _ in solved.values()), values, len(solved))


def _near_middling(page: CertifiedPage) -> int:
    return -abs(len(page.spots) - MIDDLING)
