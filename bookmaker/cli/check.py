"""``check``: a book or a chapter certified and laid out, and nothing written."""

from __future__ import annotations

import json
from pathlib import Path

import typer

from bookmaker.classroom.class_book import Edition
from bookmaker.cli.codes import BAD_INPUT, DONE
from bookmaker.cli.surroundings import build_context, existing, known_paper
from bookmaker.cli.tell import in_order_of_place, page_table, tell_count, tell_problems
from bookmaker.compile import Prepared, prepare
from bookmaker.context import BuildOptions
from bookmaker.records import page_record, problem_record

OF_LAYOUT = ("no-clean-layout",)


def check_file(file: Path, wanted: tuple[str | None, Edition | None], as_json: bool) -> int:
    """Print what is certain of ``file`` and what is wrong with it; gives the exit code.

    ``wanted`` are the paper and the class, None for the book's own and for none.
    """
    paper, edition = wanted
    options = BuildOptions(known_paper(paper), edition=edition)
    prepared = prepare(existing(file), options, build_context())
    if as_json:
        typer.echo(json.dumps(_record(prepared, file.parent), ensure_ascii=False, indent=1))
    else:
        tell_problems(prepared.problems)
        if prepared.ordered and prepared.ordered.pages:
            typer.echo(page_table(prepared.ordered))
        tell_count(prepared.problems)
    return DONE if prepared.is_sound else BAD_INPUT


def _record(prepared: Prepared, folder: Path) -> dict[str, object]:
    """Pages without a problem of their own; what only layout refuses is no page's own fault."""
    faulty = {
        (problem.file, problem.page)
        for problem in prepared.problems
        if problem.severity == "problem" and problem.code not in OF_LAYOUT
    }
    ordered = prepared.ordered.pages if prepared.ordered else ()
    pages = [page for page in ordered if (page.file, page.name) not in faulty]
    return {
        "pages": [page_record(page, folder) for page in pages],
        "problems": [problem_record(p) for p in in_order_of_place(prepared.problems)],
    }
