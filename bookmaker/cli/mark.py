"""``mark``: an answer marked by its clashes, in a teacher's words."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator, Sequence
from fractions import Fraction
from pathlib import Path
from typing import Any

import typer

from bookmaker.classroom.class_book import Edition
from bookmaker.cli.codes import BAD_INPUT, DONE, CommandFault
from bookmaker.cli.surroundings import build_context, existing
from bookmaker.cli.tell import table, tell_problems
from bookmaker.compile import prepare
from bookmaker.context import BuildOptions
from bookmaker.model import InputProblems, Page, letter, written_as
from bookmaker.ordering import Part, take_part
from bookmaker.puzzle import Marking, Mend
from bookmaker.teaching import answer_of, answers_of_class, mark_answer, page_to_mark

FEW_CHANGES = 6
"""Changes up to which they are listed where fewer might do."""


def mark_page(
    of: tuple[Path, Edition | None],
    asked: str,
    told: Sequence[str],
    pupils: Path | None,
    as_json: bool,
) -> int:
    """Mark one answer from the command line, or a class's from a table; gives the exit code.

    ``of`` are the manifest and the class whose drawings are on its pages.
    """
    page = _page(*of, asked)
    if pupils is not None and told:
        raise CommandFault("Give one answer on the command line, or --pupils FILE; not both.")
    if pupils is not None:
        return _mark_class(page, existing(pupils), as_json)
    if not told:
        raise CommandFault(f"Say what stands in the spots: {page.spot_names[0]}=1 and so on.")
    marking = mark_answer(page, answer_of(page, told))
    if as_json:
        typer.echo(json.dumps(_record(page, marking), ensure_ascii=False, indent=1))
    else:
        for line in _lines(page, marking):
            typer.echo(line)
        if not marking.right:
            typer.echo(_letters(page))
    return DONE


def _page(manifest: Path, edition: Edition | None, asked: str) -> Page:
    """The page that is asked for; with a class, as its sheet has it; with numbers for the grade, as
    its week has it."""
    context = build_context()
    if edition is None:
        page = page_to_mark(existing(manifest), asked, context.cache, context.seed)
        if not page.graded:
            return page
    prepared = prepare(existing(manifest), BuildOptions(edition=edition), context)
    if prepared.ordered is None or not prepared.is_sound:
        raise InputProblems(prepared.problems)
    return take_part(prepared.ordered, Part(pages=(asked,)))[0].pages[0]


def _mark_class(page: Page, file: Path, as_json: bool) -> int:
    """Mark every row that can be read; the others are told, and are what the exit code tells."""
    answers, problems = answers_of_class(page, file)
    tell_problems(problems)
    marked = [(pupil, mark_answer(page, answer)) for pupil, answer in answers]
    code = BAD_INPUT if problems else DONE
    if as_json:
        records = [{"pupil": pupil, **_record(page, marking)} for pupil, marking in marked]
        typer.echo(json.dumps(records, ensure_ascii=False, indent=1))
        return code
    rows = [("pupil", "result", "what to say")]
    for pupil, marking in marked:
        _, *rest = _lines(page, marking)
        said = " ".join(rest) or "All differences are different."
        rows.append((pupil, "right" if marking.right else "not yet", said))
    if marked or not problems:
        typer.echo(table(rows))
    if problems:
        left = "1 row was" if len(problems) == 1 else f"{len(problems)} rows were"
        print(f"{left} left out.", file=sys.stderr)
    return code


def _record(page: Page, marking: Marking) -> dict[str, Any]:
    names = page.spot_names
    links = [link.name for link in page.links]
    return {
        "page": page.id,
        "right": marking.right,
        "clashes": [
            {"difference": _text(page, c.difference), "links": [links[i] for i in c.links]}
            for c in marking.clashes
        ],
        "swap": [names[v] for v in marking.swap] if marking.swap else None,
        "empty": [names[v] for v in marking.empty],
        "missing": [_text(page, number) for number in marking.missing],
        "repeated": {_text(page, x): [names[v] for v in vs] for x, vs in marking.repeated},
        "foreign": [names[v] for v in marking.foreign],
        "moved": [names[v] for v in marking.moved],
        "miscalculations": [
            {
                "link": links[m.link],
                "written": _text(page, m.written),
                "right": _text(page, m.right),
            }
            for m in marking.miscalculations
        ],
        "mends_at_clashes": marking.mends_at_clashes,
        "mend": marking.mend and {names[v]: _text(page, x) for v, x in marking.mend.changes},
        "mend_is_fewest": marking.mend and marking.mend.proved,
    }


def _lines(page: Page, marking: Marking) -> Iterator[str]:
    """The marking in words: the verdict first, then each thing to mend."""
    names = page.spot_names
    links = [link.name for link in page.links]
    yield "Right: all differences are different." if marking.right else "Not yet."
    for spot in marking.empty:
        yield f"{names[spot]} has no number."
    for spot in marking.foreign:
        yield f"The number at {names[spot]} is none of this page's."
    for spot in marking.moved:
        yield f"The number at {names[spot]} was given and has to stay."
    for number, spots in marking.repeated:
        yield f"{_text(page, number)} stands in {_listed([names[v] for v in spots])}."
    if marking.missing:
        yield f"Not used: {_listed([_text(page, number) for number in marking.missing])}."
    for clash in marking.clashes:
        which = _listed([links[i] for i in clash.links])
        word = "both" if len(clash.links) == 2 else "all"
        many = {2: "Two", 3: "Three", 4: "Four", 5: "Five"}.get(len(clash.links), "Many")
        yield f"{many} the same: {which} {word} give {_text(page, clash.difference)}."
    for slip in marking.miscalculations:
        right, written = _text(page, slip.right), _text(page, slip.written)
        yield f"{links[slip.link]} is {right}, not {written}."
    yield from _mending(page, marking)


def _letters(page: Page) -> str:
    """Which spot is which, for those who have the key's picture before them."""
    told = (f"{letter(place)} {name}" for place, name in enumerate(page.spot_names))
    return f"In the key: {', '.join(told)}."


def _mending(page: Page, marking: Marking) -> Iterator[str]:
    """How the answer is mended, where that is known."""
    if marking.swap:
        one, other = (page.spot_names[v] for v in marking.swap)
        yield f"One swap mends it: exchange the numbers at {one} and {other}."
    elif marking.mend:
        yield _about_mend(page, marking.mend)


def _about_mend(page: Page, mend: Mend) -> str:
    """The changes that mend an answer, and whether they are the fewest."""
    count = len(mend.changes)
    numbers = "1 number has" if count == 1 else f"{count} numbers have"
    if not mend.proved and count > FEW_CHANGES:
        return f"At most {numbers} to change."
    which = _listed([f"{_text(page, x)} at {page.spot_names[v]}" for v, x in mend.changes])
    if mend.proved:
        return f"{numbers} to change, no fewer will do: write {which}."
    return f"At most {numbers} to change: write {which}."


def _listed(names: Sequence[str]) -> str:
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last


def _text(page: Page, value: Fraction) -> str:
    return written_as(value, page.numbers).text
