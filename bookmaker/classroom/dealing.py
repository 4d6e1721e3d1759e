"""Dealing: which page each pupil draws for, in the order of the ramp or as the teacher says."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from bookmaker.model import CertifiedPage, Classroom, Problem, Pupil
from bookmaker.ordering import nearest


def deal(
    classroom: Classroom, pages: Sequence[CertifiedPage], dealt: Iterable[str]
) -> tuple[dict[str, str], tuple[Problem, ...]]:
    """A page id for each pupil, by name; and the problems of rows that can't have one.

    ``pages`` are the book's in the order of the ramp, ``dealt`` the page ids that are out already.
    A row's own page is taken; then pages with its number of spots; else the next of the ramp. Of
    those that would do the least dealt comes first, so that pages are shared evenly.
    """
    shared = Counter(dealt)
    known = {page.id: page for page in pages}
    given: dict[str, str] = {}
    problems: list[Problem] = []
    for pupil in sorted(classroom.pupils, key=lambda each: not each.page):
        found = _page_for(pupil, pages, shared)
        if pupil.page and pupil.page not in known:
            problems.append(_unknown_page(classroom, pupil, list(known)))
        elif found is None:
            problems.append(_no_such_size(classroom, pupil, pages))
        else:
            given[pupil.name] = found
            shared[found] += 1
    return given, tuple(problems)


def _page_for(pupil: Pupil, pages: Sequence[CertifiedPage], shared: Counter[str]) -> str | None:
    if pupil.page:
        return pupil.page
    fitting = [p.id for p in pages if pupil.spots in (None, len(p.spots))]
    return min(fitting, key=lambda page: shared[page], default=None)


def _unknown_page(classroom: Classroom, pupil: Pupil, known: list[str]) -> Problem:
    message = f"the book has no page {pupil.page!r}"
    hint = nearest(pupil.page, known) or f" Its pages are {', '.join(known)}."
    mend = f"Write the id of a page, or leave it empty.{hint}"
    return Problem(classroom.roster_file, pupil.line, pupil.name, "unknown-page", message, mend)


def _no_such_size(classroom: Classroom, pupil: Pupil, pages: Sequence[CertifiedPage]) -> Problem:
    sizes = ", ".join(str(size) for size in sorted({len(page.spots) for page in pages}))
    message = f"the book has no page with {pupil.spots} spots"
    mend = f"Its pages have {sizes}: write one of these, or leave it empty."
    return Problem(classroom.roster_file, pupil.line, pupil.name, "unknown-page", message, mend)
