"""Issuing: which sheets are to be printed; roster, pages and register in, the new register out.

What stands in the register stays: sheets that are out keep their pupil, page and marks.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from bookmaker.classroom.dealing import deal
from bookmaker.classroom.sheet_page import FREE, rings_of
from bookmaker.model import CertifiedPage, Classroom, Drawn, Problem, Pupil, SheetEntry, pupil_key
from bookmaker.scanning.pale import PaleMarks, write_pale
from bookmaker.scanning.sheet_plan import FORMAT, MOST_SHEETS


class NoSuchSheet(Exception):
    """A sheet was to be given to a pupil and can't be; the message says why."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What is asked for: ``spare`` sheets that nobody has yet, with ``free`` rings on each (0: they
    have a page), spare sheets that get their pupil, as (number, name), and drawings on copied
    sheets that get another, as ("12_2", name): each becomes a sheet of its own."""

    paper: str
    spare: int = 0
    free: int = 0
    assign: tuple[tuple[int, str], ...] = ()
    copies: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Issue:
    """The register as it is to be, the numbers that are new in it, what is to be told, and the
    new numbers of drawings on copied sheets."""

    register: tuple[SheetEntry, ...]
    new: tuple[int, ...]
    problems: tuple[Problem, ...]
    copies: tuple[tuple[str, int], ...] = ()


def issue(
    classroom: Classroom,
    pages: Sequence[CertifiedPage],
    register: Sequence[SheetEntry],
    wish: Wish,
    numbered: tuple[str, int],
    tree_of: Callable[[str], Drawn | Problem],
) -> Issue:
    """A row for every pupil of the roster, and spare ones.

    ``pages`` are in the order of the ramp; ``numbered`` is the class's code and the highest number
    that was ever printed; ``tree_of`` lays a page out, by its id, on the wish's paper. Raises
    NoSuchSheet.
    """
    rows, copies = _copied(_assigned(register, wish.assign), wish.copies, numbered[1])
    known = {pupil_key(row.pupil) for row in rows}
    fresh = tuple(pupil for pupil in classroom.pupils if pupil_key(pupil.name) not in known)
    given, problems = deal(replace(classroom, pupils=fresh), pages, [row.page for row in rows])
    alike = [row for row in rows if not row.pupil and rings_of(row.page) == wish.free]
    blank = max(0, wish.spare - len(alike))
    wanted = [(pupil.name, given[pupil.name]) for pupil in fresh if pupil.name in given]
    wanted += [("", page) for page in _spare_pages(classroom, pages, rows, given, wish, blank)]
    code, number = numbered[0], numbered[1] + len(copies)
    if number + len(wanted) > MOST_SHEETS:
        raise NoSuchSheet(_too_many(len(wanted), MOST_SHEETS - number))
    new: list[SheetEntry] = []
    refused: dict[str, Problem] = {}
    for pupil, page in wanted:
        tree = Drawn(0, 0, (), (), ()) if rings_of(page) else tree_of(page)
        if isinstance(tree, Problem):
            refused[page] = tree
            continue
        number += 1
        marks = write_pale(PaleMarks(tree.spots, tree.links, tree.tags))
        new.append(SheetEntry(number, pupil, page, wish.paper, code, marks, FORMAT))
    told = (*problems, *refused.values(), *_held(classroom, rows), *_strange(classroom, rows))
    numbers = tuple(row.sheet for row in new)
    return Issue((*rows, *new), numbers, told, copies)


def _copied(
    rows: tuple[SheetEntry, ...], copies: Sequence[tuple[str, str]], highest: int
) -> tuple[tuple[SheetEntry, ...], tuple[tuple[str, int], ...]]:
    """The register with a row for each drawing that was made on a copy, and their numbers."""
    known = {row.sheet: row for row in rows}
    given: list[tuple[str, int]] = []
    for number, (drawing, pupil) in enumerate(copies, highest + 1):
        printed = int(drawing.partition("_")[0])
        if printed not in known:
            raise NoSuchSheet(f"There is no sheet {printed} in the register.")
        known[number] = replace(known[printed], sheet=number, pupil=pupil)
        given.append((drawing, number))
    return tuple(known[number] for number in sorted(known)), tuple(given)


def _assigned(
    register: Sequence[SheetEntry], assign: Sequence[tuple[int, str]]
) -> tuple[SheetEntry, ...]:
    rows = {row.sheet: row for row in register}
    for number, name in assign:
        if number not in rows:
            raise NoSuchSheet(f"There is no sheet {number} in the register.{_spares(register)}")
        if rows[number].pupil and pupil_key(rows[number].pupil) != pupil_key(name):
            raise NoSuchSheet(f"Sheet {number} is given to a pupil already.{_spares(register)}")
        rows[number] = replace(rows[number], pupil=rows[number].pupil or name)
    return tuple(rows[number] for number in sorted(rows))


def _too_many(wanted: int, left: int) -> str:
    most = f"The sheets of a class are numbered up to {MOST_SHEETS}"
    return f"{most}; {wanted} new ones are wanted and {left} are left. Ask for fewer spare ones."


def _spares(register: Sequence[SheetEntry]) -> str:
    free = [str(row.sheet) for row in register if not row.pupil]
    return f" Spare are {', '.join(free)}." if free else " Print spare ones with --spare."


def _spare_pages(
    classroom: Classroom,
    pages: Sequence[CertifiedPage],
    rows: Sequence[SheetEntry],
    given: dict[str, str],
    wish: Wish,
    count: int,
) -> Iterator[str]:
    """Pages for spare sheets: free ones, or those that the fewest have."""
    if wish.free:
        yield from [f"{FREE}:{wish.free}"] * count
        return
    nobody = tuple(Pupil(str(place)) for place in range(count))
    dealt = [*(row.page for row in rows), *given.values()]
    spare, _ = deal(replace(classroom, pupils=nobody), pages, dealt)
    yield from spare.values()


def _held(classroom: Classroom, rows: Sequence[SheetEntry]) -> Iterator[Problem]:
    """Pupils whose roster asks for another page than their sheet has."""
    for row in rows:
        pupil = classroom.pupil(row.pupil) if row.pupil else None
        if pupil and pupil.page and pupil.page != row.page:
            page = "a drawing of its own" if rings_of(row.page) else row.page
            message = f"the roster says {pupil.page}, and sheet {row.sheet} is out for {page}"
            mend = "The sheet holds. Give a spare one with --assign if it is to be another page."
            yield _warning(classroom, pupil, message, mend)


def _strange(classroom: Classroom, rows: Sequence[SheetEntry]) -> Iterator[Problem]:
    """Pupils who have a sheet and are not in the roster, which says what may be printed."""
    for row in rows:
        if row.pupil and classroom.pupil(row.pupil) is None:
            message = f"sheet {row.sheet} is given to a pupil who is not in the roster"
            mend = "Add a row of that name, with class or own in the column drawing; else no "
            mend += "drawing is kept."
            file = classroom.roster_file
            yield Problem(file, 0, row.pupil, "not-in-roster", message, mend, "warning")


def _warning(classroom: Classroom, pupil: Pupil, message: str, mend: str) -> Problem:
    return Problem(
        classroom.roster_file, pupil.line, pupil.name, "sheet-holds", message, mend, "warning"
    )
