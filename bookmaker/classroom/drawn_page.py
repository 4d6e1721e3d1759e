"""One page of a class's book: the book's page and a row of the register in, the drawn page out."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

from bookmaker.classroom.sheet_page import FREE
from bookmaker.model import (
    Drawn,
    Link,
    Number,
    Page,
    PlacedSpot,
    Point,
    Problem,
    Pupil,
    SheetEntry,
    Spot,
    Wish,
    write_like,
)
from bookmaker.scanning.pale import PaleMarks, read_pale, write_pale
from bookmaker.scanning.sheet_plan import sheet_plan
from bookmaker.typeset import is_printable
from bookmaker.words import Words


def drawn_page(
    page: Page, entry: SheetEntry, pupil: Pupil, drawing: Path, words: Words
) -> Page | Problem:
    """``page`` with a pupil's ``drawing`` for its picture and the tree that the sheet had.

    Its title is what the roster calls the creature; its artist the pupil where the roster lets the
    name be printed, else the sheet's number.
    """
    marks = read_pale(entry.marks)
    numbers = _numbers(page, len(marks.spots))
    if numbers is None:
        message = (
            f"the page has {len(page.spots)} spots now, the sheet {len(marks.spots)}, and its "
        )
        message += "numbers do not go on that far"
        mend = "Give the page a longer list of numbers."
        return Problem(page.file, page.line_of("numbers"), page.name, "bad-value", message, mend)
    is_titled = pupil.creature and is_printable(pupil.creature)
    title = pupil.creature if is_titled else words("class.creature", number=entry.sheet)
    named = pupil.credit or pupil.name
    may_be_named = pupil.show_name and is_printable(named)
    return replace(
        _with_tree(page, marks, entry),
        name=title,
        art=drawing,
        mark=None,
        artist=named if may_be_named else words("class.artist", number=entry.sheet),
        licence="",
        description=words("class.drawing", title=title),
        numbers=numbers,
        line=pupil.line,
        lines=(),
        sheet=entry.sheet,
    )


def free_page(
    template: Page,
    entry: SheetEntry,
    pupil: Pupil,
    drawing: tuple[Path, tuple[Point, ...]],
    words: Words,
) -> Page | Problem:
    """A page of its own for a free sheet: spots where the child drew rings, links left to us.

    ``template`` is a page of the book, whose numbers go on; ``drawing`` the picture's file and the
    rings' middles in millimetres.
    """
    file, rings = drawing
    marks = PaleMarks(tuple(PlacedSpot(f"ring{i}", x, y, 10) for i, (x, y) in enumerate(rings, 1)))
    page = drawn_page(
        replace(template, given=()), replace(entry, marks=write_pale(marks)), pupil, file, words
    )
    if isinstance(page, Problem):
        return page
    return replace(
        page,
        id=f"{FREE}-sheet-{entry.sheet}",
        drawn=None,
        links=(),
        wish=Wish(),
        position=None,
        fixed=False,
    )


def has_other_tree(page: Page, made: Page) -> bool:
    """Whether two pages do not have the same spots and links, by their names."""
    if not page.links:  # chosen anew for every build
        return set(page.spot_names) != set(made.spot_names)
    return _tree(page) != _tree(made)


def sheet_holds(page: Page, sheet: int) -> Problem:
    """A warning: the book's page is not what it was when the sheet was printed."""
    message = f"its spots or links have changed since sheet {sheet} was printed"
    mend = "The sheet's own hold for the drawing; print a new sheet if that will not do."
    return Problem(
        page.file, page.line_of("spots"), page.name, "sheet-holds", message, mend, "warning"
    )


def _with_tree(page: Page, marks: PaleMarks, entry: SheetEntry) -> Page:
    frame = sheet_plan(entry.paper).frame
    wide, high = frame.width, frame.height
    names = {spot.name for spot in marks.spots}
    return replace(
        page,
        spots=tuple(Spot(s.name, 100 * s.x / wide, 100 * s.y / high) for s in marks.spots),
        links=tuple(Link(*link.name.split("-")) for link in marks.links),
        given=tuple((name, number) for name, number in page.given if name in names),
        drawn=Drawn(wide, high, marks.spots, marks.links, marks.tags),
        fixed=True,
        turn=False,
        wish=None,
        unplaced=False,
    )


def _tree(page: Page) -> tuple[frozenset[str], frozenset[frozenset[str]]]:
    return frozenset(page.spot_names), frozenset(frozenset(link.ends) for link in page.links)


def _numbers(page: Page, count: int) -> tuple[Number, ...] | None:
    """As many of the page's numbers as the sheet has spots, going on as they do."""
    numbers = list(page.numbers)
    steps = {b.value - a.value for a, b in pairwise(numbers)}
    if count > len(numbers) and len(steps) != 1:
        return None
    while len(numbers) < count:
        step: Fraction = next(iter(steps))
        numbers.append(write_like(numbers[-1].value + step, (numbers[0], numbers[1])))
    return tuple(numbers[:count])
