"""Findings told: problems on stderr, tables on stdout."""

from __future__ import annotations

import re
import shutil
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path
from textwrap import wrap

from bookmaker.model import Certificate, OrderedBook, Problem

GAP = "  "
NARROW = 30
"""Signs; sentences in a narrower column are hard to read."""


def tell_problems(problems: Iterable[Problem]) -> None:
    """Every problem a line on stderr, sorted by file and line, problems and warnings alike."""
    for problem in in_order_of_place(problems):
        print(problem, file=sys.stderr)


def tell_count(problems: Iterable[Problem], placed: Sequence[Path] = ()) -> None:
    """A last line on stderr where problems stand in the way of a book.

    ``placed`` are the files that were written before they were met.
    """
    count = sum(problem.severity == "problem" for problem in problems)
    if count:
        many = "One problem stands" if count == 1 else f"{count} problems stand"
        written = ", ".join(map(str, placed))
        rest = f"written before that: {written}" if placed else "nothing was written"
        print(f"{many} in the way; {rest}.", file=sys.stderr)


def in_order_of_place(problems: Iterable[Problem]) -> list[Problem]:
    return sorted(problems, key=lambda p: (p.file, p.line, p.page, p.code, p.message))


def page_table(ordered: OrderedBook) -> str:
    """The pages in the book's order with what is certain of each."""
    rows = [("page", "chapter", "spots", "solutions", "one in", "work", "band")]
    for page in ordered.pages:
        certificate = page.certificate
        rows.append(
            (
                page.name,
                page.chapter,
                str(len(page.spots)),
                "uncounted" if certificate.solutions is None else str(certificate.solutions),
                rarity(certificate),
                f"{certificate.work:.0f}" + ("~" if certificate.work_error else ""),
                certificate.band,
            )
        )
    return table(rows)


def rarity(certificate: Certificate) -> str:
    """N of one in N, in three digits; "-" where it is beyond counting."""
    return "-" if certificate.one_in is None else f"{certificate.one_in:.3g}"


def table(rows: Sequence[Sequence[str]], most: int | None = None) -> str:
    """Rows in columns, the first row being the heads; numbers stand to the right.

    Where ``most`` signs a line are too few, the last column is broken into lines; where even that
    leaves it narrow, it stands below the others.
    """
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    right = [all(_is_figure(row[i]) for row in rows[1:]) for i in range(len(rows[0]))]
    before = sum(widths[:-1]) + len(GAP) * (len(widths) - 1)
    lines = []
    for row in rows:
        cells = [
            cell.rjust(width) if to_right else cell.ljust(width)
            for cell, width, to_right in zip(row, widths, right, strict=True)
        ]
        if most is None or before + widths[-1] <= most:
            lines.append(GAP.join(cells).rstrip())
        elif most - before >= NARROW:
            first, *more = wrap(row[-1], most - before)
            lines.append(GAP.join((*cells[:-1], first)))
            lines += [" " * before + line for line in more]
        else:
            lines.append(GAP.join(cells[:-1]).rstrip())
            indent = widths[0] + len(GAP)
            below = wrap(row[-1], max(NARROW, most - indent))
            lines += [" " * indent + line for line in below]
    return "\n".join(lines)


def many(count: int, thing: str) -> str:
    """``count`` of a ``thing`` whose plural ends in s."""
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"


def terminal_width() -> int | None:
    """Signs on a line of the terminal that stdout is, None where it is none."""
    return shutil.get_terminal_size().columns if sys.stdout.isatty() else None


def _is_figure(cell: str) -> bool:
    """A number, what stands for one, or "1.3 of 5"; not a chapter's name like "01-spring"."""
    return cell in ("-", "uncounted") or re.fullmatch(r"[\d.,e+~]+( of \d+)?", cell) is not None
